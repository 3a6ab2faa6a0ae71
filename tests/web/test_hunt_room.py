"""A crew's sheet: it asks, the circuit answers, it names the fault, and it is told how it went."""

import pytest

from setday.actions.switching.hunts import best_hunt, thrifty_way
from setday.web.hunts import worker
from setday.web.hunts.sources import ground_of
from setday.web.keeping.models import HuntCrew
from tests.web.test_hunts import BURNT, LOOK, hunt, tablet, words

__all__ = ["hunt", "tablet"]

UP = {"handle-0": "1", "handle-1": "1"}
LAMP = {"kind": "burnt_lamp", "first": "L1"}


def log():
    return HuntCrew.objects.get().lines


def test_a_crew_sees_handles_lamps_and_closed_boxes_and_no_joins(tablet):
    said = words(tablet.get("/hunt/room/"))
    for shown in ("S1", "S2", "L1", "Box near · cover on", "Nothing asked yet.", "breaker locked off"):
        assert shown in said
    for hidden in ("traveler 1", "N1", "feed"):
        assert hidden not in said


@pytest.mark.parametrize("screen", ["/hunt/", "/hunt/room/", "/hunt/name/", "/hunt/name/?kind=moved"])
def test_every_sheet_of_a_crew_carries_the_cautions(tablet, screen):
    said = words(tablet.get(screen))
    assert "Only the instructor energizes." in said


def test_a_flip_is_answered_by_the_circuit_and_logged(tablet):
    answer = tablet.post("/hunt/room/", LOOK)
    assert answer.headers["Location"] == "/hunt/room/#now"
    assert log() == ["S1 up, S2 down: L1 off"]
    assert "S1 up, S2 down · lamps → L1 off" in words(tablet.get("/hunt/room/"))


def test_a_box_is_opened_only_when_locked_off_and_tested(tablet):
    assert "locked, tested dead. Tick it" in words(tablet.post("/hunt/room/", {**UP, "do": "open:0"}))
    assert HuntCrew.objects.get().opened == []
    tablet.post("/hunt/room/", {**UP, "do": "open:0", "dead-0": "yes"})
    assert HuntCrew.objects.get().opened == ["near"]
    said = words(tablet.get("/hunt/room/"))
    assert "<option>S1 traveler 1</option>" in said
    assert "<option>S2 traveler 1</option>" not in said


@pytest.mark.parametrize("first", ["look", "open"])
def test_no_picture_shows_the_breaker_on_while_a_cover_is_off(tablet, first):
    asked = {"look": LOOK, "open": {**UP, "do": "open:0", "dead-0": "yes"}}
    tablet.post("/hunt/room/", asked.pop(first))
    tablet.post("/hunt/room/", *asked.values())
    said = words(tablet.get("/hunt/room/"))
    assert "breaker locked off" in said
    assert "breaker on" not in said
    assert "lamps → L1 off" in said


@pytest.mark.parametrize(("do", "kept"), [("dead", "joined"), ("live", "none")])
def test_a_reading_between_two_points_is_answered(tablet, do, kept):
    tablet.post("/hunt/room/", {**UP, "do": "open:0", "dead-0": "yes"})
    ends = {"first-0": "S1 common", "second-0": "S1 traveler 1"}
    tablet.post("/hunt/room/", {**UP, **ends, "do": f"{do}:0"})
    assert log() == [f"S1 up, S2 up: {do}, S1 common to S1 traveler 1 in near: {kept}"]


def test_a_live_reading_is_the_instructors(tablet):
    tablet.post("/hunt/room/", {**UP, "do": "open:0", "dead-0": "yes"})
    said = words(tablet.get("/hunt/room/"))
    assert "The instructor reads voltage" in said
    ends = {"first-0": "S1 common", "second-0": "S1 traveler 1"}
    tablet.post("/hunt/room/", {**UP, **ends, "do": "live:0"})
    assert "the instructor reads voltage from S1 common" in words(tablet.get("/hunt/room/"))


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"do": "look"}, "Say for every switch where its handle is."),
        ({**UP, "handle-0": "9", "do": "look"}, "Say for every switch"),
        ({**UP, "do": ""}, "Press one of the buttons"),
        ({**UP, "do": "burn:0"}, "Press one of the buttons"),
        ({**UP, "do": "open:99", "dead-99": "yes"}, "no such box"),
        ({**UP, "do": "dead:99"}, "no such box"),
        ({**UP, "do": "dead:-1"}, "Press one of the buttons"),
        ({**UP, "do": "dead:0"}, "Choose two points"),
        ({**UP, "do": "dead:0", "first-0": "S1 common", "second-0": "S2 common"}, "Choose two points"),
        ({**UP, "do": "dead:0", "first-0": "S1 common", "second-0": "S1 common"}, "on one point"),
        ({**UP, "do": "dead:0", "first-0": "S1 common", "second-0": "feed black"}, "This box is closed"),
    ],
)
def test_what_cannot_be_asked_is_said_and_not_logged(tablet, asked, said):
    answer = tablet.post("/hunt/room/", asked)
    assert answer.status_code == 422
    assert said in words(answer)
    assert log() == []


def test_what_was_asked_before_does_not_count_again(tablet):
    tablet.post("/hunt/room/", LOOK)
    answer = tablet.post("/hunt/room/", LOOK, follow=True)
    assert "You asked this before" in words(answer)
    assert len(log()) == 1


def test_the_fault_is_named_by_kind_then_place(tablet):
    assert "What kind of fault is it?" in words(tablet.get("/hunt/name/"))
    assert "<option>L1</option>" in words(tablet.get("/hunt/name/?kind=burnt_lamp"))
    assert tablet.post("/hunt/name/", LAMP).status_code == 302
    assert HuntCrew.objects.get().named == {**LAMP, "second": ""}


@pytest.mark.parametrize(
    ("named", "said"),
    [
        ({}, "What kind of fault is it?"),
        ({"kind": "gremlins", "first": "L1"}, "What kind of fault is it?"),
        ({"kind": "burnt_lamp", "first": "L7"}, "choose from the list"),
        ({"kind": "moved", "first": "near: S1 common"}, "choose from the list"),
        ({"kind": "extra", "first": "near: S1 common", "second": "near: S1 common"}, "Both are the same."),
    ],
)
def test_a_name_that_is_none_is_not_kept(tablet, named, said):
    answer = tablet.post("/hunt/name/", named)
    assert answer.status_code == 422
    assert said in words(answer)
    assert HuntCrew.objects.get().named is None


def test_after_naming_nothing_more_is_asked_or_named(tablet):
    tablet.post("/hunt/name/", LAMP)
    assert "Nothing more can be asked" in words(tablet.post("/hunt/room/", LOOK, follow=True))
    assert log() == []
    tablet.post("/hunt/name/", {"kind": "dead_switch", "first": "S1"})
    assert HuntCrew.objects.get().named["kind"] == "burnt_lamp"


def test_before_the_answer_is_opened_the_log_alone_is_told(hunt, tablet):
    tablet.post("/hunt/room/", LOOK)
    tablet.post("/hunt/name/", LAMP)
    worker.work_on_best(hunt.pk)
    said = words(tablet.get("/hunt/room/"))
    assert "The answer is sealed until the instructor opens it." in said
    for hidden in ("That is it", "That is not it", BURNT, "Shortest way known to this fault", "have gone so"):
        assert hidden not in said
    assert "Faults still open by your log" in said


def test_ones_own_log_can_speak_against_ones_name(hunt, tablet):
    hunt.planted = "Switch S2 is stuck as if up."
    hunt.save()
    tablet.post("/hunt/room/", {**UP, "do": "look"})
    tablet.post("/hunt/room/", LOOK)
    lit = [n for n, line in enumerate(log(), 1) if "L1 full" in line]
    tablet.post("/hunt/name/", LAMP)
    assert lit
    assert f"against what you named: {', '.join(map(str, lit))}<" in words(tablet.get("/hunt/room/"))


def test_the_plan_is_shown_and_suspects_are_listed_only_when_the_instructor_wants_it(hunt, tablet):
    tablet.post("/hunt/name/", LAMP)
    assert "would tell the plan" in words(tablet.get("/hunt/room/"))
    hunt.plan_shown = True
    hunt.save()
    said = words(tablet.get("/hunt/room/"))
    assert "Faults that explain all your log" in said
    assert "The correct plan, without the fault." in said


@pytest.mark.parametrize(
    ("named", "said"), [(LAMP, "That is it."), ({"kind": "dead_switch", "first": "S1"}, "That is not it.")]
)
def test_when_opened_the_answer_and_the_shortest_way_are_told(hunt, tablet, named, said):
    tablet.post("/hunt/room/", LOOK)
    tablet.post("/hunt/name/", named)
    worker.work_on_best(hunt.pk)
    hunt.refresh_from_db()
    hunt.opened = True
    hunt.save()
    shown = words(tablet.get("/hunt/room/"))
    assert said in shown
    assert BURNT in shown
    ground = ground_of(hunt.text, hunt.file_name, {})
    best = best_hunt(ground).by_group[ground.group_of(ground.planted(BURNT).variant)]
    assert f"Shortest way known to this fault</dt><dd>{best}</dd>" in shown
    way = shown.split("The finder would have gone so")[1].split("</table>")[0]
    assert way.count("<tr") == len(thrifty_way(ground, ground.planted(BURNT))) + 1


def test_a_closed_hunt_can_be_read_but_not_asked(hunt, tablet):
    tablet.post("/hunt/room/", LOOK)
    hunt.closed = True
    hunt.save()
    assert tablet.get("/hunt/room/").status_code == 200
    tablet.post("/hunt/room/", {**UP, "do": "look"})
    assert len(log()) == 1


def test_a_crews_sheet_is_in_spanish_but_for_the_names_in_the_file(tablet):
    tablet.post("/hunt/room/", LOOK)
    tablet.cookies["setday_language"] = "es"
    said = words(tablet.get("/hunt/room/"))
    assert "S1 arriba, S2 abajo · lámparas → L1 apagado" in said
    assert "Solo el instructor energiza." in said
    for english in ("Only the instructor", "Set the handles", "breaker", "cover on", ">Log<"):
        assert english not in said
