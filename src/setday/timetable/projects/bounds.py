"""Bounds on the finish that need no search: the longest chain, and the work each resource has to do."""

from setday.timetable.projects.project import Project

__all__ = ["heads", "in_order", "lower_bound", "tails"]


def heads(project: Project) -> list[int]:
    """Return the earliest start of each task by links and releases alone [periods]."""
    earliest = list(project.releases or (0,) * len(project.durations))
    for task in in_order(project):
        for before, lag in project.before[task]:
            earliest[task] = max(earliest[task], earliest[before] + project.durations[before] + lag)
    return earliest


def tails(project: Project) -> list[int]:
    """Return for each task how long work goes on after its finish at the least [periods]."""
    longest = [0] * len(project.durations)
    for task in reversed(in_order(project)):
        for after, lag in project.after[task]:
            longest[task] = max(longest[task], longest[after] + project.durations[after] + lag)
    return longest


def lower_bound(project: Project) -> int:
    """Return a finish that no timetable beats [period].

    The larger of the longest chain and, for each resource and each pair of a head and a tail, the work of
    the tasks that start no earlier than the head and have at least the tail after them, spread over the
    resource.
    """
    early, late = heads(project), tails(project)
    chain = max((early[t] + length + late[t] for t, length in enumerate(project.durations)), default=0)
    return max([chain, *(_work_bound(project, r, early, late) for r in range(len(project.capacities)))])


def _work_bound(project: Project, resource: int, early: list[int], late: list[int]) -> int:
    works = [
        (early[t], late[t], length * project.demands[t][resource])
        for t, length in enumerate(project.durations)
        if length and project.demands[t][resource]
    ]
    best = 0
    for head in {work[0] for work in works}:
        behind = sorted((work for work in works if work[0] >= head), key=lambda work: -work[1])
        total = 0
        for index, (_, tail, amount) in enumerate(behind):
            total += amount
            if index + 1 == len(behind) or behind[index + 1][1] < tail:
                best = max(best, _period_when_done(project.capacities[resource], head, total) + tail)
    return best


def _period_when_done(capacity: tuple[int, ...], begin: int, work: int) -> int:
    """Return the period by whose beginning `work` can be done from `begin` on."""
    period = begin
    while work > 0:
        if period >= len(capacity) - 1:
            return period - (-work // max(capacity[-1], 1))
        work -= capacity[period]
        period += 1
    return period


def in_order(project: Project) -> list[int]:
    """Return the tasks so that each comes after all it waits for."""
    waits = [len(row) for row in project.before]
    ready = [task for task, many in enumerate(waits) if not many]
    order = []
    while ready:
        task = ready.pop()
        order.append(task)
        for after, _ in project.after[task]:
            waits[after] -= 1
            if not waits[after]:
                ready.append(after)
    return order
