"""The bench: a hookup drawn by hand, by the instructor and by crews that come by a code."""

import pytest

from setday.web.keeping.models import HookupDrawing
from setday.web.keeping.people import first_school
from tests.web.hookups import HALL, HERE, data_of, draw_all, page, the_hall

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


@pytest.mark.parametrize("sheet", ["draw/", "draw/try/"])
def test_the_bench_and_its_trial_say_what_is_wanted(desk, hall, sheet):
    assert "L1 from S1 and S2" in page(desk.get(f"{HERE}{sheet}"))


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


def test_a_tablet_is_at_one_place_at_a_time(code, crew):
    from setday.actions.switching.hookups import example_text
    from setday.web.keeping.models import Hunt

    text = example_text("three-way-light-between")
    Hunt.objects.create(
        school=first_school(),
        code="BCDFG",
        name="Hall",
        file_name="hall.yaml",
        text=text,
        planted="The lamp in L1 is burnt out.",
    )
    crew.post("/hunt/", {"code": "BCDFG", "name": "North wall"})
    assert crew.get("/hunt/room/").status_code == 200
    assert crew.get("/bench/draw/").headers["Location"].startswith("/sign-in/"), "the bench was left"
    crew.post("/bench/", {"code": code, "name": "North wall"})
    assert crew.get("/bench/draw/").status_code == 200
    assert crew.get("/hunt/room/").headers["Location"].startswith("/sign-in/"), "the hunt was left"
    crew.post("/bench/leave/")
    for sheet in ("/bench/draw/", "/hunt/room/"):
        assert crew.get(sheet).headers["Location"].startswith("/sign-in/"), "nothing was left behind"


def test_a_wrong_code_leaves_a_crew_where_it_is(crew):
    crew.post("/hunt/", {"code": "ZZZZZ", "name": "North wall"})
    assert crew.get("/bench/draw/").status_code == 200


@pytest.mark.parametrize("sheet", ["draw/", "try/", "judge/"])
def test_a_crews_spanish_sheet_says_what_is_still_in_english(crew, sheet):
    assert "in English for now" not in page(crew.get(f"/bench/{sheet}"))
    crew.cookies["setday_language"] = "es"
    assert "están en inglés por ahora" in page(crew.get(f"/bench/{sheet}"))


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
