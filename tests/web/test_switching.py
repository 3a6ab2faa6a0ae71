"""Hookups on the page: brought in, flipped, judged, drawn by hand, planned, built, let in to."""

import json
import re
from html import unescape

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from setday.actions.hookups import example_names, example_text, open_hookup
from setday.drawing import point_key
from setday.switching import FEED, PANEL, judge, stage_of, try_hookup
from setday.web.keeping.hookups import keep_hookup
from setday.web.keeping.models import HookupDrawing, HookupVersion, KeptHookup

HALL = example_text("three-way-light-between").replace("Hall light between its two switches", "Hall light")
BROKEN = HALL.replace("feed black + S1 common", "feed black + S1 comon").replace(
    "N2: 14/3 light to far", "N2: 14/3 light to fra"
)
LINE = 1 + HALL[: HALL.index("feed black + S1 common")].count("\n")
HERE = "/hookups/hall-light/"


def page(answer):
    return unescape(answer.content.decode())


@pytest.fixture
def hall(db):
    """Return the hall light, kept."""
    return keep_hookup(name="Hall light", file_name="hall.yaml", text=HALL)


def the_hall():
    return open_hookup(HALL, name="hall.yaml").sound()


def kept_joins():
    return [[point_key(point) for point in join.points] for join in the_hall().joins]


def draw_all(browser, address=f"{HERE}draw/"):
    """Tap every join of the kept hookup, and mark its whites."""
    for join in kept_joins():
        for other in join[1:]:
            browser.post(address, {"tap": join[0]})
            browser.post(address, {"tap": other})
    for cable in the_hall().cables:
        if cable.remarked:
            browser.post(address, {"mark": cable.name})


# ---- brought in


@pytest.mark.parametrize("name", example_names())
def test_every_standard_circuit_can_be_taken_as_a_start(desk, name):
    typed = page(desk.get(f"/hookups/new/?start={name}"))
    assert example_text(name).strip() in typed
    answer = desk.post("/hookups/new/", {"text": example_text(name)}, follow=True)
    assert answer.status_code == 200
    assert answer.redirect_chain[0][0] == f"/hookups/{KeptHookup.objects.get().key}/"


def test_a_file_with_problems_is_refused_and_each_finding_stands_beside_its_line(desk):
    answer = desk.post("/hookups/new/", {"text": BROKEN})
    assert answer.status_code == 422
    assert not KeptHookup.objects.exists()
    row, below = page(answer).split(f'id="line-{LINE}"')[1].split("</tr>")[:2]
    assert "S1 comon" in row
    assert "finding problem" in below
    assert page(answer).count("finding problem") > 1, "several at once"
    assert BROKEN.strip() in page(answer)


def test_a_picked_file_is_read_like_a_typed_one(desk):
    desk.post("/hookups/new/", {"file": SimpleUploadedFile("my hall.yaml", HALL.encode())})
    assert HookupVersion.objects.get().file_name == "my hall.yaml"
    assert HookupVersion.objects.get().text == HALL


@pytest.mark.parametrize(
    "data", [b"PK\x03\x04" + bytes(300), b"\xff\xfen\0", b"", b"- a\n- b\n", b"x: &a [*a]"]
)
def test_what_is_no_hookup_file_is_refused_in_words(desk, data):
    answer = desk.post("/hookups/new/", {"file": SimpleUploadedFile("x.yaml", data)})
    assert answer.status_code == 422
    assert "finding problem" in page(answer)
    assert not KeptHookup.objects.exists()


def test_checking_keeps_nothing(desk):
    assert "problems" in page(desk.post("/hookups/check/", {"text": BROKEN}))
    assert "can be kept" in page(desk.post("/hookups/check/", {"text": HALL}))
    assert not KeptHookup.objects.exists()


def test_questions_are_answered_before_a_file_is_kept(desk):
    text = HALL.replace("  - L1 from S1 and S2", "  - L1 from S1")
    assert desk.post("/hookups/new/", {"text": text}).status_code == 422
    desk.post("/hookups/new/", {"text": text, "as_meant": "yes"})
    assert KeptHookup.objects.count() == 1


def test_a_change_becomes_another_version_and_the_first_stays(desk, hall):
    changed = HALL.replace("lamp 60 W", "lamp 100 W")
    desk.post(f"{HERE}file/edit/", {"text": changed, "note": "larger lamp"})
    assert [(v.number, v.note) for v in hall.versions.all()] == [(2, "larger lamp"), (1, "")]
    assert "lamp 60 W" in page(desk.get(f"{HERE}file/?version=1"))
    refused = desk.post(f"{HERE}file/edit/", {"text": BROKEN, "note": "oops"})
    assert (refused.status_code, hall.versions.count()) == (422, 2)
    assert 'value="oops"' in page(refused)


def test_a_kept_file_that_a_later_setday_finds_wrong_is_shown_not_hidden(desk, hall):
    HookupVersion.objects.create(hookup=hall, number=2, file_name="x.yaml", text=BROKEN)
    for sheet in ("", "judge/", "draw/", "plan/", "stage/", "hookup.pdf"):
        answer = desk.get(f"{HERE}{sheet}", follow=True)
        assert answer.redirect_chain == [(f"{HERE}file/", 302)]
        assert "finding problem" in page(answer)


def test_a_hookup_leaves_the_list_and_comes_back(desk, hall):
    desk.post(f"{HERE}put-away/")
    assert HERE not in page(desk.get("/hookups/"))
    assert HERE in page(desk.get("/hookups/put-away/"))
    desk.post(f"{HERE}put-away/", {"back": "yes"})
    assert HERE in page(desk.get("/hookups/"))


def test_a_house_leads_to_its_hookups(desk, shed, hall):
    assert "/houses/practice-shed/hookups/" in page(desk.get("/houses/practice-shed/"))
    assert HERE not in page(desk.get("/houses/practice-shed/hookups/"))
    desk.post(f"{HERE}versions/", {"house": "practice-shed"})
    assert HERE in page(desk.get("/houses/practice-shed/hookups/"))
    desk.post("/hookups/new/?house=practice-shed", {"text": HALL})
    assert KeptHookup.objects.filter(house=shed).count() == 2


# ---- flipped and looked at


def data_of(answer):
    return json.loads(answer.content.decode().split('type="application/json">')[1].split("</script>")[0])


@pytest.mark.parametrize("name", example_names())
def test_the_page_carries_what_the_circuit_does_in_every_position(desk, name):
    desk.post("/hookups/new/", {"text": example_text(name)})
    table = data_of(desk.get(f"/hookups/{KeptHookup.objects.get().key}/"))
    trial = try_hookup(open_hookup(example_text(name), name=name).sound())
    assert len(table["positions"]) == 2 ** len(trial.hookup.switches)
    keys = [key for key, _, _ in table["points"]]
    for tried in trial.positions:
        told = table["positions"]["".join(map(str, tried.position))]
        assert told["looks"] == [seen.look for seen in tried.loads]
        assert told["opens"] == tried.breaker.opens
        live = {key for key, sign in zip(keys, told["points"], strict=True) if int(sign) & 1}
        live.discard(f"{PANEL}|{FEED}|black")
        assert live == {point_key(point) for point in tried.live}


def test_with_the_breaker_open_nothing_is_told_live(desk):
    shorted = HALL.replace("    - N1 white + L1 silver\n", "").replace(
        "    - N2 black + L1 brass\n", "    - N2 black + L1 brass + N1 white + L1 silver\n"
    )
    assert shorted != HALL
    desk.post("/hookups/new/", {"text": shorted})
    answer = desk.get(f"{HERE}?at=11")
    told = data_of(answer)["positions"]["11"]
    assert told["opens"]
    assert set(told["points"]) == {"0"}
    assert "opens: dead short to the neutral" in page(answer)
    assert "breaker OPEN" in page(answer)


def test_without_a_script_each_switch_is_a_button_and_a_link_to_the_next_position(desk, hall):
    text = page(desk.get(f"{HERE}?at=10"))
    assert re.findall(r'name="at" value="(\d+)"', text) == ["00", "11"]
    assert text.count('href="?at=00"') == 2
    assert "S1 up, S2 down. L1 off. Breaker holds." in text
    assert "Every lamp is off, and this is still energized" in text


@pytest.mark.parametrize("at", ["1", "111", "xy", "", "²²", "1" * 5000])
def test_a_position_that_is_none_shows_every_handle_down(desk, hall, at):
    assert 'data-at="00"' in page(desk.get(HERE, {"at": at}))


def test_the_printed_page_is_handed_out(desk, hall):
    answer = desk.get(f"{HERE}hookup.pdf")
    assert answer.content.startswith(b"%PDF")


# ---- judged


def test_a_right_hookup_is_said_to_do_what_is_wanted(desk, hall):
    assert "It does what is wanted in all 4 positions." in page(desk.get(f"{HERE}judge/"))


def test_a_wrong_one_is_told_with_box_and_terminal_and_what_would_mend_it(desk):
    wrong = (
        HALL.replace("feed black + S1 common", "feed black + S1 traveler 9")
        .replace("N1 black + S1 traveler 1", "N1 black + S1 common")
        .replace("traveler 9", "traveler 1")
    )
    desk.post("/hookups/new/", {"text": wrong})
    text = page(desk.get(f"{HERE}judge/"))
    mend = judge(open_hookup(wrong, name="x").sound()).mends[0].steps[0]
    assert "It does not do what is wanted yet." in text
    assert mend in text


def test_a_code_finding_names_its_section(desk):
    desk.post("/hookups/new/", {"text": HALL.replace("re-marked:\n  - N2 white\n", "")})
    assert "200.7(C)" in page(desk.get(f"{HERE}judge/")).split("Held against")[0]


# ---- drawn by hand


def test_the_bench_begins_with_nothing_joined_and_tells_nothing_of_the_kept_joins(desk, hall):
    text = page(desk.get(f"{HERE}draw/"))
    assert 'name="apart"' not in text
    for join in the_hall().joins:
        assert str(join) not in text


def test_tapping_two_ends_joins_them_and_it_stays(desk, hall):
    first = desk.post(f"{HERE}draw/", {"tap": "near|feed|black"}, follow=True)
    assert "feed black is picked" in page(first)
    second = desk.post(f"{HERE}draw/", {"tap": "near|S1|common"}, follow=True)
    assert "feed black and S1 common are joined." in page(second)
    assert "feed black + S1 common" in page(desk.get(f"{HERE}draw/"))


def test_what_is_drawn_right_is_judged_right(desk, hall):
    draw_all(desk)
    text = page(desk.get(f"{HERE}draw/judge/"))
    assert "It does what is wanted in all 4 positions." in text
    assert "Nothing was found against them." in text
    assert data_of(desk.get(f"{HERE}draw/try/"))["positions"]["11"]["looks"] == ["full"]


@pytest.mark.parametrize(
    ("taps", "says"),
    [
        (["near|feed|black", "light|L1|brass"], "only what is in one box can touch"),
        (["near|feed|black", "near|feed|black"], "is let go"),
        (["near|feed|nothing"], "no such end"),
        (["panel|feed|black"], "no such end"),
        (["x" * 3000], "no such end"),
    ],
)
def test_a_tap_that_cannot_be_taken_is_said_and_nothing_drawn_is_lost(desk, hall, taps, says):
    for key in ("near|feed|white", "near|N1|white"):
        desk.post(f"{HERE}draw/", {"tap": key})
    for key in taps:
        answer = desk.post(f"{HERE}draw/", {"tap": key}, follow=True)
    assert says in page(answer)
    assert "feed white + N1 white" in page(answer)


def test_steps_are_undone_and_done_again_and_joins_taken_apart(desk, hall):
    address = f"{HERE}draw/"
    for key in ("near|feed|white", "near|N1|white", "near|feed|bare", "near|N1|bare"):
        desk.post(address, {"tap": key})

    def after(**pressed):
        text = page(desk.post(address, pressed, follow=True))
        return [each for each in ("feed white + N1 white", "feed bare + N1 bare") if each in text]

    assert after(do="undo") == ["feed white + N1 white"]
    assert after(do="redo") == ["feed white + N1 white", "feed bare + N1 bare"]
    assert after(apart="near|N1|white") == ["feed bare + N1 bare"]
    assert after(do="clear") == []
    assert after(do="undo") == ["feed bare + N1 bare"]
    assert after(do="undo") == ["feed white + N1 white", "feed bare + N1 bare"]
    assert after(do="nonsense") == ["feed white + N1 white", "feed bare + N1 bare"]


def test_a_part_of_the_page_is_the_bench_alone(desk, hall):
    answer = desk.post(f"{HERE}draw/", {"tap": "near|feed|black"}, headers={"HX-Request": "true"})
    assert answer.status_code == 200
    assert page(answer).lstrip().startswith("<form")
    assert 'id="pin-' in page(answer)


def test_a_form_without_its_mark_draws_nothing(hall, instructor):
    from django.test import Client

    strict = Client(enforce_csrf_checks=True)
    strict.force_login(instructor)
    assert strict.post(f"{HERE}draw/", {"tap": "near|feed|black"}).status_code == 403
    assert not HookupDrawing.objects.exists()


def test_a_changed_stage_keeps_the_joins_whose_ends_are_still_there(desk, hall):
    draw_all(desk)
    desk.post(f"{HERE}file/edit/", {"text": HALL.replace("S2", "S9")})
    text = page(desk.get(f"{HERE}draw/"))
    assert "feed black + S1 common" in text
    assert "+ S9 common" not in text


def test_what_would_mend_a_drawing_is_not_told_while_the_plan_is_sealed(desk, hall):
    for key in ("near|feed|black", "near|S1|common"):
        desk.post(f"{HERE}draw/", {"tap": key})
    assert "once the instructor has opened the plan" in page(desk.get(f"{HERE}draw/judge/"))
    desk.post(f"{HERE}plan/", {"do": "open"})
    assert "once the instructor has opened the plan" not in page(desk.get(f"{HERE}draw/judge/"))


# ---- planned


def test_the_plan_is_sealed_until_it_is_opened(desk, hall):
    sealed = page(desk.get(f"{HERE}plan/"))
    for told in ("<svg xmlns", "conductor-feet, w", str(the_hall().joins[0]), "14/3"):
        assert told not in sealed.split('id="sheet"')[1]
    desk.post(f"{HERE}plan/", {"do": "keep"})
    assert hall.versions.count() == 1
    desk.post(f"{HERE}plan/", {"do": "open"})
    opened = page(desk.get(f"{HERE}plan/"))
    assert "Least among all hookups" in opened
    assert "88" in opened, "22 ft of four conductors"
    desk.post(f"{HERE}plan/", {"do": "seal"})
    assert "Least among all hookups" not in page(desk.get(f"{HERE}plan/"))


def test_a_plan_is_kept_as_another_version_of_a_stage_without_joins(desk):
    stage = HALL[: HALL.index("cables:")] + HALL[HALL.index("wants:") :]
    desk.post("/hookups/new/", {"text": stage})
    desk.post(f"{HERE}plan/", {"do": "open"})
    answer = desk.post(f"{HERE}plan/", {"do": "keep"}, follow=True)
    assert "Kept as version 2" in page(answer)
    assert "It does what is wanted in all 4 positions." in page(desk.get(f"{HERE}judge/"))


def test_where_there_is_no_plan_it_is_said_what_would_help(desk):
    desk.post("/hookups/new/", {"text": HALL.replace("  - light to far, 10 ft\n", "", 1)})
    desk.post(f"{HERE}plan/", {"do": "open"})
    assert "No path leads from the feed's box to far" in page(desk.get(f"{HERE}plan/"))


# ---- the stage from forms


class Builder:
    """Fills in the forms of the stage one after the other, with the draft the page gives back."""

    def __init__(self, browser, address="/hookups/build/"):
        self.browser, self.address, self.text, self.answer = browser, address, "", None
        self.look(browser.get(address))

    def look(self, answer):
        self.answer = answer
        found = re.search(r'<textarea name="text"[^>]*>(.*?)</textarea>', answer.content.decode(), re.DOTALL)
        self.text = unescape(found[1]).lstrip("\n") if found else self.text
        return answer

    def put(self, part, **fields):
        return self.look(self.browser.post(self.address, {"text": self.text, "add": part, **fields}))

    def off(self, named):
        return self.look(self.browser.post(self.address, {"text": self.text, "off": named}))

    def keep(self, called):
        answer = {"text": self.text, "do": "keep", "called": called}
        return self.browser.post(self.address, answer, follow=True)


def test_a_stage_is_built_from_nothing_by_forms_alone(desk):
    stage = Builder(desk)
    stage.put("box", name="near", volume="18", column="1", row="1")
    stage.put("box", name="light", metal="on")
    stage.put("feed", box="near", kind="14/2", length="30 ft", breaker="15")
    stage.off("box:box 1")
    stage.put("device", name="S1", kind="single-pole switch", box="near")
    stage.put("device", name="L1", kind="lamp", box="light", watts="60")
    stage.put("cable", name="N1", kind="14/2", a="near", b="light", length="12'-6\"")
    stage.put("path", a="near", b="light", length="12.5")
    stage.put("want", load="L1", switches=["S1"])
    assert stage.answer.status_code == 200
    assert not KeptHookup.objects.exists(), "nothing is kept before the button that says so"
    answer = stage.keep("Closet light")
    assert answer.redirect_chain[-1][0] == "/hookups/closet-light/draw/"
    hookup = open_hookup(HookupVersion.objects.get().text, name="x").sound()
    assert hookup == stage_of(hookup)
    assert [box.name for box in hookup.boxes] == ["near", "light"]
    assert (hookup.cables[0].length_ft, hookup.feed.box) == (12.5, "near")
    assert str(hookup.wants[0]) == "L1 from S1"


@pytest.mark.parametrize(
    ("part", "fields", "says"),
    [
        ("box", {"name": ""}, "required"),
        ("box", {"name": "a: b"}, "letters, figures and spaces"),
        ("box", {"name": "big", "volume": "-3"}, "greater than or equal"),
        (
            "cable",
            {"name": "N1", "kind": "14/3", "a": "near", "b": "near", "length": "4"},
            "two different boxes",
        ),
        ("cable", {"name": "N9", "kind": "14/3", "a": "near", "b": "near", "length": "long"}, "length"),
        ("cable", {"name": "N9", "kind": "99/3", "a": "near", "b": "far", "length": "4"}, "valid choice"),
        ("device", {"name": "S1", "kind": "lamp", "box": "near"}, "two things have this name"),
        ("device", {"name": "feed", "kind": "lamp", "box": "near"}, "meaning of its own"),
        ("feed", {"box": "near", "kind": "14/2", "length": "0", "breaker": "15"}, "0 ft"),
        ("want", {"load": "L7"}, "valid choice"),
    ],
)
def test_what_does_not_fit_is_refused_in_words_and_the_stage_stays(desk, hall, part, fields, says):
    stage = Builder(desk, f"{HERE}stage/")
    before = stage.text
    answer = stage.put(part, **fields)
    assert answer.status_code == 422
    assert says in page(answer)
    assert stage.text == before


def test_a_box_taken_off_takes_what_hangs_on_it(desk, hall):
    stage = Builder(desk, f"{HERE}stage/")
    stage.off("box:far")
    stage.keep("Hall light")
    hookup = open_hookup(hall.newest.text, name="x").sound()
    assert [device.name for device in hookup.devices] == ["S1", "L1"]
    assert [cable.name for cable in hookup.cables] == ["N1"]
    assert all(point.holder not in {"N2", "S2"} for join in hookup.joins for point in join.points)


def test_the_box_where_the_feed_enters_is_not_taken_off(desk, hall):
    answer = Builder(desk, f"{HERE}stage/").off("box:near")
    assert answer.status_code == 422
    assert "it enters box 'near', which is not there" in page(answer)


@pytest.mark.parametrize("off", ["", "box", "box:nowhere", "path:99", "path:x", "want:L9", "thing:S1"])
def test_taking_off_what_is_not_there_changes_nothing(desk, hall, off):
    stage = Builder(desk, f"{HERE}stage/")
    before = stage.text
    stage.off(off)
    assert stage.text == before


def test_a_draft_that_was_spoiled_on_the_way_begins_again(desk, hall):
    answer = desk.post(f"{HERE}stage/", {"text": "boxes: [", "add": "box", "name": "x"}, follow=True)
    assert "begins as it was kept" in page(answer)


# ---- crews at the bench


@pytest.fixture
def code(desk, hall):
    """Return the code of the hall light's bench, opened."""
    desk.post(f"{HERE}crews/", {"do": "open"})
    hall.refresh_from_db()
    return hall.bench_code


@pytest.fixture
def crew(code):
    """Return a browser in which a crew sits at the bench."""
    from django.test import Client

    browser = Client()
    answer = browser.post("/bench/", {"code": f" {code.lower()} ", "name": "North wall"})
    assert answer.headers["Location"] == "/bench/draw/"
    return browser


def test_a_crew_draws_tries_and_has_it_judged(desk, crew):
    draw_all(crew, "/bench/draw/")
    assert "It does what is wanted in all 4 positions." in page(crew.get("/bench/judge/"))
    assert data_of(crew.get("/bench/try/"))["positions"]["11"]["looks"] == ["full"]
    told = page(desk.get(f"{HERE}crews/"))
    assert "North wall" in told
    assert 'name="apart"' not in page(desk.get(f"{HERE}draw/")), "the instructor's own bench is another"
    looked = page(desk.get(f"{HERE}draw/?by=North+wall"))
    assert "feed black + S1 common" in looked
    assert desk.post(f"{HERE}draw/?by=North+wall", {"do": "clear"}).status_code == 403


def test_a_crew_sees_nothing_of_the_kept_joins_or_the_plan_while_sealed(crew):
    for sheet in ("draw/", "try/", "judge/"):
        text = page(crew.get(f"/bench/{sheet}"))
        for join in the_hall().joins:
            assert str(join) not in text
    assert crew.get("/bench/plan/").status_code == 404
    for sheet in (
        "",
        "judge/",
        "draw/",
        "plan/",
        "stage/",
        "file/",
        "file/download/",
        "hookup.pdf",
        "versions/",
    ):
        assert crew.get(f"{HERE}{sheet}").headers["Location"].startswith("/sign-in/")


def test_once_the_plan_is_opened_the_crew_may_see_it_and_it_can_be_sealed_again(desk, crew):
    desk.post(f"{HERE}plan/", {"do": "open"})
    text = page(crew.get("/bench/plan/"))
    assert "Least among all hookups" in text
    assert "Keep this plan" not in text
    desk.post(f"{HERE}plan/", {"do": "seal"})
    assert crew.get("/bench/plan/").status_code == 404


def test_a_closed_bench_leads_back_to_its_door_and_keeps_what_was_drawn(desk, hall, crew):
    crew.post("/bench/draw/", {"tap": "near|feed|black"})
    desk.post(f"{HERE}crews/", {"do": "close"})
    assert crew.get("/bench/draw/").headers["Location"] == "/bench/"
    assert hall.drawings.filter(by="North wall").exists()


def test_two_crews_do_not_see_each_others_drawings(crew, code):
    from django.test import Client

    draw_all(crew, "/bench/draw/")
    other = Client()
    other.post("/bench/", {"code": code, "name": "South wall"})
    assert 'name="apart"' not in page(other.get("/bench/draw/"))


def test_wrong_codes_are_refused_and_after_some_the_door_waits(code):
    from django.test import Client

    browser = Client()
    for _ in range(5):
        answer = browser.post("/bench/", {"code": "BBBBB", "name": "x"})
        assert answer.status_code == 422
        assert "No bench has this code" in page(answer)
    answer = browser.post("/bench/", {"code": code, "name": "x"})
    assert "Too many wrong codes" in page(answer)


def test_no_code_lets_nobody_in_where_benches_are_closed(db, hall):
    from django.test import Client

    browser = Client()
    for typed in ("", " ", "-----", "%%%"):
        assert browser.post("/bench/", {"code": typed, "name": "x"}).status_code == 422
    assert "bench_crew" not in browser.session


# ---- what every sheet says


@pytest.mark.parametrize(
    "sheet",
    ["", "judge/", "draw/", "draw/try/", "draw/judge/", "plan/", "stage/", "file/", "versions/", "crews/"],
)
def test_every_sheet_says_the_cautions(desk, hall, sheet):
    from setday.switching import CAUTIONS

    text = page(desk.get(f"{HERE}{sheet}"))
    for caution in CAUTIONS:
        assert caution in text


@pytest.mark.parametrize("sheet", ["", "draw/", "plan/", "stage/", "judge/", "crews/"])
def test_the_sheets_speak_spanish(desk, hall, sheet):
    desk.post("/language/", {"language": "es"})
    text = page(desk.get(f"{HERE}{sheet}"))
    assert "Una lámpara APAGADA no significa cables sin tensión" in text
