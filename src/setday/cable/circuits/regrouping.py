"""A good division of many outlets over circuits: merged by what is saved, then moved and swapped."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import combinations
from random import Random

from setday.cable.circuits.grouping import GroupingProblem
from setday.cable.circuits.trees import Trees

__all__ = ["good_groups"]

_OVERLOAD = 10.0
"""Price of a volt-ampere too many while searching [ft]; far above any cable saved (our own)."""
_NO_SPREAD = 1e5
_KICKS = 25
"""Times the best division is shaken and improved again [count]; our own."""
_SHAKEN = 3


@dataclass(slots=True)
class _Search:
    problem: GroupingProblem
    trees: Trees
    known: dict[int, float] = field(default_factory=dict)

    def price(self, group: int) -> float:
        """Return the length of a group's tree, and what it costs to break a rule [ft]."""
        if group not in self.known:
            self.known[group] = self._price(group)
        return self.known[group]

    def _price(self, group: int) -> float:
        if not group:
            return _NO_SPREAD
        problem = self.problem
        load = sum(load for n, load in enumerate(problem.loads) if group >> n & 1)
        price = self.trees.length(group) + _OVERLOAD * max(0, load - problem.most_va)
        if problem.spread and not any(group >> n & 1 for n in problem.spread):
            price += _NO_SPREAD
        return price

    def improved(self, groups: list[int]) -> list[int]:
        """Take the best move or swap until none helps."""
        while (step := min(self._steps(groups), default=None)) is not None and step[0] < -1e-9:
            _, a, b, new_a, new_b = step
            groups = list(groups)
            groups[a], groups[b] = new_a, new_b
        return groups

    def _steps(self, groups: list[int]) -> Iterator[tuple[float, int, int, int, int]]:
        prices = [self.price(group) for group in groups]
        for a, b in combinations(range(len(groups)), 2):
            both = prices[a] + prices[b]
            for new_a, new_b in _exchanges(groups[a], groups[b]):
                yield self.price(new_a) + self.price(new_b) - both, a, b, new_a, new_b

    def total(self, groups: list[int]) -> float:
        return sum(self.price(group) for group in groups)


def _exchanges(a: int, b: int) -> Iterator[tuple[int, int]]:
    """Yield what two groups become when a node moves over or two change places."""
    singles_a = [1 << n for n in range(a.bit_length()) if a >> n & 1]
    singles_b = [1 << n for n in range(b.bit_length()) if b >> n & 1]
    for node in singles_a:
        yield a ^ node, b | node
    for node in singles_b:
        yield a | node, b ^ node
    for one in singles_a:
        for other in singles_b:
            yield a ^ one | other, b ^ other | one


def good_groups(problem: GroupingProblem, *, seed: int = 0) -> tuple[tuple[int, ...], ...] | None:
    """Return a division with short trees, or None where the search finds no admissible one.

    Parameters
    ----------
    problem : GroupingProblem
    seed : int
        Of the shaking; the same seed gives the same division.
    """
    search = _Search(problem=problem, trees=problem.trees)
    chance = Random(seed)
    best = search.improved(_merged(search))
    for _ in range(_KICKS):
        shaken = search.improved(_shaken(best, chance))
        if search.total(shaken) < search.total(best) - 1e-9:
            best = shaken
    if not all(problem.fits(group) for group in best):
        return None
    found = (tuple(n for n in range(group.bit_length()) if group >> n & 1) for group in best)
    return tuple(sorted(found))


def _merged(search: _Search) -> list[int]:
    """Join the two groups whose joining saves most, until there are as many as there are circuits."""
    groups = [1 << n for n in range(len(search.problem.names))]
    while len(groups) > search.problem.circuits:
        a, b = min(
            combinations(range(len(groups)), 2),
            key=lambda pair: (
                search.price(groups[pair[0]] | groups[pair[1]])
                - search.price(groups[pair[0]])
                - search.price(groups[pair[1]]),
                pair,
            ),
        )
        groups[a] |= groups.pop(b)
    return groups


def _shaken(groups: list[int], chance: Random) -> list[int]:
    """Throw a few nodes into other groups."""
    groups = list(groups)
    for _ in range(_SHAKEN):
        a, b = chance.sample(range(len(groups)), 2) if len(groups) > 1 else (0, 0)
        nodes = [n for n in range(groups[a].bit_length()) if groups[a] >> n & 1]
        if a != b and len(nodes) > 1:
            node = 1 << chance.choice(nodes)
            groups[a] ^= node
            groups[b] |= node
    return groups
