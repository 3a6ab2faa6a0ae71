"""Names after the finish: what the annealing counts, another count finds too, and no rule is broken."""

import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.class_cases import class_problem
from setday.solving import Limits
from setday.timetable.classwork import Fixed, Student, idle, solve, tally, verify
from setday.timetable.classwork.aims import aims_of
from setday.timetable.classwork.annealing import anneal
from setday.timetable.classwork.arrays import arrays_of, work_of
from setday.timetable.classwork.given import given_of
from setday.timetable.classwork.naming import count, names_of
from setday.timetable.classwork.searching import replay, sow
from tests.timetable.classwork.test_solving import problem, task


def limits(seconds=0.5):
    return Limits(seconds=seconds, clock=time.perf_counter, workers=1)


def annealed(class_, seed, rounds):
    """Return what the play of an urgent list comes to by name, after so many moves."""
    a, g, work, aims = arrays_of(class_), given_of(class_, Fixed(), None), work_of(class_), aims_of(class_)
    lists, weights = np.zeros((2, 3, len(work)), np.int32), np.zeros(2, np.int64)
    sow(seed, a, g, work, lists, weights)
    spans, on = np.empty((len(work), 2), np.int32), np.empty(g.present.shape, np.int32)
    replay(lists[1], a, g, work, spans, on)
    names = names_of(on[: spans[list(class_.work), 1].max() + 1], spans, work, a, aims)
    anneal(seed, rounds, 500.0, 5.0, names, a, g, aims)
    keys = [task.key for task in class_.tasks]
    rows = [tuple(keys[n] if n >= 0 else "" for n in row) for row in names.on.tolist()]
    return rows, count(names, a, g, aims), names_of(names.on, spans, work, a, aims), names


@settings(max_examples=12, deadline=None)
@given(st.integers(1, 10_000), st.sampled_from((0, 500, 20_000)))
def test_names_keep_every_rule_and_are_counted_as_another_count_finds(seed, rounds):
    class_ = class_problem(seed, tasks=24, periods=24, students=9)
    rows, counted, _, _ = annealed(class_, seed, rounds)
    found = tally(class_, rows)
    assert (verify(class_, rows), idle(class_, rows)) == ([], 0)
    assert counted[:3].tolist() == [found.short, found.leaves, found.alone]


@settings(max_examples=6, deadline=None)
@given(st.integers(1, 10_000))
def test_counts_kept_up_to_date_are_those_counted_anew(seed):
    class_ = class_problem(seed, tasks=24, periods=24, students=9)
    _, _, anew, kept = annealed(class_, seed, 5000)
    for field in ("crew", "people", "shown", "total", "got", "house"):
        assert (getattr(anew, field) == getattr(kept, field)).all(), field


def test_everyone_gets_the_hours_wanted_where_the_work_allows():
    people = [Student(key=key, targets=(("trim", 240), ("paint", 240))) for key in ("ana", "ben")]
    class_ = problem(
        task("a", work=480, crew_most=1), task("b", work=480, crew_most=1, trade="paint"), students=people
    )
    found = solve(class_, limits=limits())
    assert (found.finish, found.tally.short) == (8, 0)


def test_hours_come_before_steady_crews_and_steady_crews_before_who_knows():
    people = [Student(key="ana", knows=frozenset({"trim", "paint"})), Student(key="ben")]
    class_ = problem(
        task("a", work=240, crew_most=1), task("b", work=240, crew_most=1, trade="paint"), students=people
    )
    found = solve(class_, limits=limits())
    assert (found.tally.leaves, found.tally.alone) == (
        0,
        4,
    )  # ben stays, though alone with what is new to him


def test_one_who_is_new_works_beside_one_who_knows():
    people = [
        Student(key="ana", knows=frozenset({"trim"})),
        Student(key="ben", knows=frozenset({"trim"})),
        Student(key="cai"),
        Student(key="dee"),
    ]
    class_ = problem(
        task("a", work=240, crew_least=2, crew_most=2),
        task("b", work=240, crew_least=2, crew_most=2),
        students=people,
    )
    assert solve(class_, limits=limits()).tally.alone == 0


def test_who_rather_works_with_another_does():
    people = [
        Student(key="ana", together=frozenset({"cai"})),
        *(Student(key=key) for key in ("ben", "cai", "dee")),
    ]
    class_ = problem(
        task("a", work=240, crew_least=2, crew_most=2),
        task("b", work=240, crew_least=2, crew_most=2),
        students=people,
    )
    assert solve(class_, limits=limits()).tally.parted == 0


def test_students_apart_are_never_on_one_crew():
    people = [Student(key="ana", apart=frozenset({"ben"})), Student(key="ben"), Student(key="cai")]
    class_ = problem(task("a", work=600, crew_most=2), task("b", work=300, crew_most=2), students=people)
    found = solve(class_, limits=limits())
    assert found.broken == ()
    assert all(row[0] != row[1] or not row[0] for row in found.rows)


def test_house_work_is_shared_by_those_who_are_there():
    people = [Student(key=key) for key in ("ana", "ben", "cai", "dee")]
    bench = task("bench", place="yard", work=0, filler=True, crew_most=4)
    class_ = problem(task("a", work=480, crew_most=2), bench, students=people)
    found = solve(class_, limits=limits())
    assert (found.finish, found.idle, found.tally.leaves) == (4, 0, 0)


@pytest.mark.parametrize(
    ("rows", "tallied"),
    [
        ((("a", "", ""), ("", "a", ""), ("a", "", "")), {"leaves": 2}),
        ((("a", "", ""), ("b", "a", "a")), {"leaves": 1}),
        ((("a", "", ""), ("b", "", ""), ("a", "", "")), {"leaves": 0}),  # nobody was on it meanwhile
        ((("bench", "", ""), ("a", "bench", "")), {"leaves": 0}),
        ((("", "a", ""), ("a", "a", "")), {"alone": 1}),
        ((("a", "b", ""), ("a", "a", "")), {"parted": 1}),
        ((("a", "a", ""),), {"short": 240 - 60}),
    ],
)
def test_the_count_by_hand(rows, tallied):
    people = [
        Student(key="ana", knows=frozenset({"trim"}), targets=(("trim", 240),), together=frozenset({"ben"})),
        Student(key="ben"),
        Student(key="cai"),
    ]
    bench = task("bench", place="yard", work=0, filler=True, trade="bench")
    class_ = problem(task("a", work=600), task("b", work=600), bench, students=people)
    found = tally(class_, rows)
    assert {name: getattr(found, name) for name in tallied} == tallied
