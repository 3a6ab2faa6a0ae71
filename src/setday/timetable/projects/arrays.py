"""A project as flat arrays for the compiled search."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setday.timetable.projects.project import Project

__all__ = ["ProjectArrays", "arrays_of"]

Ints = NDArray[np.int32]


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
    return ProjectArrays(
        durations=np.array(project.durations, dtype=np.int32),
        releases=np.array(project.releases or (0,) * count, dtype=np.int32),
        demands=np.array(project.demands, dtype=np.int32).reshape(count, len(project.capacities)),
        profile=profile,
        before_at=before_at,
        before=before,
        before_lag=before_lag,
        after_at=after_at,
        after=after,
        after_lag=after_lag,
        late=np.array(_latest(project), dtype=np.int32),
    )


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
