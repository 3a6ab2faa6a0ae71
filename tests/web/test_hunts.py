"""Hunts on the site: planted by the instructor, gone through by a crew, told when it is over."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from setday.actions.switching.hookups import example_text
from setday.actions.switching.hunts import best_hunt
from setday.web.access import BENCH_CREW
from setday.web.hunts import views_plant, worker
from setday.web.hunts.crews import MOST_CREWS
from setday.web.hunts.sources import ground_of
from setday.web.keeping.models import Hunt, HuntCrew, WrongTry

NAME = "three-way-light-between"
PLANT = f"/hunts/new/standard/{NAME}/"
BURNT = "The lamp in L1 is burnt out, or not screwed in."
DEVICES = ["swapped_terminals", "dead_switch", "stuck_switch", "burnt_lamp", "wrong_kind"]
LOOK = {"handle-0": "1", "handle-1": "0", "do": "look"}


@pytest.fixture
def in_line(monkeypatch):
    """Return the hunts handed to the worker, which does nothing here."""
    handed = []
    monkeypatch.setattr(views_plant, "begin_best", handed.append)
    return handed


@pytest.fixture
def hunt(school):
    """Return a hunt for a burnt-out lamp."""
    return Hunt.objects.create(
        school=school,
        code="BCDFG",
        name="Hall light",
        file_name=f"{NAME}.yaml",
        text=example_text(NAME),
        planted=BURNT,
    )


@pytest.fixture
def tablet(hunt):
    """Return a tablet at which a crew came in."""
    browser = Client()
    browser.post("/hunt/", {"code": "bcdfg", "name": "Blue hats"})
    return browser


def planting(**more):
    return {"kinds": DEVICES, "how": "draw", "difficulty": "easy", "seed": "7", **more}


def words(answer):
    return " ".join(answer.content.decode().split())


# ---- the instructor


def test_the_standard_hookups_and_those_kept_are_offered(desk, school):
    from setday.web.keeping.hookups import keep_hookup

    keep_hookup(school=school, name="Our porch light", file_name="porch.yaml", text=example_text(NAME))
    said = words(desk.get("/hunts/new/"))
    assert "Our porch light" in said
    assert "Hall light between its two switches" in said
    assert "/hunts/new/kept/our-porch-light/" in said


def test_a_kept_hookup_with_problems_cannot_be_hunted_in(desk, school):
    from setday.web.keeping.hookups import keep_hookup

    text = example_text(NAME).replace("S1: three-way switch", "S1: three-way swotch")
    keep_hookup(school=school, name="Porch", file_name="porch.yaml", text=text)
    assert "/hunts/new/kept/porch/" not in words(desk.get("/hunts/new/"))
    assert desk.get("/hunts/new/kept/porch/").status_code == 422


def test_the_same_number_plants_the_same_fault_under_another_code(desk, in_line):
    for _ in range(2):
        assert desk.post(PLANT, planting()).status_code == 302
    first, second = Hunt.objects.all()
    assert first.planted == second.planted
    assert first.code != second.code
    assert in_line == [second, first]


def test_without_a_number_chance_draws_and_the_number_is_kept(desk, in_line):
    desk.post(PLANT, planting(seed=""))
    hunt = Hunt.objects.get()
    again = ground_of(hunt.text, hunt.file_name, hunt.likely)
    from setday.switching import Difficulty

    assert again.draw(difficulty=Difficulty.EASY, seed=hunt.drawn["seed"]).words == hunt.planted


def test_a_chosen_fault_is_planted(desk, in_line):
    desk.post(PLANT, planting(how="choose", fault=BURNT))
    assert (Hunt.objects.get().planted, Hunt.objects.get().drawn) == (BURNT, {})


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"how": "choose"}, "Choose the fault to plant."),
        ({"how": "choose", "fault": BURNT, "kinds": ["dead_switch"]}, "of a kind that is not ticked"),
        ({"kinds": []}, "This field is required."),
        ({"how": "choose", "fault": "The cat did it."}, "Select a valid choice"),
        ({"seed": "-1"}, "greater than or equal to 0"),
    ],
)
def test_what_cannot_be_planted_is_said_and_nothing_is_kept(desk, in_line, typed, said):
    answer = desk.post(PLANT, planting(**typed))
    assert answer.status_code == 422
    assert said in words(answer)
    assert not Hunt.objects.exists()


def test_kinds_that_are_not_ticked_are_never_drawn(desk, in_line):
    for seed in range(12):
        desk.post(PLANT, planting(kinds=["burnt_lamp"], seed=str(seed)))
    assert {hunt.planted for hunt in Hunt.objects.all()} == {BURNT}


@pytest.mark.parametrize("key", ["no-such", "../setday"])
def test_a_hookup_that_is_not_there_is_not_found(desk, key):
    assert desk.get(f"/hunts/new/standard/{key}/").status_code == 404
    assert desk.get("/hunts/new/attic/three-way-light-between/").status_code == 404


def test_the_instructor_sees_the_code_the_answer_and_how_crews_get_on(desk, hunt, tablet):
    tablet.post("/hunt/room/", LOOK)
    said = words(desk.get(f"/hunts/{hunt.pk}/"))
    for shown in ("BCDFG", BURNT, "Blue hats", "L1 off"):
        assert shown in said


@pytest.mark.parametrize(
    ("planted", "said"), [(BURNT, "that is it"), ("Switch S1 is dead: it never closes.", "that is not it")]
)
def test_whether_a_crew_is_right_is_folded_away_for_the_instructor(desk, hunt, tablet, planted, said):
    hunt.planted = planted
    hunt.save()
    worker.work_on_best(hunt.pk)
    tablet.post("/hunt/name/", {"kind": "burnt_lamp", "first": "L1"})
    table, folded = words(desk.get(f"/hunts/{hunt.pk}/")).split("</table>", 1)
    assert "A burnt-out lamp: L1" in table
    assert "that is" not in table
    assert f"<strong>{said}</strong>" in folded.split("</details>")[0]


def test_the_part_with_the_crews_is_sent_only_when_something_changed(desk, hunt, tablet):
    page = desk.get(f"/hunts/{hunt.pk}/crews/")
    address = page.content.decode().split('hx-get="')[1].split('"')[0]
    assert desk.get(address).status_code == 204
    tablet.post("/hunt/room/", LOOK)
    assert desk.get(address).status_code == 200


@pytest.mark.parametrize(
    ("do", "field", "value"),
    [
        ("open", "opened", True),
        ("seal", "opened", False),
        ("close", "closed", True),
        ("reopen", "closed", False),
        ("show-plan", "plan_shown", True),
        ("hide-plan", "plan_shown", False),
    ],
)
def test_the_instructor_opens_seals_closes_and_shows(desk, hunt, do, field, value):
    setattr(hunt, field, not value)
    hunt.save()
    desk.post(f"/hunts/{hunt.pk}/change/", {"do": do})
    assert getattr(Hunt.objects.get(), field) is value


def test_a_crew_can_be_taken_out(desk, hunt, tablet):
    desk.post(f"/hunts/{hunt.pk}/change/", {"do": "remove", "crew": str(HuntCrew.objects.get().pk)})
    assert not HuntCrew.objects.exists()
    assert tablet.get("/hunt/room/").headers["Location"] == "/hunt/"


def test_what_the_best_hunt_takes_is_worked_out_and_shown(desk, hunt):
    assert "is being worked out" in words(desk.get(f"/hunts/{hunt.pk}/"))
    worker.work_on_best(hunt.pk)
    best = best_hunt(ground_of(hunt.text, hunt.file_name, {}))
    said = words(desk.get(f"/hunts/{hunt.pk}/"))
    assert f"takes {best.mean:.1f} tests on average and {best.most} at most" in said
    assert "too many faults to prove" in said


def test_a_proven_best_hunt_is_said_to_be_proven(desk, hunt):
    hunt.likely = dict.fromkeys(["swapped_ends", "moved", "missing", "extra", "broken", "with_ground"], 0.0)
    hunt.save()
    worker.work_on_best(hunt.pk)
    assert "proven, every way was weighed" in words(desk.get(f"/hunts/{hunt.pk}/"))


# ---- the door of the crews


def test_a_crew_comes_in_by_the_code_as_it_is_spoken(hunt, outsider):
    answer = outsider.post("/hunt/", {"code": " bcd-fg ", "name": "  Blue   hats "})
    assert answer.headers["Location"] == "/hunt/room/"
    assert HuntCrew.objects.get().name == "Blue hats"


def test_a_crew_comes_back_on_another_tablet_with_its_nine_signs(hunt, tablet):
    tablet.post("/hunt/room/", LOOK)
    other = Client()
    other.post("/hunt/", {"code": f"BCDFG-{HuntCrew.objects.get().key}"})
    assert "L1 off" in words(other.get("/hunt/room/"))
    assert HuntCrew.objects.count() == 1


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"code": "XXXXX", "name": "Reds"}, "No hunt has this code."),
        ({"code": "BCDFG"}, "Give your crew a name."),
        ({"code": "BCDFG-ZZZZ", "name": "Reds"}, "No hunt has this code."),
        ({"code": "", "name": "Reds"}, "This field is required."),
        ({"code": "BCDFG", "name": "Blue hats"}, "A crew of this name hunts already"),
    ],
)
def test_who_cannot_come_in_is_told_why(hunt, tablet, outsider, typed, said):
    answer = outsider.post("/hunt/", typed)
    assert answer.status_code == 422
    assert said in words(answer)
    assert HuntCrew.objects.count() == 1


@pytest.mark.parametrize("field", ["closed", "opened"])
def test_nobody_new_comes_into_a_hunt_that_is_over(hunt, outsider, field):
    setattr(hunt, field, True)
    hunt.save()
    assert "This hunt is over" in words(outsider.post("/hunt/", {"code": "BCDFG", "name": "Reds"}))


def test_a_hunt_has_room_for_so_many_crews(hunt, outsider):
    for number in range(MOST_CREWS):
        hunt.crews.create(key=f"K{number}", name=f"crew {number}")
    assert outsider.post("/hunt/", {"code": "BCDFG", "name": "one more"}).status_code == 422


def test_guessing_at_codes_is_stopped_even_by_who_has_one(hunt, tablet):
    for number in range(5):
        tablet.post("/hunt/", {"code": f"XXXX{number}", "name": "Reds"})
        tablet.post("/hunt/", {"code": f"BCDFG{HuntCrew.objects.get().key}"})
    answer = tablet.post("/hunt/", {"code": "BCDFG", "name": "Reds"})
    assert "Too many wrong tries" in words(answer)
    assert HuntCrew.objects.count() == 1
    WrongTry.objects.update(at=timezone.now() - timedelta(minutes=16))
    assert tablet.post("/hunt/", {"code": "BCDFG", "name": "Reds"}).status_code == 302


def test_a_tablet_is_let_go_to_another_crew(tablet):
    assert tablet.post("/hunt/leave/").headers["Location"] == "/hunt/"
    assert tablet.get("/hunt/room/").status_code == 302


def test_a_crew_is_no_instructor_and_the_instructor_signs_in_at_its_tablet(tablet, instructor):
    assert tablet.get("/hunts/").headers["Location"].startswith("/sign-in/")
    assert tablet.get("/").headers["Location"].startswith("/sign-in/")
    assert tablet.get("/sign-in/").status_code == 200
    assert "Sign out" not in words(tablet.get("/hunt/room/"))


@pytest.mark.parametrize(
    ("host", "said"), [("localhost", True), ("127.0.0.1:8000", True), ("shop.lan", False)]
)
def test_the_instructor_is_told_when_tablets_cannot_reach_the_address(desk, hunt, settings, host, said):
    settings.ALLOWED_HOSTS = ["*"]
    shown = words(desk.get(f"/hunts/{hunt.pk}/", headers={"host": host}))
    assert f"http://{host}/hunt/" in shown
    assert ("works on this machine only" in shown) is said


@pytest.mark.parametrize("sheet", ["room/", "name/"])
def test_a_crews_spanish_sheet_says_what_is_still_in_english(tablet, sheet):
    tablet.cookies["setday_language"] = "es"
    assert "están en inglés por ahora" in tablet.get(f"/hunt/{sheet}").content.decode()


def test_a_tablet_that_was_at_a_bench_leaves_it_for_the_hunt(hunt):
    browser = Client()
    session = browser.session
    session[BENCH_CREW] = {"hookup": 1, "code": "x", "by": "Reds"}
    session.save()
    browser.post("/hunt/", {"code": "BCDFG", "name": "Reds"})
    assert BENCH_CREW not in browser.session


def test_a_hunt_is_found_from_the_sign_in_sheet(instructor, outsider):
    assert 'href="/hunt/"' in outsider.get("/sign-in/").content.decode()
