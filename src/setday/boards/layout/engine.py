"""One group of surfaces being solved: first layout, then bound and improvement side by side."""

from collections.abc import Callable

import numpy as np

from setday.boards.layout.bound import Bounder, Proof
from setday.boards.layout.emit import Done
from setday.boards.layout.giving import Hung
from setday.boards.layout.groups import Group, network_of
from setday.boards.layout.hanging import Hanging, Snapshot
from setday.boards.layout.improve import Improver, Score
from setday.boards.layout.network import Network, Way
from setday.boards.layout.patterns import Pattern
from setday.boards.layout.pricing import Pricer
from setday.boards.layout.proving import Part
from setday.boards.layout.purchase import next_price
from setday.boards.layout.searching import Part as SearchPart
from setday.boards.layout.shape import net_area
from setday.boards.layout.worth import area_values, cheapest_board, worth

__all__ = ["Engine"]


MOST_OFFERED = 1500
"""Boards cut by the improver that are offered to the linear program at a time."""
MOST_IDLE = 400
"""Rounds without a better layout after which a proven group is left alone."""
NEAR, HIGHER = 0.001, 1.0005
"""Prices are worth learning when the program is so near the bound, and the bound is so much higher."""


class Engine:
    """Solves one group.

    Parameters
    ----------
    group : Group
    hung : list of Hung
        Its surfaces.
    trim : int
        Loss of a cut [1/64 in].
    seed : int
    free : list of Hung
        The same surfaces without regard to joints of layers below them, for the bound.
    """

    def __init__(self, group: Group, hung: list[Hung], *, trim: int, seed: int, free: list[Hung]) -> None:
        self.group = group
        self.trim = trim
        self.network = network_of(hung)
        pricer = Pricer(self.network.items, group.boards, trim=trim)
        hanging = Hanging(self.network, pricer, worth(pricer, area_values(pricer), 0.9))
        ways = [_moved(h, self.network, i) for i, h in enumerate(hung)]
        self.improver = Improver(hanging, ways, area_values(pricer), seed)
        self._free = self.network if free is hung else network_of(free)
        self._bounder: Bounder | None = None
        self._proof: Proof | None = None
        self._known = 0
        self._area = sum(net_area(s) for s in group.surfaces)
        self._rounded: tuple[tuple[float, int], float] = ((-1.0, -1), 0.0)
        self.idle = 0
        self.seed = seed
        self.learned = 0
        self._learned_at = 0.0

    def search_part(self, seed: int) -> SearchPart:
        """Return what a search in another process begins from."""
        improver = self.improver
        return SearchPart(
            self.network, self.group.boards, self.trim, improver.values, improver.best, self.seed + seed
        )

    @property
    def part(self) -> Part:
        """What the bound is proven from."""
        return self._free, self.group.boards, self.trim

    @property
    def settled(self) -> bool:
        """Whether the bound rises no further."""
        return self.proven or not self._free.arcs or (self._proof is not None and self._proof.done)

    @property
    def score(self) -> Score:
        """Money, butt joints and pieces of the best layout so far."""
        return self.improver.score

    @property
    def lower(self) -> float:
        """The proven bound so far, rounded up to the next money that boards can come to [cents]."""
        cheapest = min(b.price_cents / (b.width * b.length) for b in self.group.boards)
        raw = max(self._area * cheapest, self._proof.lower if self._proof is not None else 0.0)
        key = (raw, self.score.cents)
        if key != self._rounded[0]:
            price = next_price(raw, boards=self.group.boards, area=self._area, upper=self.score.cents)
            self._rounded = (key, price)
        return self._rounded[1]

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper is possible."""
        return self.score.cents < self.lower + 1 - 1e-6

    @property
    def finished(self) -> bool:
        """Whether nothing is left to do: proven, and joints not lowered for many rounds."""
        return self.proven and self.idle >= MOST_IDLE

    def improve(self, rounds: int, heat: float) -> bool:
        """Run some rounds of improvement; True when a better layout was found."""
        self.mind()
        if self.finished:
            return False
        better = sum(self.improver.round(heat) for _ in range(rounds)) > 0
        self.idle = 0 if better else self.idle + rounds
        return better

    def mind(self) -> None:
        """Take the proof into account: its prices, and that nothing is cheaper."""
        self._learn()
        if self.proven:
            self.finish()

    def take(self, found: Snapshot | None, rounds: int) -> bool:
        """Take over what another process has found in some rounds; True when it is better."""
        before = self.score
        if found is not None:
            self.improver.reset(found)
        better = self.score < before
        self.idle = 0 if better else self.idle + rounds
        return better

    def finish(self) -> None:
        """Turn from money to joints and pieces."""
        self.improver.finish()

    def _learn(self) -> None:
        """Take over the prices of the bound when they have become better."""
        proof = self._proof
        if proof is None or proof.steps == self._known or self._free is not self.network:
            return
        self._known = proof.steps
        if proof.program - proof.lower < NEAR * proof.lower and proof.lower > self._learned_at * HIGHER:
            self._learned_at = proof.lower
            self.learned += 1
            self.improver.set_values(proof.items)

    def prove(self, seconds: float, *, halt: Callable[[], bool]) -> None:
        """Raise the bound by one step, the best layout's patterns in hand, unless `halt` ends it early."""
        if self._bounder is None:
            self._bounder = Bounder(*self.part)
        self._bounder.offer(self.good_patterns())
        self._bounder.step(seconds, halt=halt)
        self.hear(self._bounder.report())

    def hear(self, proof: Proof) -> None:
        """Take note of what was proven."""
        self._proof = proof

    def good_patterns(self) -> list[Pattern]:
        """Return how the boards of the best layout and of other good ones are cut."""
        place = self._free.place
        patterns = []
        for f in (*self.improver.best.fillings, *self.improver.good_fillings(MOST_OFFERED)):
            if all(p.item in place for p in f.pieces):
                board = cheapest_board(self.group.boards, f.width, f.reach)
                patterns.append(f.pattern(board, place))
        return patterns

    def done(self) -> Done:
        """Return the best layout so far."""
        best = self.improver.best
        return Done(self.network, self.group.boards, best.taken, best.cuts, best.fillings)


def _moved(hung: Hung, network: Network, face: int) -> Way:
    """Return the way of a surface alone as places in the network of its group."""
    rows = network.face_rows(face)
    first = int(np.searchsorted(network.arc_row, rows[0]))
    return Way(tuple(rows[0] + r for r in hung.way.rows), tuple(first + a for a in hung.way.arcs))
