"""Hours of students: every minute of a spell is counted for each who was at it, once."""

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from setday.learning.hours import hours_of, hours_table
from setday.roster import Student
from setday.roster.periods import CrewTask, Spell

BELL = datetime(2026, 10, 6, 8, tzinfo=UTC)
ANA = Student(key="ana", name="Ana Quill", targets=(("boards", 120), ("cable", 30)))
BO = Student(key="bo", name="Bo Larkin")
TASKS = {
    "hang": CrewTask(key="hang", label="Hang", trade="boards", skill="walls", place="hall"),
    "lid": CrewTask(key="lid", label="Lid", trade="boards", skill="ceilings", place="hall"),
    "pull": CrewTask(key="pull", label="Pull", trade="cable", place="hall"),
}


def spell(task: str, minutes: int, *members: str) -> Spell:
    return Spell(crew="1", task=task, members=members, begins=BELL, ends=BELL + timedelta(minutes=minutes))


def test_minutes_are_summed_by_trade_and_skill():
    held = hours_of(
        (ANA,), [spell("hang", 40, "ana"), spell("lid", 20, "ana"), spell("hang", 5, "ana")], TASKS
    )
    assert held.students[0].minutes == (("boards", "ceilings", 20), ("boards", "walls", 45))


def test_what_is_wanted_and_not_reached_is_told():
    held = hours_of((ANA,), [spell("hang", 90, "ana"), spell("pull", 45, "ana")], TASKS)
    assert held.students[0].lacking == (("boards", 30),)


def test_who_was_never_at_a_trade_is_named():
    held = hours_of((ANA, BO), [spell("pull", 45, "bo")], TASKS)
    assert held.not_yet("cable") == (ANA,)


def test_a_table_has_a_trade_that_is_only_wanted():
    assert hours_table(hours_of((ANA,), (), TASKS)) == (
        ("student", "boards", "cable", "all"),
        ("Ana Quill", "0", "0", "0"),
    )


MEMBERS = st.lists(st.sampled_from(["ana", "bo", "gone"]), unique=True)


@given(st.lists(st.tuples(st.sampled_from([*TASKS, "unknown"]), st.integers(0, 200), MEMBERS), max_size=20))
def test_no_minute_is_lost_or_counted_twice(rows):
    held = hours_of((ANA, BO), [spell(task, minutes, *members) for task, minutes, members in rows], TASKS)
    wanted = sum(
        minutes * len({"ana", "bo"} & set(members)) for task, minutes, members in rows if task in TASKS
    )
    assert sum(each.total for each in held.students) == wanted
