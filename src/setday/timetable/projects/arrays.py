"""A project as flat arrays for the compiled search."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setday.timetable.projects.project import Project

__all__ = ["ProjectArrays", "arrays_of"]

Ints = NDArray[np.int32]
Words = NDArray[np.int64]

_BITS = 62
"""Bits of a word that may be used; the sign stays out of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProjectArrays:
    """Flat arrays of one project; n tasks, k resources, h periods, m links.

    Parameters
    ----------
    durations, releases : (n,)
    demands : (n, k)
    profile : (h, k)
        Capacity by period, to the horizon.
    before_at, after_at : (n + 1,)
        Where each task's links begin in the lists below.
    before, before_lag, after, after_lag : (m,)
    late : (n,)
        Latest finish by critical path from the horizon [period].
    loads, rooms : (n, w), (h, w)
        Demands and capacity again, several resources in one word, see `packed`.
    guard : (1,)
        The bit above each resource in a word.
    """

    durations: Ints
    releases: Ints
    demands: Ints
    profile: Ints
    before_at: Ints
    before: Ints
    before_lag: Ints
    after_at: Ints
    after: Ints
    after_lag: Ints
    late: Ints
    loads: Words
    rooms: Words
    guard: Words


def arrays_of(project: Project) -> ProjectArrays:
    """Return the arrays of `project`."""
    count = len(project.durations)
    horizon = project.horizon
    profile = np.zeros((horizon, len(project.capacities)), dtype=np.int32)
    for resource, row in enumerate(project.capacities):
        profile[: len(row), resource] = row[:horizon]
        profile[len(row) :, resource] = row[-1]
    before_at, before, before_lag = _links(project.before)
    after_at, after, after_lag = _links(project.after)
    demands = np.array(project.demands, dtype=np.int32).reshape(count, len(project.capacities))
    loads, rooms, guard = packed(demands, profile)
    return ProjectArrays(
        durations=np.array(project.durations, dtype=np.int32),
        releases=np.array(project.releases or (0,) * count, dtype=np.int32),
        demands=demands,
        profile=profile,
        before_at=before_at,
        before=before,
        before_lag=before_lag,
        after_at=after_at,
        after=after,
        after_lag=after_lag,
        late=np.array(_latest(project), dtype=np.int32),
        loads=loads,
        rooms=rooms,
        guard=guard,
    )


def packed(demands: Ints, profile: Ints) -> tuple[Words, Words, Words]:
    """Return demands and capacity with several resources side by side in each word, and the guard bits.

    Above each resource's bits a word of capacity has a bit that is set.  Taking a demand away leaves all of
    them set just where every resource has enough, so that one look serves several resources.
    """
    widest = int(profile.max(initial=0))
    wide = max(widest, int(demands.max(initial=0))).bit_length() + 1
    each = _BITS // wide
    words = max(1, -(-demands.shape[1] // each))
    loads = np.zeros((len(demands), words), dtype=np.int64)
    rooms = np.zeros((len(profile), words), dtype=np.int64)
    for resource in range(demands.shape[1]):
        word, at = divmod(resource, each)
        loads[:, word] += demands[:, resource].astype(np.int64) << (at * wide)
        rooms[:, word] += profile[:, resource].astype(np.int64) << (at * wide)
    guard = sum(1 << (at * wide + wide - 1) for at in range(each))
    return loads, rooms + guard, np.array([guard], dtype=np.int64)


def _links(rows: tuple[tuple[tuple[int, int], ...], ...]) -> tuple[Ints, Ints, Ints]:
    starts = np.cumsum([0, *(len(row) for row in rows)]).astype(np.int32)
    tasks = np.array([task for row in rows for task, _ in row], dtype=np.int32)
    lags = np.array([lag for row in rows for _, lag in row], dtype=np.int32)
    return starts, tasks, lags


def _latest(project: Project) -> list[int]:
    late = [project.horizon] * len(project.durations)
    waiting = [len(row) for row in project.after]
    ready = [task for task, many in enumerate(waiting) if not many]
    while ready:
        task = ready.pop()
        for earlier, lag in project.before[task]:
            late[earlier] = min(late[earlier], late[task] - project.durations[task] - lag)
            waiting[earlier] -= 1
            if not waiting[earlier]:
                ready.append(earlier)
    return late
