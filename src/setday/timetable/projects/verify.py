"""An independent check of a timetable of a project: shares nothing with the searches."""

from collections.abc import Sequence

from setday.timetable.projects.project import Project

__all__ = ["verify"]


def verify(project: Project, starts: Sequence[int]) -> list[str]:
    """Return what `starts` breaks, in words; empty when it keeps every link, release and capacity.

    Parameters
    ----------
    project : Project
    starts : sequence of int
        Start of each task [period].
    """
    if len(starts) != len(project.durations):
        return [f"{len(project.durations)} tasks but {len(starts)} starts"]
    return [*_early(project, starts), *_out_of_order(project, starts), *_overfull(project, starts)]


def _early(project: Project, starts: Sequence[int]) -> list[str]:
    releases = project.releases or (0,) * len(starts)
    return [
        f"task {task} starts in period {start}, but not before {release} is allowed"
        for task, (start, release) in enumerate(zip(starts, releases, strict=True))
        if start < release
    ]


def _out_of_order(project: Project, starts: Sequence[int]) -> list[str]:
    broken = []
    for link in project.links:
        ready = starts[link.before] + project.durations[link.before] + link.lag
        if starts[link.after] < ready:
            broken.append(
                f"task {link.after} starts in period {starts[link.after]}, before {ready} when"
                f" task {link.before} lets it"
            )
    return broken


def _overfull(project: Project, starts: Sequence[int]) -> list[str]:
    broken = []
    for resource, capacity in enumerate(project.capacities):
        used: dict[int, int] = {}
        for task, start in enumerate(starts):
            for period in range(start, start + project.durations[task]):
                used[period] = used.get(period, 0) + project.demands[task][resource]
        for period, amount in sorted(used.items()):
            room = capacity[min(period, len(capacity) - 1)]
            if amount > room:
                broken.append(f"period {period} uses {amount} of resource {resource}, which has {room}")
    return broken
