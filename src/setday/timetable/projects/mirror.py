"""A project seen from its end: the last task first, every link turned round.

Both ways have the same earliest finish, but a proof is often found far sooner one way than the other.
"""

from collections.abc import Sequence

from setday.timetable.projects.project import Link, Project

__all__ = ["turned", "turned_starts"]


def turned(project: Project) -> Project | None:
    """Return the project from its end, or None where releases or a calendar tie it to its beginning.

    Examples
    --------
    >>> given = Project(
    ...     name="porch",
    ...     durations=(2, 3),
    ...     demands=((1,), (2,)),
    ...     capacities=((2,),),
    ...     links=(Link(before=0, after=1, lag=1),),
    ... )
    >>> turned(given).links
    (Link(before=1, after=0, lag=1),)
    """
    if any(project.releases) or any(len(set(row)) > 1 for row in project.capacities):
        return None
    return Project(
        name=project.name,
        durations=project.durations,
        demands=project.demands,
        links=tuple(Link(before=link.after, after=link.before, lag=link.lag) for link in project.links),
        capacities=project.capacities,
    )


def turned_starts(project: Project, starts: Sequence[int]) -> tuple[int, ...]:
    """Return the starts of the same timetable seen from its end [periods].

    Examples
    --------
    >>> given = Project(name="porch", durations=(2, 3), demands=((1,), (1,)), capacities=((2,),), links=())
    >>> turned_starts(given, (0, 4))
    (5, 0)
    """
    ends = [start + length for start, length in zip(starts, project.durations, strict=True)]
    last = max(ends, default=0)
    return tuple(last - end for end in ends)
