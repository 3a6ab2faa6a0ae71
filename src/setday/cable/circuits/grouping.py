"""Outlets divided over circuits so that cable is least: the problem, the exact answer, its check."""

from collections.abc import Iterator
from dataclasses import dataclass

from setday.cable.circuits.trees import Trees

__all__ = ["GroupingProblem", "Groups", "exact_groups", "verify"]

_ROUND = 1e-6
SMALL = 11
"""Up to so many nodes every division is weighed [count]; our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupingProblem:
    """What must be divided.

    Parameters
    ----------
    names : tuple of str
        Of the nodes: outlets that stay together.
    loads : tuple of int
        [VA] of each.
    from_panel : tuple of float
        [ft].
    between : tuple of tuples of float
        [ft].
    circuits : int
        How many there are to be; each gets one home run.
    most_va : int
        A circuit may carry [VA].
    spread : frozenset of int
        Every circuit has at least one of these nodes; empty where it does not matter.
    """

    names: tuple[str, ...]
    loads: tuple[int, ...]
    from_panel: tuple[float, ...]
    between: tuple[tuple[float, ...], ...]
    circuits: int
    most_va: int
    spread: frozenset[int] = frozenset()

    @property
    def trees(self) -> Trees:
        """Return the least trees of groups of these nodes."""
        return Trees(from_panel=self.from_panel, between=self.between)

    def fits(self, group: int) -> bool:
        """Return whether a circuit may hold this group (one bit a node)."""
        nodes = list(bits(group))
        within = sum(self.loads[n] for n in nodes) <= self.most_va
        return bool(nodes) and within and (not self.spread or any(n in self.spread for n in nodes))


@dataclass(frozen=True, slots=True, kw_only=True)
class Groups:
    """Nodes divided over circuits.

    Parameters
    ----------
    groups : tuple of tuples of int
        By their first node.
    cable_ft : float
        Least trees, summed [ft].
    bound_ft : float
        No division comes to less [ft].
    method : str
    """

    groups: tuple[tuple[int, ...], ...]
    cable_ft: float
    bound_ft: float
    method: str

    @property
    def proven(self) -> bool:
        """True when nothing shorter exists, to a hundredth of a foot a cable."""
        cables = sum(len(group) for group in self.groups)
        return self.cable_ft - self.bound_ft <= cables / 100


def bits(group: int) -> Iterator[int]:
    """Yield the nodes of a group."""
    node = 0
    while group:
        if group & 1:
            yield node
        group >>= 1
        node += 1


def exact_groups(problem: GroupingProblem) -> Groups | None:
    """Weigh every division of a few nodes; None where none is admissible.

    By dynamic programming over subsets: the best way to divide a set into so many groups puts its first
    node into one admissible group and divides the rest.
    """
    count = len(problem.names)
    if count > SMALL:
        raise ValueError(f"{count} nodes are too many to weigh every division")
    trees = problem.trees
    price = {g: trees.length(g) for g in range(1, 1 << count) if problem.fits(g)}
    best: list[dict[int, tuple[float, int]]] = [{0: (0.0, 0)}]
    for _ in range(problem.circuits):
        best.append(_one_more(best[-1], price, (1 << count) - 1))
    whole = (1 << count) - 1
    if whole not in best[-1]:
        return None
    groups, left = [], whole
    for level in range(problem.circuits, 0, -1):
        group = best[level][left][1]
        groups.append(tuple(bits(group)))
        left ^= group
    cable = best[-1][whole][0]
    return Groups(
        groups=tuple(sorted(groups)), cable_ft=cable, bound_ft=cable, method="every division weighed"
    )


def _one_more(
    last: dict[int, tuple[float, int]], price: dict[int, float], whole: int
) -> dict[int, tuple[float, int]]:
    """Return the best divisions with one group more: set divided so far to cost and its newest group."""
    found: dict[int, tuple[float, int]] = {}
    for done, (cost, _) in last.items():
        rest = whole ^ done
        first = rest & -rest
        group = rest
        while group:
            if group & first and group in price:
                total = cost + price[group]
                if done | group not in found or total < found[done | group][0] - _ROUND:
                    found[done | group] = (total, group)
            group = (group - 1) & rest
    return found


def verify(problem: GroupingProblem, groups: Groups) -> tuple[str, ...]:
    """Say what is wrong with a division, from the problem alone; nothing when it holds."""
    wrong = []
    seen = sorted(node for group in groups.groups for node in group)
    if seen != list(range(len(problem.names))):
        wrong.append("an outlet is on no circuit or on two")
    if len(groups.groups) != problem.circuits:
        wrong.append(f"{len(groups.groups)} circuits instead of {problem.circuits}")
    masks = [sum(1 << node for node in group) for group in groups.groups]
    wrong += [f"circuit {n} is overloaded or empty" for n, m in enumerate(masks, 1) if not problem.fits(m)]
    length = sum(problem.trees.length(mask) for mask in masks)
    if abs(length - groups.cable_ft) > _ROUND * max(1.0, length):
        wrong.append(f"the trees come to {length:.2f} ft, not {groups.cable_ft:.2f} ft")
    if groups.bound_ft > groups.cable_ft + _ROUND:
        wrong.append("the bound is above the length")
    return tuple(wrong)
