"""Break a kept timetable in one way, and the check finds it."""

import random
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from setday.solving import Limits
from setday.timetable.classwork import solve, verify


def solved(seed):
    class_ = class_problem(seed, tasks=24, periods=24, students=9)
    limits = Limits(seconds=0.3, clock=time.perf_counter, workers=1)
    return class_, [list(row) for row in solve(class_, limits=limits).rows]


def put_an_absent_student_on_a_crew(class_, rows, draw):
    tasks = {task.key: task for task in class_.tasks}
    options = [
        (p, s, key)
        for p, row in enumerate(rows)
        for s, student in enumerate(class_.students)
        if student.key not in class_.periods[p].present
        for key in {key for key in row if key and not tasks[key].filler}
    ]
    p, s, key = draw.choice(options)
    rows[p][s] = key
    return "but away"


def take_a_crew_away(class_, rows, draw):
    """Take the last crew of a task away: its work is not finished."""
    task = draw.choice([task for task in class_.tasks if not task.filler])
    last = max(p for p, row in enumerate(rows) if task.key in row)
    rows[last] = ["" if key == task.key else key for key in rows[last]]
    return "is not finished"


def begin_before_it_may(class_, rows, draw):
    task = draw.choice([task for task in class_.tasks if task.after and not task.filler])
    before = next(p for p, row in enumerate(rows) if task.after[0].task in row)
    able = [
        n
        for n, student in enumerate(class_.students)
        if student.key in class_.periods[before].present and class_.may(student, task)
    ]
    for n in able[: task.crew_least]:
        rows[before][n] = task.key
    return f"{task.label} begins" if able else ""


def lend_a_task_to_one_without_its_signoff(class_, rows, draw):
    tasks = {task.key: task for task in class_.tasks}
    options = [
        (p, s, key)
        for p, row in enumerate(rows)
        for key in {key for key in row if key}
        for s, student in enumerate(class_.students)
        if not set(tasks[key].signoffs) <= student.signoffs
    ]
    if not options:
        return ""
    p, s, key = draw.choice(options)
    rows[p][s] = key
    return "lacks a sign-off"


def crowd_a_crew(class_, rows, draw):
    tasks = {task.key: task for task in class_.tasks}
    p = draw.randrange(len(rows))
    keys = [key for key in rows[p] if key and not tasks[key].filler]
    if not keys or tasks[keys[0]].crew_most >= len(class_.students):
        return ""
    rows[p] = [keys[0]] * len(class_.students)
    return f"on {tasks[keys[0]].label}, which takes"


@pytest.mark.parametrize(
    "break_it",
    [
        put_an_absent_student_on_a_crew,
        take_a_crew_away,
        begin_before_it_may,
        lend_a_task_to_one_without_its_signoff,
        crowd_a_crew,
    ],
)
@settings(max_examples=4, deadline=None)
@given(st.integers(1, 10_000))
def test_a_timetable_broken_in_one_way_is_found_out(break_it, seed):
    class_, rows = solved(seed)
    assert verify(class_, rows) == []
    said = break_it(class_, rows, random.Random(seed))
    assert not said or any(said in told for told in verify(class_, rows))
