"""The hard core of every timetable: tasks with lengths, precedence and shared things that hold only so much.

In the literature this is single-mode resource-constrained project scheduling with minimal time lags and
resources whose capacity changes with time.  The class's timetable and the public instances are both
written as a `Project`.
"""

from dataclasses import dataclass
from functools import cached_property

from setday.errors import NoAnswer

__all__ = ["Link", "Project", "loop_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """`after` may start no earlier than `lag` periods after `before` has finished."""

    before: int
    after: int
    lag: int = 0


@dataclass(frozen=True, kw_only=True)
class Project:
    """Tasks that share resources.

    Parameters
    ----------
    name : str
    durations : tuple of int
        Length of each task [periods], 0 allowed for marks such as start and finish.
    demands : tuple of tuple of int
        For each task, what it holds of each resource while it runs.
    links : tuple of Link
        Precedence with lags.
    capacities : tuple of tuple of int
        For each resource its capacity by period; the last entry holds for all later periods, so a
        single entry is a resource that never changes.
    releases : tuple of int
        Earliest start of each task [period]; empty when all may start at 0.

    Raises
    ------
    NoAnswer
        When tables do not fit each other, a task asks for more than there ever is, or links make a
        loop (the loop is printed).
    """

    name: str
    durations: tuple[int, ...]
    demands: tuple[tuple[int, ...], ...]
    links: tuple[Link, ...]
    capacities: tuple[tuple[int, ...], ...]
    releases: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        problems = [*self._misfits(), *self._impossible()]
        if problems:
            raise NoAnswer("\n".join(problems))
        loop = loop_of(len(self.durations), self.links)
        if loop:
            raise NoAnswer("tasks wait for each other in a loop: " + " -> ".join(map(str, loop)))

    def _misfits(self) -> list[str]:
        count = len(self.durations)
        problems = []
        if len(self.demands) != count:
            problems.append(f"{count} lengths but {len(self.demands)} rows of demands")
        if self.releases and len(self.releases) != count:
            problems.append(f"{count} lengths but {len(self.releases)} earliest starts")
        if any(len(row) != len(self.capacities) for row in self.demands):
            problems.append(f"a row of demands does not name all {len(self.capacities)} resources")
        if any(not row for row in self.capacities):
            problems.append("a resource has no capacity at all")
        if any(length < 0 for length in self.durations):
            problems.append("a task has a length below nothing")
        if any(not (0 <= link.before < count and 0 <= link.after < count) for link in self.links):
            problems.append(f"a link names a task outside 0 to {count - 1}")
        problems.extend(
            f"task {link.after} waits for task {link.before} with a lag of {link.lag}, below nothing"
            for link in self.links
            if link.lag < 0
        )
        return problems

    def _impossible(self) -> list[str]:
        most = [max(row, default=0) for row in self.capacities]
        last = [row[-1] if row else 0 for row in self.capacities]
        problems = []
        for task, row in enumerate(self.demands):
            for resource, amount in enumerate(row[: len(most)]):
                if amount < 0:
                    problems.append(f"task {task} asks for less than nothing of resource {resource}")
                elif amount > most[resource] and self.durations[task]:
                    problems.append(
                        f"task {task} asks for {amount} of resource {resource}, which never has more than"
                        f" {most[resource]}"
                    )
                elif amount > last[resource] and self.durations[task]:
                    problems.append(
                        f"task {task} asks for {amount} of resource {resource}, which in the end has only"
                        f" {last[resource]}; the calendar has to go on until every task can be done"
                    )
        return problems

    @cached_property
    def horizon(self) -> int:
        """A finish that some timetable always meets: every task after every other [periods]."""
        calendar = max((len(row) for row in self.capacities), default=0)
        waits = sum(max(link.lag, 0) for link in self.links)
        return max(calendar, max(self.releases, default=0)) + sum(self.durations) + waits

    @cached_property
    def before(self) -> tuple[tuple[tuple[int, int], ...], ...]:
        """For each task the (task, lag) that it waits for."""
        rows: list[list[tuple[int, int]]] = [[] for _ in self.durations]
        for link in self.links:
            rows[link.after].append((link.before, link.lag))
        return tuple(tuple(sorted(row)) for row in rows)

    @cached_property
    def after(self) -> tuple[tuple[tuple[int, int], ...], ...]:
        """For each task the (task, lag) that waits for it."""
        rows: list[list[tuple[int, int]]] = [[] for _ in self.durations]
        for link in self.links:
            rows[link.before].append((link.after, link.lag))
        return tuple(tuple(sorted(row)) for row in rows)


def loop_of(count: int, links: tuple[Link, ...]) -> tuple[int, ...]:
    """Return tasks that wait for each other, the first repeated at the end; empty when there are none.

    >>> loop_of(3, (Link(before=0, after=1), Link(before=1, after=2), Link(before=2, after=1)))
    (1, 2, 1)
    """
    after: list[list[int]] = [[] for _ in range(count)]
    for link in links:
        after[link.before].append(link.after)
    state = [0] * count
    for root in range(count):
        path: list[int] = []
        stack = [(root, iter(after[root]))] if not state[root] else []
        while stack:
            task, rest = stack[-1]
            if state[task] == 0:
                state[task] = 1
                path.append(task)
            onward = next(rest, None)
            if onward is None:
                state[task] = 2
                path.pop()
                stack.pop()
            elif state[onward] == 1:
                return (*path[path.index(onward) :], onward)
            elif state[onward] == 0:
                stack.append((onward, iter(after[onward])))
    return ()
