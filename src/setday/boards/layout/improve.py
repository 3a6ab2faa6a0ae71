"""Take some rows down and hang them again, many times, keeping what is cheaper.

Which rows: those cut from a board that is badly used, alone or with their whole surfaces.  They are
hung again along their cheapest paths, given what is now left of the boards.  A little worse is
accepted early and hardly ever late, so that the search leaves local best layouts.
"""

from dataclasses import dataclass
from math import log
from random import Random

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.filling import Filling
from setday.boards.layout.hanging import Hanging, Snapshot
from setday.boards.layout.network import Way
from setday.boards.layout.worth import Worth, worth

__all__ = ["Improver", "Score"]

Values = NDArray[np.float64]
SHARES = (0.8, 0.9, 1.0)
"""How far what is left of a board is counted on when pieces are placed; drawn afresh every round."""
KEPT = (0.8, 0.2)
"""How far it is counted on when a round is judged, at first and at last."""
NO = (float("inf"), 0.0)
NOISE = 0.08
FACES = 0.35
"""How often whole surfaces are hung again, instead of rows."""
ROWS = (1, 6)
"""How many rows are hung again, at least and at most."""
FIRST_JOINT, LAST_JOINT = 0.0003, 0.02
"""What a butt joint counts for while money is lowered, and when joints are [cents per 1/64 in]."""
MOST_KNOWN = 20_000
HOT, COLD = 15.0, 0.5
"""What a round may cost more, at first and at last [cents]."""


@dataclass(frozen=True, slots=True, order=True)
class Score:
    """What a layout is judged by, in this order."""

    cents: int
    joints: int
    pieces: int


class Improver:
    """Improves one group of surfaces.

    Parameters
    ----------
    hanging : Hanging
        Hung already.
    ways : list of Way
        One way to cut each surface that keeps all rules, to fall back on.
    values : array
        Worth per item [cents].
    seed : int
    """

    def __init__(self, hanging: Hanging, ways: list[Way], values: Values, seed: int) -> None:
        self.hanging = hanging
        self.ways = ways
        self.dice = Random(seed)
        self.finishing = False
        hanging.joint_price = FIRST_JOINT
        self.set_values(values)
        if not hanging.cuts:
            self._hang_all()
        self.current = self.best = hanging.snapshot()
        self.score = self._score()
        self.energy = self._energy()
        self.rounds = 0

    def set_values(self, values: Values) -> None:
        """Judge by other item values from now on."""
        pricer = self.hanging.pricer
        self.values = values
        self._known: dict[Filling, tuple[float, float]] = {}
        self.tables: list[Worth] = [worth(pricer, values, share) for share in SHARES]
        self.judge = worth(pricer, values, 1.0)
        self.hanging.judge_by(self.tables[1])
        if self.hanging.cuts:
            self.energy = self._energy()

    def _hang_all(self) -> None:
        """Hang every surface for the first time, large ones first."""
        faces = self.hanging.network.faces
        for f in sorted(range(len(faces)), key=lambda f: -faces[f].surface.width * faces[f].surface.height):
            if not self.hanging.hang_face(f, self.dice):
                self._hang_way(f)

    def _hang_way(self, face: int) -> None:
        way = self.ways[face]
        net = self.hanging.network
        for r in way.rows:
            self.hanging.hang_arcs(r, tuple(a for a in way.arcs if int(net.arc_row[a]) == r))
        self.hanging.taken[face] = way.rows

    def _score(self) -> Score:
        hanging = self.hanging
        return Score(hanging.cost(), hanging.joints, sum(len(arcs) for arcs in hanging.cuts.values()))

    def finish(self) -> None:
        """From now on lower butt joints and pieces, at no more money than the best layout costs."""
        if not self.finishing:
            self.finishing = True
            self.hanging.joint_price = LAST_JOINT
            self.reset(self.best)

    def _energy(self) -> tuple[float, float]:
        """Return the money for all boards, joints counted in, and what is left of them is worth."""
        known = self._known
        total, left = self.hanging.joint_price * self.hanging.joints, 0.0
        for f in self.hanging.fillings:
            if f not in known:
                known[f] = self.hanging.price_and_rest(f, self.judge)
            price, rest = known[f]
            total += price
            left += rest
        if len(known) > MOST_KNOWN:
            self._known = {f: known[f] for f in self.hanging.fillings}
        return total, left

    def good_fillings(self, most: int) -> list[Filling]:
        """Return boards cut in this search that lose least, for their price."""
        lost = [(self._lost_of(f) / self._known_price(f), n, f) for n, f in enumerate(list(self._known))]
        return [f for _, _, f in sorted(lost)[:most]]

    def _known_price(self, filling: Filling) -> float:
        return float(self.judge.price[self.judge.widths.index(filling.width), filling.used])

    def _lost_of(self, filling: Filling) -> float:
        place = self.hanging.network.place
        return self._known_price(filling) - sum(float(self.values[place[p.item]]) for p in filling.pieces)

    def round(self, heat: float) -> bool:
        """Take down and hang again once; True when the best layout so far is beaten.

        Parameters
        ----------
        heat : float
            1 at the start of the search, 0 at its end.
        """
        self.rounds += 1
        self.hanging.judge_by(self.dice.choice(self.tables))
        rows = self._rows_of_bad_boards()
        hung = self._faces_again(rows) if self.dice.random() < FACES else self._rows_again(rows)
        energy = self._energy() if hung else NO
        if self.finishing and self.hanging.cost() > self.score.cents:
            energy = NO
        share = KEPT[1] + (KEPT[0] - KEPT[1]) * heat
        more = energy[0] - self.energy[0] - share * (energy[1] - self.energy[1])
        allowed = COLD * (HOT / COLD) ** heat
        if more >= -allowed * log(self.dice.random() + 1e-12):
            self.hanging.restore(self.current)
            return False
        self.current, self.energy = self.hanging.snapshot(), energy
        score = self._score()
        if score < self.score:
            self.best, self.score = self.current, score
            return True
        return False

    def _rows_of_bad_boards(self) -> list[int]:
        fillings = self.hanging.fillings
        some = self.dice.sample(range(len(fillings)), min(4, len(fillings)))
        if self.dice.random() < 0.7:
            some = sorted(some, key=self._lost)[-self.dice.choice((1, 2)) :]
        else:
            some = some[:2]
        arc_row = self.hanging.network.arc_row
        rows = {int(arc_row[p.owner]): None for i in some for p in fillings[i].pieces}
        return list(rows)

    def _lost(self, i: int) -> float:
        return self._lost_of(self.hanging.fillings[i])

    def _faces_again(self, rows: list[int]) -> bool:
        faces = list(dict.fromkeys(int(self.hanging.network.row_face[r]) for r in rows))
        self.dice.shuffle(faces)
        faces = faces[: self.dice.randint(1, 3)]
        for f in faces:
            self.hanging.take_down(self.hanging.taken[f])
        return all(self.hanging.hang_face(f, self.dice, noise=NOISE) for f in faces)

    def _rows_again(self, rows: list[int]) -> bool:
        self.dice.shuffle(rows)
        rows = rows[: self.dice.randint(*ROWS)]
        self.hanging.take_down(rows)
        return all(self.hanging.hang_row(r, self.dice, noise=NOISE) for r in rows)

    def reset(self, state: Snapshot) -> None:
        """Go on from a given state."""
        self.hanging.restore(state)
        self.current, self.energy = state, self._energy()
        score = self._score()
        if score < self.score:
            self.best, self.score = state, score
