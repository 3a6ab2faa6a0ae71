"""Least trees of cable: from the panel through every box of a group."""

from collections.abc import Sequence
from dataclasses import dataclass, field

__all__ = ["Trees"]


@dataclass(slots=True)
class Trees:
    """Least trees over groups of nodes, each worked out once.

    Parameters
    ----------
    from_panel : sequence of float
        Length from the panel to each node [ft].
    between : sequence of sequences of float
        Length between nodes [ft]; symmetric.
    """

    from_panel: Sequence[float]
    between: Sequence[Sequence[float]]
    _known: dict[int, float] = field(default_factory=dict)

    def length(self, group: int) -> float:
        """Return the length of the least tree from the panel through a group that takes one home run [ft].

        Parameters
        ----------
        group : int
            One bit a node; none gives 0.

        Notes
        -----
        Exactly one cable of the group comes from the panel: the shortest of them beside the least tree
        among the nodes themselves.  Every circuit has one home run, however near other boxes are.
        """
        if group not in self._known:
            nodes = [n for n in range(len(self.from_panel)) if group >> n & 1]
            self._known[group] = self._tree(nodes)
        return self._known[group]

    def _tree(self, nodes: list[int]) -> float:
        if not nodes:
            return 0.0
        total = min(self.from_panel[n] for n in nodes)
        near = {n: self.between[nodes[0]][n] for n in nodes[1:]}
        while near:
            best = min(near, key=near.__getitem__)
            total += near.pop(best)
            row = self.between[best]
            near = {n: min(length, row[n]) for n, length in near.items()}
        return total
