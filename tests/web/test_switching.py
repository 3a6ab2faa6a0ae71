"""Hookups on the page: brought in, kept in versions, flipped and looked at, judged."""

import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from setday.actions.switching.hookups import example_names, example_text, open_hookup
from setday.drawing import point_key
from setday.switching import FEED, PANEL, judge, try_hookup
from setday.web.keeping.models import HookupVersion, KeptHookup
from tests.web.hookups import HALL, HERE, data_of, page

BROKEN = HALL.replace("feed black + S1 common", "feed black + S1 comon").replace(
    "N2: 14/3 light to far", "N2: 14/3 light to fra"
)
LINE = 1 + HALL[: HALL.index("feed black + S1 common")].count("\n")


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


def test_wants_and_devices_are_said_in_spanish_too(desk, hall):
    desk.post("/language/", {"language": "es"})
    assert "L1 desde S1 y S2" in page(desk.get(f"{HERE}draw/"))
    assert "S1 interruptor de tres vías" in page(desk.get(f"{HERE}plan/"))
    assert "S1 arriba, S2 abajo. L1 apagado" in page(desk.get(f"{HERE}?at=10"))


HEAD = """setday hookup: 1
name: Odd
feed: {box: a, cable: 14/2, length: 3 ft, breaker: 15 A}
boxes:
"""
ODD = {
    "a box and nothing in it": "  a: {}\n",
    "a lamp without a switch": """  a: {devices: {L1: lamp}}
joins:
  a: [feed black + L1 brass, feed white + L1 silver]
wants: [L1 always]
""",
    "a box no cable leads to": """  a: {}
  b: {devices: {S1: single-pole switch, L1: lamp}}
wants: [L1 from S1]
""",
    "signs in names": """  a: {devices: {"S|1 <b>": single-pole switch, "L&1 'x'": lamp}}
  'b "q"': {}
cables: {"N<1>": '14/3 a to b "q", 4 ft'}
joins:
  a: ["feed black + S|1 <b> brass 1"]
""",
    "a metal box": """  a: {metal: yes, devices: {R1: 'receptacle, tab broken'}}
joins:
  a: [feed bare + box green]
""",
    "ten switches": "  a: {devices: {" + ", ".join(f"S{n}: single-pole switch" for n in range(10)) + "}}\n",
}


@pytest.mark.parametrize("rest", ODD.values(), ids=list(ODD))
def test_an_odd_hookup_has_all_its_sheets_too(desk, rest):
    desk.post("/hookups/new/", {"text": HEAD + rest, "as_meant": "yes"})
    key = KeptHookup.objects.get().key
    desk.post(f"/hookups/{key}/plan/", {"do": "open"})
    for sheet in (
        "",
        "judge/",
        "draw/",
        "draw/try/",
        "draw/judge/",
        "plan/",
        "stage/",
        "file/",
        "hookup.pdf",
    ):
        answer = desk.get(f"/hookups/{key}/{sheet}")
        assert answer.status_code == 200, sheet
        assert b"<b>1" not in answer.content
        assert b"S|1 <b>" not in answer.content
