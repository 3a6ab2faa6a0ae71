"""A project as a CP-SAT model: intervals, one cumulative a resource, heads and tails as windows."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from ortools.sat.python import cp_model

from setday.timetable.projects.bounds import heads, in_order, tails
from setday.timetable.projects.project import Project

__all__ = ["OPTIONS", "ProjectModel", "model_of"]

OPTIONS: dict[str, object] = {"subsolvers": ["no_lp", "objective_lb_search_no_lp"]}
"""Search that proved most on the public instances with two workers (measured)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProjectModel:
    """The model and where to read the starts: indices into an answer's values."""

    model: cp_model.CpModel
    starts: tuple[int, ...]
    finish: int


def model_of(
    project: Project, *, least: int, most: int, hint: Sequence[int] = (), apart: bool = True
) -> ProjectModel:
    """Return a model whose finish lies from `least` to `most` [periods].

    Parameters
    ----------
    project : Project
    least, most : int
        A proven bound, and the latest finish of interest.
    hint : sequence of int
        Starts to begin from; may miss `most`.
    apart : bool
        Whether to name sets of tasks of which no two fit side by side.  Neither is always sooner proven, so
        that of two proofs side by side one goes without.
    """
    model = cp_model.CpModel()
    finish = model.new_int_var(least, most, "finish")
    early, late = heads(project), tails(project)
    starts, intervals = [], []
    for task, length in enumerate(project.durations):
        start = model.new_int_var(early[task], max(most - late[task] - length, early[task]), f"start {task}")
        intervals.append(model.new_fixed_size_interval_var(start, length, f"task {task}"))
        model.add(start + length + late[task] <= finish)
        starts.append(start)
        if hint:
            model.add_hint(start, hint[task])
    for link in project.links:
        model.add(starts[link.after] >= starts[link.before] + project.durations[link.before] + link.lag)
    for resource in range(len(project.capacities)):
        _hold(model, project, resource, intervals, most)
    for tasks in _never_together(project) if apart else []:
        model.add_no_overlap([intervals[task] for task in tasks])
    model.minimize(finish)
    return ProjectModel(model=model, starts=tuple(s.index for s in starts), finish=finish.index)


def _hold(
    model: cp_model.CpModel,
    project: Project,
    resource: int,
    intervals: list[cp_model.IntervalVar],
    most: int,
) -> None:
    capacity = project.capacities[resource]
    full = max(capacity)
    users = [t for t, row in enumerate(project.demands) if row[resource] and project.durations[t]]
    held = [intervals[t] for t in users]
    amounts = [project.demands[t][resource] for t in users]
    for begin, end, room in _steps(capacity, most):
        if room < full:
            held.append(model.new_fixed_size_interval_var(begin, end - begin, "away"))
            amounts.append(full - room)
    model.add_cumulative(held, amounts, full)


def _steps(capacity: tuple[int, ...], most: int) -> list[tuple[int, int, int]]:
    """Return (begin, end, room) where the capacity stays the same, up to `most`."""
    steps: list[tuple[int, int, int]] = []
    for period, room in enumerate(capacity):
        end = max(most, period + 1) if period == len(capacity) - 1 else period + 1
        if steps and steps[-1][2] == room:
            steps[-1] = (steps[-1][0], end, room)
        else:
            steps.append((period, end, room))
    return steps


def _never_together(project: Project) -> list[list[int]]:
    """Return sets of tasks of which no two fit side by side; every such pair is in one of them."""
    tasks = [t for t, length in enumerate(project.durations) if length]
    full = [max(capacity) for capacity in project.capacities]
    ordered = _ordered_pairs(project)
    apart: dict[int, set[int]] = {task: set() for task in tasks}
    pairs = []
    for one, other in combinations(tasks, 2):
        clash = any(
            a + b > room
            for a, b, room in zip(project.demands[one], project.demands[other], full, strict=True)
        )
        if clash or (one, other) in ordered or (other, one) in ordered:
            apart[one].add(other)
            apart[other].add(one)
        if clash and (one, other) not in ordered and (other, one) not in ordered:
            pairs.append((one, other))
    sets: list[list[int]] = []
    covered: set[tuple[int, int]] = set()
    for pair in pairs:
        if pair not in covered:
            chosen = _grown(pair, apart)
            covered |= {(a, b) for a, b in combinations(sorted(chosen), 2)}
            sets.append(chosen)
    return sets


def _grown(pair: tuple[int, int], apart: dict[int, set[int]]) -> list[int]:
    """Return the pair and further tasks, each apart from all before, the most connected first."""
    chosen = list(pair)
    may = apart[pair[0]] & apart[pair[1]]
    while may:
        task = min(may, key=lambda other: (-len(apart[other] & may), other))
        chosen.append(task)
        may &= apart[task]
    return chosen


def _ordered_pairs(project: Project) -> set[tuple[int, int]]:
    """Return every (before, after) that links put in order, at once or through others."""
    reached: dict[int, set[int]] = {}
    for task in reversed(in_order(project)):
        reached[task] = {later for after, _ in project.after[task] for later in (after, *reached[after])}
    return {(before, later) for before, afters in reached.items() for later in afters}
