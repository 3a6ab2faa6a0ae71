"""Projects solved: published optima, brute force on small ones, and what no timetable may break."""

import itertools
import json
import time
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.solving import Limits, Status
from setday.timetable.projects import Link, Project, lower_bound, solve, verify
from setday.timetable.projects.arrays import packed
from setday.timetable.projects.mirror import turned, turned_starts

PUBLISHED = json.loads((Path(__file__).parents[2] / "published" / "rcpsp.json").read_text(encoding="utf-8"))
"""PSPLIB instances with their published optima: R. Kolisch and A. Sprecher, European Journal of
Operational Research 96, 1996."""


def limits(seconds=90.0, *, seed=1):
    return Limits(seconds=seconds, clock=time.perf_counter, seed=seed)


def published(row):
    links = tuple(Link(before=t, after=later) for t, line in enumerate(row["suc"]) for later in line)
    return Project(
        name=row["name"],
        durations=tuple(row["dur"]),
        demands=tuple(map(tuple, row["dem"])),
        capacities=tuple((amount,) for amount in row["cap"]),
        links=links,
    )


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda row: row["name"])
def test_published_optima_are_reached_and_proven(row):
    found = solve(published(row), limits=limits())
    assert (found.finish, found.bound, found.status) == (row["opt"], row["opt"], Status.OPTIMAL)


@st.composite
def projects(draw, tasks=5, tied=True):
    count = draw(st.integers(1, tasks))
    kinds = draw(st.integers(1, 2))
    days = 6 if tied else 0
    capacities = tuple((*draw(st.lists(st.integers(0, 3), max_size=days)), 3) for _ in range(kinds))
    pairs = list(itertools.combinations(range(count), 2))
    chosen = draw(st.lists(st.sampled_from(pairs), unique=True, max_size=6)) if pairs else []
    return Project(
        name="drawn",
        durations=tuple(draw(st.integers(0, 4)) for _ in range(count)),
        demands=tuple(tuple(draw(st.integers(0, 3)) for _ in range(kinds)) for _ in range(count)),
        links=tuple(Link(before=a, after=b, lag=draw(st.integers(0, 3))) for a, b in chosen),
        capacities=capacities,
        releases=tuple(draw(st.integers(0, 4)) for _ in range(count)) if tied else (),
    )


def earliest_by_trying_every_order(project):
    """Place the tasks in every order that links allow, each at its first period; the best is the optimum."""
    count = len(project.durations)
    waits = {task: {link.before for link in project.links if link.after == task} for task in range(count)}
    best = None
    for order in itertools.permutations(range(count)):
        seen = set()
        if any(not waits[task] <= seen or seen.add(task) for task in order):
            continue
        starts = {}
        for task in order:
            starts[task] = next(
                period
                for period in itertools.count(project.releases[task])
                if fits(project, starts, task, period)
            )
        finish = max(starts[task] + project.durations[task] for task in order)
        best = finish if best is None else min(best, finish)
    return best


def fits(project, starts, task, period):
    for link in project.links:
        if link.after == task and period < starts[link.before] + project.durations[link.before] + link.lag:
            return False
    for when in range(period, period + project.durations[task]):
        for resource, capacity in enumerate(project.capacities):
            used = project.demands[task][resource] + sum(
                project.demands[other][resource]
                for other, start in starts.items()
                if start <= when < start + project.durations[other]
            )
            if used > capacity[min(when, len(capacity) - 1)]:
                return False
    return True


@settings(max_examples=60, deadline=None)
@given(projects())
def test_small_projects_finish_as_early_as_any_order_of_tasks_allows(project):
    found = solve(project, limits=limits())
    assert (found.finish, found.status) == (earliest_by_trying_every_order(project), Status.OPTIMAL)


@settings(max_examples=60, deadline=None)
@given(projects(tasks=9))
def test_every_timetable_passes_the_check_and_no_bound_passes_it(project):
    found = solve(project, limits=limits(0.5))
    assert verify(project, found.starts) == []
    assert lower_bound(project) <= found.bound <= found.finish


def test_a_person_may_stop_and_keep_the_best():
    project = published(PUBLISHED[2])
    told = []

    def stop(finish, bound):
        told.append((finish, bound))
        return False

    found = solve(project, limits=limits(), on_progress=stop)
    assert (found.status, verify(project, found.starts)) == (Status.STOPPED, [])
    assert told[0][0] >= told[0][1]


@pytest.mark.parametrize("workers", [1, 2])
def test_a_large_project_is_bred_and_proven_side_by_side(workers):
    row = next(row for row in PUBLISHED if row["name"] == "j6022_4")
    found = solve(published(row), limits=Limits(seconds=5.0, clock=time.perf_counter, workers=workers))
    assert verify(published(row), found.starts) == []
    assert found.bound <= row["opt"] <= found.finish


@given(projects(tied=False))
def test_a_project_turned_twice_is_itself_and_turned_once_has_the_same_bound(project):
    once = turned(project)
    again = turned(once)
    assert (again.durations, again.links) == (project.durations, project.links)
    assert lower_bound(once) == lower_bound(project)


@settings(max_examples=40, deadline=None)
@given(projects(tasks=8, tied=False))
def test_a_timetable_turned_round_keeps_every_rule_of_the_project_turned_round(project):
    starts = solve(project, limits=limits(2.0)).starts
    assert verify(turned(project), turned_starts(project, starts)) == []


@pytest.mark.parametrize("changes", [{"releases": (0, 2)}, {"capacities": ((1, 2),)}])
def test_a_project_tied_to_its_beginning_is_not_turned(changes):
    given = {"durations": (2, 1), "demands": ((1,), (1,)), "capacities": ((2,),), "releases": ()}
    assert turned(Project(name="porch", links=(Link(before=0, after=1),), **(given | changes))) is None


@given(st.data())
def test_a_look_at_the_packed_words_says_what_looking_at_each_resource_says(data):
    kinds = data.draw(st.integers(1, 9))
    most = data.draw(st.sampled_from([1, 7, 300, 2**20, 2**30]))
    amounts = st.lists(st.integers(0, most), min_size=kinds, max_size=kinds)
    demands = np.array([data.draw(amounts)], dtype=np.int32)
    profile = np.array(data.draw(st.lists(amounts, min_size=1, max_size=4)), dtype=np.int32)
    loads, rooms, guard = packed(demands, profile)
    looked = (((rooms - loads[0]) & guard[0]) == guard[0]).all(axis=1)
    assert looked.tolist() == (profile >= demands[0]).all(axis=1).tolist()


def test_resources_that_need_several_words_are_kept():
    """Eleven resources of up to a million take several words; two tasks meet in the last one only."""
    demands = ((0,) * 10 + (600_000,), (0,) * 10 + (600_000,), (1_000_000,) + (0,) * 10)
    project = Project(
        name="wide", durations=(2, 3, 4), demands=demands, links=(), capacities=((1_000_000,),) * 11
    )
    found = solve(project, limits=limits())
    assert (found.finish, found.status) == (5, Status.OPTIMAL)


def test_one_worker_comes_to_the_same_timetable_again():
    project = published(next(row for row in PUBLISHED if row["name"] == "j301_1"))
    alone = Limits(seconds=60.0, clock=time.perf_counter, workers=1)
    assert solve(project, limits=alone).starts == solve(project, limits=alone).starts
