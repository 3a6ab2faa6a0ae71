"""The gates in the records, read by the timetable: what is over, what boards wait for, until when."""

import time
from dataclasses import replace
from datetime import date

import pytest

from setday.actions import demo_text, open_house
from setday.actions.gates.gathering import GateHouse
from setday.actions.timetable.gate_waits import gate_waits
from setday.actions.timetable.gates import boards_of
from setday.actions.timetable.problem import class_day
from setday.actions.timetable.repair import repair_timetable
from setday.actions.timetable.solving import Timetable, solve_timetable, spans
from setday.actions.timetable.standing import saved_of, standing
from setday.closein import GateState, gates_of, standings_of
from setday.errors import NoAnswer
from setday.roster import Guest
from setday.solving import Limits
from setday.timetable.classwork import verify
from setday.timetable.tasks import PeriodLog, Worked
from tests.actions.gate_rules import MORNING, TEACHER
from tests.actions.invented_class import FIRST, cable_figured_once, class_plan

ELECTRICAL, FRAMING = "inspection/electrical", "inspection/framing"
BATH = "boards/hang/bath/ceilings", "boards/hang/bath/walls"


@pytest.fixture(scope="module")
def opened():
    with cable_figured_once():
        yield open_house(demo_text("wired"), name="wired.yaml")


@pytest.fixture(scope="module")
def fresh(opened):
    """Return every gate of the demo as it is before anybody made a mark."""
    from setday.actions.tasks.wiring import figure_cable

    place = GateHouse(opened=opened, wired=figure_cable(opened, clock=time.perf_counter))
    return standings_of(gates_of(place.asked(), ()))


def planned(opened, stands, **changes):
    return class_day(opened, class_plan(**changes), clock=time.perf_counter, gates=stands)


def changed(stands, what, *, room=""):
    """Return standings with those of a room, or all, changed by a function."""
    return tuple(what(each) if each.surface.startswith(room) else each for each in stands)


def ready(each):
    return replace(each, state=GateState.READY, seen=each.things, passed=each.awaited, awaited=(), held_by=())


def closed(each):
    return replace(ready(each), state=GateState.CLOSED)


def half_seen(each):
    return replace(each, seen=each.things // 2)


def checked_off(each):
    return replace(each, checked_off=each.things)


def seen_but_not_inspected(each):
    return replace(each, state=GateState.WAITING, seen=each.things)


def inspected(each):
    return replace(each, passed=each.awaited, awaited=())


def refused_at_one_surface(each):
    return inspected(each) if each.surface != "bath/ceiling" else each


def solved(day, seconds=0.3):
    return solve_timetable(day, limits=Limits(seconds=seconds, clock=time.perf_counter, workers=1))


def waits_of(day, key):
    return {after.key for after in day.works[key].after}


def test_without_records_nothing_is_over(opened):
    assert not [work.key for work in planned(opened, ()).work.works if work.done]


@pytest.mark.parametrize(
    ("what", "share"),
    [(ready, 1.0), (closed, 1.0), (seen_but_not_inspected, 1.0), (checked_off, 0.5), (inspected, 0.0)],
)
def test_looking_shrinks_by_what_is_seen_and_by_half_for_what_is_only_checked_off(opened, fresh, what, share):
    day = planned(opened, changed(fresh, what, room="bath/"))
    assert day.works["look/bath"].done == pytest.approx(share)


def test_looking_does_not_fall_away_while_one_thing_is_to_be_seen(opened, fresh):
    stands = changed(fresh, lambda each: replace(each, seen=each.things - 1), room="bath/ceiling")
    stands = tuple(each if each.surface == "bath/ceiling" else ready(each) for each in stands)
    assert planned(opened, stands).works["look/bath"].left >= 1


def test_boards_whose_gates_stand_open_wait_for_no_look_and_no_inspection(opened, fresh):
    day = planned(opened, changed(fresh, ready, room="bath/"))
    assert waits_of(day, BATH[0]) == {"insulate"}  # typed by the instructor: it opens close-in
    assert "look/kitchen" in waits_of(day, "boards/hang/kitchen/ceilings")


def test_a_ceiling_that_is_open_goes_before_walls_that_are_not(opened, fresh):
    day = planned(opened, changed(fresh, ready, room="bath/ceiling"))
    assert "look/bath" not in waits_of(day, BATH[0])
    assert {"look/bath", BATH[0]} <= waits_of(day, BATH[1])


def test_boards_that_are_on_are_hung(opened, fresh):
    day = planned(opened, changed(fresh, closed, room="bath/"))
    assert [day.works[key].left for key in BATH] == [0, 0]


def test_boards_that_are_on_in_part_are_hung_by_their_area(opened, fresh):
    day = planned(opened, changed(fresh, closed, room="bath/north"))
    assert 0.1 < day.works[BATH[1]].done < 0.5


def test_an_inspection_that_passed_everywhere_is_over_and_the_rough_wiring_is_in(opened, fresh):
    day = planned(opened, changed(fresh, inspected))
    over = {work.kind for work in day.work.works if work.done >= 1}
    assert over == {"set-boxes", "bore", "pull", "make-up", "try", "inspect"}


def test_an_inspection_refused_at_one_surface_holds_its_room_alone(opened, fresh):
    stands = changed(fresh, refused_at_one_surface)
    day = planned(opened, stands)
    held = [key for key in ("look/bath", "look/kitchen") if "inspect/framing" in waits_of(day, key)]
    assert (day.works["inspect/framing"].left > 0, held) == (True, ["look/bath"])


def test_boards_wait_for_the_inspection_when_everything_was_looked_at(opened, fresh):
    day = planned(opened, changed(fresh, seen_but_not_inspected))
    assert {"inspect/rough electrical", "inspect/framing"} <= waits_of(day, BATH[0])


def test_what_the_log_says_was_looked_at_counts_only_as_the_records_have_it(opened, fresh):
    day = planned(opened, changed(fresh, half_seen))
    log = [PeriodLog(date=FIRST, worked=(Worked(task="look/bath", students=("s1", "s2"), done=1.0),))]
    stand = standing(day, saved_of(solved(day)), log)
    assert stand.left["look/bath"] > 0


def test_boards_that_came_off_again_are_to_be_hung_again(opened, fresh):
    stands = changed(fresh, lambda each: replace(ready(each), reopened=True), room="bath/ceiling")
    day = planned(opened, stands)
    log = [PeriodLog(date=FIRST, worked=(Worked(task=BATH[0], students=("s1", "s2"), done=1.0),))]
    stand = standing(day, saved_of(solved(day)), log)
    assert stand.left[BATH[0]] == pytest.approx(day.works[BATH[0]].minutes, rel=0.3)


def test_records_of_another_house_are_refused_with_its_surfaces(opened, fresh):
    with pytest.raises(NoAnswer, match="no surface 'barn/north'"):
        planned(opened, (*fresh, replace(fresh[0], surface="barn/north")))


def last_of(found, key):
    return max((n for n, row in enumerate(found.rows) if key in row), default=-1)


def first_of(found, key):
    return next((n for n, row in enumerate(found.rows) if key in row), len(found.rows))


STATES = {
    "no marks": lambda each: each,
    "half seen": half_seen,
    "seen, not inspected": seen_but_not_inspected,
    "inspected, not seen": inspected,
    "one surface refused": refused_at_one_surface,
    "the bath open": lambda each: ready(each) if each.surface.startswith("bath/") else each,
    "the bath on": lambda each: closed(each) if each.surface.startswith("bath/") else each,
}


@pytest.mark.parametrize("what", STATES.values(), ids=STATES.keys())
def test_no_board_is_hung_before_what_opens_its_gate_has_ended(opened, fresh, what):
    """Asked of the rows alone: where a gate is shut, every look and every inspection of it ends before."""
    stands = changed(fresh, what)
    day = planned(opened, stands)
    stand = standing(day, saved_of(solved(day)), ())
    found = solve_timetable(replace(day, problem=stand.problem),
                            limits=Limits(seconds=0.3, clock=time.perf_counter, workers=1))  # fmt: skip
    assert verify(stand.problem, found.rows) == []
    shut = {each.surface: each for each in stands if not each.open}
    house = opened.built()
    inspections = {ELECTRICAL: "inspect/rough electrical", FRAMING: "inspect/framing"}
    for work in day.work.works:
        behind = [shut[each] for each in boards_of(work, house) if each in shut]
        hangs = first_of(found, work.key)
        for gate in behind:
            if gate.looked_at < 1:
                assert last_of(found, f"look/{work.place}") < hangs
            for key in gate.awaited:
                assert last_of(found, inspections[key]) < hangs


def test_a_gate_refused_after_its_boards_were_planned_holds_them_in_the_repair(opened, fresh):
    opening = changed(changed(fresh, inspected), ready, room="bath/")
    before = solved(planned(opened, opening))
    shut = changed(opening, lambda each: replace(half_seen(each), state=GateState.NOT_READY, refused=1),
                   room="bath/")  # fmt: skip
    day = planned(opened, shut)
    found = repair_timetable(day, standing(day, saved_of(before), ()), limits=None).timetable
    assert last_of(found, "look/bath") < first_of(found, BATH[0]) < len(found.rows)


def test_the_page_is_told_which_gates_hold_what_until_when(opened, fresh):
    day = planned(opened, changed(fresh, inspected))
    found = solved(day)
    held = {each.task: each for each in gate_waits(found, opened.built())}
    bath = held[BATH[0]]
    runs = {work.key: periods for work, periods in spans(found)}
    assert (bath.open, bath.to_see, bath.waits) == (
        0,
        bath.things,
        ("Insulate outside walls", "Look behind the boards: bath"),
    )
    assert bath.until == day.date_of(runs["look/bath"][-1]) < bath.begins
    assert not bath.too_early


def test_a_timetable_older_than_a_refusal_is_told_as_too_early(opened, fresh):
    opening = changed(changed(fresh, inspected), ready, room="bath/")
    before = solved(planned(opened, opening))
    shut = changed(opening, half_seen, room="bath/")
    shut = changed(shut, lambda each: replace(each, state=GateState.NOT_READY), room="bath/")
    day = planned(opened, shut)
    kept = Timetable(day=day, rows=before.rows, finish=before.finish, bound=0, plain=0, status="kept",
                     undone=(), idle=0, seconds=0.0)  # fmt: skip
    assert [each.task for each in gate_waits(kept, opened.built()) if each.too_early][:1] == [BATH[0]]


def test_what_a_reopening_leaves_is_a_gate_without_its_boards(opened):
    """A mark of each kind on one surface: closed, then reopened, then closed again."""
    from setday.closein import Mark, MarkKind

    place = GateHouse(opened=opened, wired=None)
    asked = place.asked()
    surface = next(iter(asked.labels))

    def mark(number, kind):
        return Mark(entry=str(number), surface=surface, item="", label="", kind=kind, by=TEACHER,
                    at=MORNING, words="because")  # fmt: skip

    marks = [mark(1, MarkKind.CLOSED), mark(2, MarkKind.REOPENED), mark(3, MarkKind.CLOSED)]
    told = [standings_of(gates_of(asked, marks[:many], only=surface))[0].reopened for many in range(4)]
    assert told == [False, False, True, False]


def test_the_framing_inspection_is_planned_for_the_days_its_inspector_comes(opened):
    calendar = class_plan().calendar
    guests = (*calendar.guests, Guest(who="framing inspector", days=(date(2027, 3, 3),)))
    day = planned(opened, (), calendar=replace(calendar, guests=guests))
    assert day.works["inspect/framing"].guest == "framing inspector"
    assert waits_of(day, "inspect/framing") == {"inspect/rough electrical"}
    assert "inspect/framing" in waits_of(day, "look/bath")
