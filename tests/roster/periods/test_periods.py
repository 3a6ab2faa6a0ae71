"""A period as it was: crews, entries, how far the tasks are, and how long everybody was at what."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.findings import Severity
from setday.roster import SignOff, Student
from setday.roster.periods import (
    Crew,
    CrewTask,
    EntryRefusal,
    Mark,
    MarkKind,
    TaskState,
    admit,
    check_crews,
    log_of,
    spells,
)

DAY = date(2026, 10, 6)
ANA = Student(key="ana", name="Ana Quill", born=date(2010, 3, 9))
BO = Student(
    key="bo", name="Bo Larkin", born=date(2008, 1, 2), signoffs=(SignOff(what="Saw", on=DAY, by="Ms. Reed"),)
)
STUDENTS = {each.key: each for each in (ANA, BO)}
FELT = CrewTask(key="felt", label="Roof felt", trade="roofing", place="roof", exposures=("roofing",))
CUT = CrewTask(
    key="cut", label="Cut blocking", trade="framing", place="shop", signoffs=("saw",), on_site=False
)
BOARDS = CrewTask(key="hang", label="Hang the hall", trade="boards", place="hall", crew_least=2, crew_most=3)
TASKS = {each.key: each for each in (FELT, CUT, BOARDS)}


def at(hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 10, 6, hour, minute, tzinfo=UTC)


BEGINS, ENDS = at(8), at(9, 30)


def mark(kind: MarkKind, when: datetime, task: str = "hang", **more: object) -> Mark:
    given = {"entry": f"{kind}-{when}", "crew": "1", "members": ("ana", "bo"), **more}
    return Mark(kind=kind, task=task, at=when, **given)  # type: ignore[arg-type]


def found(*crews: Crew, present: frozenset[str] = frozenset(STUDENTS)) -> set[str]:
    told = check_crews(crews, students=STUDENTS, tasks=TASKS, present=present, on=DAY)
    return {each.rule for each in told if each.severity is Severity.PROBLEM}


def crew(*members: str, name: str = "1", tasks: tuple[str, ...] = ()) -> Crew:
    return Crew(name=name, members=members, tasks=tasks)


@pytest.mark.parametrize(
    ("crews", "rules"),
    [
        ((crew("ana", "bo", tasks=("hang",)),), set()),
        ((crew("ana"), crew("ana", name="2")), {"period.two-crews"}),
        ((crew("ana", tasks=("hang",)),), {"period.crew-size"}),
        # 29 CFR 570.67: no minor does any work on a roof.
        ((crew("ana", tasks=("felt",)),), {"limits.order-16"}),
        ((crew("ana", tasks=("cut",)),), {"limits.signoff"}),
        ((crew("bo", tasks=("cut",)),), set()),
    ],
)
def test_a_crew_is_held_against_the_law_the_sign_offs_and_itself(crews, rules):
    assert found(*crews) == rules


def test_a_crew_is_of_those_who_are_here():
    assert found(crew("ana", "bo"), present=frozenset({"bo"})) == {"period.away"}


def test_too_many_at_a_task_is_asked_about_and_not_refused():
    told = check_crews(
        (crew("ana", "bo", tasks=("small",)),),
        students=STUDENTS,
        tasks={"small": replace(BOARDS, key="small", crew_least=1, crew_most=1)},
        present=frozenset(STUDENTS),
        on=DAY,
    )
    assert [(each.rule, each.severity) for each in told] == [("period.crew-size", Severity.ASK)]


def test_an_entry_that_can_be_true_is_taken():
    first = mark(MarkKind.START, at(8, 5))
    assert admit(first, (), begins=BEGINS, ends=ENDS, now=at(8, 6)) is first


@pytest.mark.parametrize(
    ("entry", "said", "words"),
    [
        (mark(MarkKind.START, at(8, 40)), (), "still to come"),
        (mark(MarkKind.START, at(7, 59)), (), "not within the period, 08:00 to 09:30"),
        (mark(MarkKind.START, at(8, 5), members=()), (), "Nobody is at this task"),
        (mark(MarkKind.PARTLY, at(8, 5), quantity=-3.0), (), "-3 is no quantity"),
        (mark(MarkKind.PARTLY, at(8, 5), quantity=float("nan")), (), "nan is no quantity"),
        (mark(MarkKind.BLOCKED, at(8, 5), why="  "), (), "not said what blocks"),
        (mark(MarkKind.STOP, at(8, 5)), (), "has not begun"),
        (mark(MarkKind.START, at(8, 9)), (mark(MarkKind.START, at(8, 5)),), "at this task already"),
    ],
)
def test_an_entry_that_cannot_be_is_refused_with_its_reason(entry, said, words):
    with pytest.raises(EntryRefusal, match=words):
        admit(entry, said, begins=BEGINS, ends=ENDS, now=at(8, 30))


def test_a_task_that_is_done_takes_no_further_entry():
    with pytest.raises(EntryRefusal, match="done already"):
        admit(mark(MarkKind.START, at(8, 5)), (), begins=BEGINS, ends=ENDS, now=at(8, 6), done=True)


def test_how_far_a_task_is_follows_from_the_times_and_not_from_the_order_of_arrival():
    said = [mark(MarkKind.DONE, at(9), quantity=4.0), mark(MarkKind.PARTLY, at(8, 30), quantity=6.0)]
    progress = log_of(said).of("hang")
    assert (progress.state, progress.quantity) == (TaskState.DONE, 10.0)


def test_a_blocked_task_says_what_it_lacks_until_somebody_goes_on():
    blocked = mark(MarkKind.BLOCKED, at(8, 30), why="no screws")
    assert log_of([blocked]).of("hang").why == "no screws"
    assert log_of([blocked, mark(MarkKind.START, at(9))]).of("hang").why == ""


def test_a_task_is_ready_once_all_before_it_is_done():
    log = log_of([mark(MarkKind.DONE, at(8, 30))])
    assert log.ready(("hang",))
    assert not log.ready(("hang", "felt"))


def test_a_start_ends_what_the_crew_was_at_before():
    said = [mark(MarkKind.START, at(8, 10)), mark(MarkKind.START, at(8, 40), task="cut")]
    held = spells(said, begins=BEGINS, ends=ENDS)
    assert [(each.task, each.minutes) for each in held] == [("hang", 30), ("cut", 50)]


def test_a_crew_that_forgot_to_press_start_worked_from_the_bell():
    held = spells([mark(MarkKind.DONE, at(8, 45))], begins=BEGINS, ends=ENDS)
    assert [(each.task, each.minutes, each.members) for each in held] == [("hang", 45, ("ana", "bo"))]


KINDS = st.sampled_from([MarkKind.START, MarkKind.STOP, MarkKind.PARTLY, MarkKind.DONE, MarkKind.BLOCKED])


@given(
    st.lists(st.tuples(KINDS, st.integers(0, 90), st.sampled_from("ab"), st.sampled_from("12")), max_size=12)
)
def test_no_crew_works_longer_than_the_period_and_never_at_two_tasks_at_once(rows):
    said = [
        mark(kind, BEGINS + timedelta(minutes=minute), task=task, crew=name, entry=str(number))
        for number, (kind, minute, task, name) in enumerate(rows)
    ]
    held = spells(said, begins=BEGINS, ends=ENDS)
    for name in "12":
        own = sorted((each.begins, each.ends) for each in held if each.crew == name)
        assert all(first[1] <= second[0] for first, second in pairwise(own))
        assert sum(each.minutes for each in held if each.crew == name) <= 90
