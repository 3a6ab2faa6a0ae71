"""Projects drawn at random in the published manner, for sizes of which no files are at hand.

Networks, demands and capacities are drawn by network complexity (arcs that say something new, by task),
resource factor (share of the resources a task needs) and resource strength (where capacity lies between
the largest single demand and the peak of the earliest starts): R. Kolisch, A. Sprecher and A. Drexl,
Management Science 41, 1995.  The values by size follow the description of PSPLIB (R. Kolisch and
A. Sprecher, European Journal of Operational Research 96, 1996), from memory.
"""

import random
from collections.abc import Iterator
from itertools import product

__all__ = ["drawn_rows"]

COMPLEXITIES = (1.5, 1.8, 2.1)
FACTORS = (0.25, 0.5, 0.75, 1.0)
STRENGTHS = {30: (0.2, 0.5, 0.7, 1.0), 60: (0.2, 0.5, 0.7, 1.0), 120: (0.1, 0.2, 0.3, 0.4, 0.5)}
RESOURCES, LONGEST, MOST = 4, 10, 10
ENDS = 3
"""Tasks that nothing goes before, and tasks that nothing follows; also most links in and out of a task."""

DRAWS = 20
"""Networks drawn at most for one instance."""


def drawn_rows(tasks: int, *, seed: int = 1, skip: int = 0, every: int = 1) -> Iterator[dict[str, object]]:
    """Yield one instance for each cell of the design after `skip`, each `every`-th of them, as rows."""
    strengths = STRENGTHS[120 if tasks > 60 else 60]
    for number, cell in enumerate(product(COMPLEXITIES, FACTORS, strengths)):
        if number >= skip and (number - skip) % every == 0:
            yield _row(tasks, *cell, draw=random.Random(1000 * seed + number), number=number)


def _row(
    tasks: int, complexity: float, factor: float, strength: float, *, draw: random.Random, number: int
) -> dict[str, object]:
    lengths = [0, *(draw.randint(1, LONGEST) for _ in range(tasks)), 0]
    after = _network(tasks, complexity, draw)
    demands = _demands(tasks, factor, draw)
    return {
        "name": f"drawn{tasks}-{number}",
        "dur": lengths,
        "dem": demands,
        "suc": [sorted(row) for row in after],
        "cap": _capacities(lengths, demands, after, strength),
    }


def _network(tasks: int, complexity: float, draw: random.Random) -> list[set[int]]:
    """Return what follows each task, drawn anew while a network has no room for all links wanted."""
    wanted = round(complexity * (tasks + 2))
    drawn = [_one_network(tasks, wanted, draw)]
    while sum(map(len, drawn[-1])) < wanted and len(drawn) < DRAWS:
        drawn.append(_one_network(tasks, wanted, draw))
    return max(drawn, key=lambda after: sum(map(len, after)))


def _one_network(tasks: int, wanted: int, draw: random.Random) -> list[set[int]]:
    """Return what follows each task, 0 the beginning and tasks + 1 the end."""
    after: list[set[int]] = [set() for _ in range(tasks + 2)]
    into = [0] * (tasks + 2)
    for task in range(1, ENDS + 1):
        after[0].add(task)
    for task in range(ENDS + 1, tasks + 1):
        low = [before for before in range(1, min(task, tasks - ENDS + 1)) if len(after[before]) < ENDS]
        before = draw.choice(low)
        after[before].add(task)
        into[task] += 1
    for task in range(1, tasks - ENDS + 1):
        if not after[task]:
            later = [t for t in range(max(task, ENDS) + 1, tasks + 1) if _is_news(after, task, t)]
            chosen = draw.choice([t for t in later if into[t] < ENDS] or later or [tasks + 1])
            after[task].add(chosen)
            into[chosen] += 1
    for task in range(tasks - ENDS + 1, tasks + 1):
        after[task].add(tasks + 1)
    _add_links(after, into, tasks, wanted, draw)
    return after


def _add_links(after: list[set[int]], into: list[int], tasks: int, wanted: int, draw: random.Random) -> None:
    """Add links that say something new until there are as many as wanted, or none is found."""
    for _ in range(200 * tasks):
        if sum(map(len, after)) >= wanted:
            return
        before = draw.randint(1, tasks - ENDS)
        task = draw.randint(max(before, ENDS) + 1, tasks)
        if len(after[before]) < ENDS and into[task] < ENDS and _is_news(after, before, task):
            after[before].add(task)
            into[task] += 1


def _is_news(after: list[set[int]], before: int, task: int) -> bool:
    """Return whether a link is not implied by others, and implies none of them."""
    if task in _reached(after, before):
        return False
    behind = _reached(after, task) | {task}
    ahead = [b for b in range(len(after)) if b == before or before in _reached(after, b)]
    return not any(after[b] & behind for b in ahead)


def _reached(after: list[set[int]], begin: int) -> set[int]:
    found: set[int] = set()
    waiting = list(after[begin])
    while waiting:
        task = waiting.pop()
        if task not in found:
            found.add(task)
            waiting.extend(after[task])
    return found


def _demands(tasks: int, factor: float, draw: random.Random) -> list[list[int]]:
    """Return a row a task, so many of all entries above nothing, at least one in each row."""
    pairs = {(task, draw.randrange(RESOURCES)) for task in range(tasks)}
    others = [pair for pair in product(range(tasks), range(RESOURCES)) if pair not in pairs]
    more = round(factor * tasks * RESOURCES) - len(pairs)
    pairs.update(draw.sample(others, max(0, more)))
    rows = [[0] * RESOURCES for _ in range(tasks + 2)]
    for task, resource in sorted(pairs):
        rows[task + 1][resource] = draw.randint(1, MOST)
    return rows


def _capacities(
    lengths: list[int], demands: list[list[int]], after: list[set[int]], strength: float
) -> list[int]:
    early = [0] * len(lengths)
    for task, row in enumerate(after):  # every link leads to a higher number
        for later in row:
            early[later] = max(early[later], early[task] + lengths[task])
    found = []
    for resource in range(RESOURCES):
        least = max(row[resource] for row in demands)
        used = [0] * (max(early) + 1)
        for task, begin in enumerate(early):
            for period in range(begin, begin + lengths[task]):
                used[period] += demands[task][resource]
        found.append(least + round(strength * (max(least, *used) - least)))
    return found
