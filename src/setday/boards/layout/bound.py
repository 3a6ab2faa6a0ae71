"""The proven bound: column generation on the linear program, checked by Lagrange at every step.

Any prices per item give a bound: what the cheapest way through every surface costs at those prices,
scaled down until no pattern of any board is worth more than the board costs (Farley).  Constraints
that keep joints apart enter with prices of their own.  Pieces are counted as cells where that saves
much.  The linear program only finds good prices; the bound rests on the shortest paths and the
knapsacks, so it holds wherever the program is stopped.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.cells import in_cells
from setday.boards.layout.highs import Master
from setday.boards.layout.network import Network
from setday.boards.layout.patterns import Pattern, fits
from setday.boards.layout.pricing import Priced, Pricer
from setday.boards.layout.worth import area_values
from setday.boards.problem import Board

__all__ = ["Bounder", "Proof"]

Values = NDArray[np.float64]
CLOSE = 1e-4
"""The bound is close enough when the program's value is within this share of it."""
DEAR, DEARER = 1.0, 1.01
"""What a loose piece costs over the strip of board it takes, and how that grows when it is used."""
SHARES = (0.3, 0.5, 0.65, 0.8, 0.88, 0.94, 0.97, 0.985)
"""How near to the best prices so far new ones are tried."""
INWARD = (0.3, 0.6, 0.85)
"""How near to the best prices so far patterns are looked for besides."""
SPREADS = (0.0, 0.03, 0.03, 0.03)
"""How far apart the prices are at which the first patterns are made, so that they are of many kinds."""
MOST_COLUMNS = 10_000


@dataclass(frozen=True, slots=True)
class _Prices:
    """Prices of cells, and of joints that must keep apart."""

    items: Values
    apart: Values


@dataclass(frozen=True, slots=True)
class Proof:
    """What is proven so far.

    `lower` is the bound and `program` the value of the linear program [cents]; `items` is what every
    item is worth at the prices that prove the bound.
    """

    lower: float
    program: float
    steps: int
    done: bool
    items: Values


class Bounder:
    """Raises the proven bound on what one group of surfaces costs, a step at a time.

    Parameters
    ----------
    network : Network
    boards : tuple of Board
    trim : int
        Loss of a cut [1/64 in].
    pricing : type
        Who prices: `Pricer`, or the compiled one.
    """

    def __init__(
        self, network: Network, boards: tuple[Board, ...], trim: int, *, pricing: type[Pricer] = Pricer
    ) -> None:
        self.network = network
        self.boards = boards
        self.cells = in_cells(network, trim=trim)
        self.pricer = pricing(self.cells.items, boards, trim=trim)
        exact = self.pricer.exact
        self.under = self.pricer if exact else pricing(self.cells.items, boards, trim=trim, up=False)
        self.prices = np.array([float(b.price_cents) for b in boards])
        self.groups = _groups(network)
        self._master: Master | None = None
        self._seen: set[object] = set()
        self._offered: list[Pattern] = []
        self.center = _Prices(area_values(self.pricer), np.zeros(0))
        self.lower = self._bound(self.center)
        self.program = float("inf")
        self.done = not network.arcs
        self.steps = 0

    @property
    def master(self) -> Master:
        """The linear program, built when first asked for."""
        if self._master is None:
            self._master = Master(self.network, self.cells, self.boards, DEAR * _strip_costs(self.pricer))
            dice = np.random.default_rng(1)
            for spread in SPREADS:
                change = dice.uniform(1 - spread, 1 + spread, len(self.center.items))
                first = self.pricer.covering(self.center.items * change)
                self._master.add_patterns(self._fresh([p.pattern for p in first]))
        return self._master

    def _fresh(self, patterns: list[Pattern]) -> list[Pattern]:
        out = []
        for p in patterns:
            if p.slots and p.key not in self._seen:
                self._seen.add(p.key)
                out.append(p)
        return out

    def _bound(self, prices: _Prices) -> float:
        """Return the bound that some prices prove."""
        worth = self.under.best_values(prices.items)
        scale = min(1.0, float(np.min(self.prices / np.maximum(worth, 1e-9))))
        paths, _ = self.network.cheapest(self._costs(prices))
        return scale * (float(paths.sum()) - float(prices.apart.sum()))

    def _costs(self, prices: _Prices) -> Values:
        """Return what every piece costs at some prices."""
        items = self.cells.values(prices.items)
        return np.asarray(items[self.network.arc_item] + self._apart_costs(prices.apart))

    def _apart_costs(self, apart: Values) -> Values:
        at = np.zeros(int(self.network.first[-1]))
        if self._master is not None:
            for price, group in zip(apart.tolist(), self._master.apart, strict=False):
                if price > 0:
                    at[list(group)] += price
        return np.asarray(at[self.network.head])

    def report(self) -> Proof:
        """Return what is proven so far."""
        return Proof(self.lower, self.program, self.steps, self.done, self.cells.values(self.center.items))

    def offer(self, patterns: list[Pattern]) -> None:
        """Hand in patterns of good layouts for the next step."""
        self._offered = [self.cells.pattern(p) for p in patterns]

    def step(self, seconds: float, *, halt: Callable[[], bool] = lambda: False) -> None:
        """Solve the program once, raise the bound by its prices, add what they show to be missing.

        Parameters
        ----------
        seconds : float
            Time the program may take; a step that needs more changes nothing [s].
        halt : callable
            Asked now and then; True ends the step with what it has proven so far.
        """
        master = self.master
        master.add_patterns(self._fresh(self._offered))
        duals = master.relax(seconds)
        if duals is None:
            return
        self.steps += 1
        self.program = duals.objective
        prices = self._lean(_Prices(duals.items, duals.apart))
        held = self.pricer.covering(prices.items, halt=halt)
        repaired = _Prices(self._repaired(prices.items, held), prices.apart)
        if halt():
            return
        for p in (prices, repaired):
            self._try(p)
        for share in SHARES:
            self._try(self._between(repaired, share))
        found = held + self.pricer.best(prices.items)
        for share in INWARD:
            if halt():
                return
            found += self.pricer.covering(self._between(prices, share).items, halt=halt)
        fresh = self._fresh([p.pattern for p in self._missing(found, prices.items)])
        apart = self._broken(master)
        close = self.program - self.lower <= CLOSE * self.lower
        settled = not apart and (close or not fresh)
        self.done = not master.dearer_loose(DEARER) and settled
        self._tidy(master, prices.items)
        master.add_patterns(fresh)
        master.keep_apart(apart)

    def _lean(self, prices: _Prices) -> _Prices:
        slack = self.network.slack(self._costs(prices))
        return _Prices(self.cells.lean(prices.items, slack, self.network.arc_item), prices.apart)

    def _repaired(self, values: Values, held: list[Priced]) -> Values:
        """Return item values at which (nearly) no pattern is worth more than its board.

        Each item is scaled down by how much the worst pattern that holds it is overpaid; a pattern's
        items are then scaled by that pattern's own share at least.
        """
        out = values.copy()
        for p in held:
            over = p.value / self.prices[p.pattern.board]
            out[p.pattern.slots[0].item] = values[p.pattern.slots[0].item] / max(1.0, over)
        return out

    def _between(self, prices: _Prices, share: float) -> _Prices:
        """Return prices between new ones and the best so far (`share` of these): steadier than either."""
        old = np.concatenate([self.center.apart, np.zeros(len(prices.apart) - len(self.center.apart))])
        items = share * self.center.items + (1 - share) * prices.items
        return _Prices(items, share * old + (1 - share) * prices.apart)

    def _try(self, prices: _Prices) -> None:
        lower = self._bound(prices)
        if lower > self.lower:
            self.lower = lower
            self.center = prices

    def _missing(self, found: list[Priced], values: Values) -> list[Priced]:
        """Return the patterns worth more at some item values than their boards cost."""
        return [
            p
            for p in found
            if sum(float(values[s.item]) for s in p.pattern.slots) > self.prices[p.pattern.board] + 1e-6
        ]

    def _broken(self, master: Master) -> list[tuple[int, ...]]:
        """Return the groups of joints of which the program uses more than one."""
        if self.program - self.lower > 0.004 * self.lower:
            return []
        used = master.joints()
        broken = [g for g in self.groups if used[list(g)].sum() > 1.01]
        self.groups = [g for g in self.groups if g not in set(broken)]
        return broken

    def _tidy(self, master: Master, values: Values) -> None:
        """Forget patterns far from paying when there are many."""
        if len(master.patterns) > MOST_COLUMNS:
            gone = master.drop(values, keep=MOST_COLUMNS * 2 // 3)
            self._seen -= {p.key for p in gone}


def _strip_costs(pricer: Pricer) -> Values:
    """Return what every item costs as a length of the cheapest board it can be cut from."""
    out = np.full(len(pricer.items), np.inf)
    for b in pricer.boards:
        able = np.array([fits((height, edges, 0), b) for height, edges, _ in pricer.items])
        lengths = np.array([length for *_, length in pricer.items], dtype=np.float64)
        out = np.where(able, np.minimum(out, b.price_cents / b.length * lengths), out)
    return out


def _groups(network: Network) -> list[tuple[int, ...]]:
    """Return sets of joints of which at most one can be used."""
    out: dict[tuple[int, ...], None] = {}
    for lower, upper in network.neighbours():
        for group in _windows(network, lower, upper):
            out[group] = None
    for lower, upper in network.layered():
        for pair in network.clash_pairs(lower, upper):
            out[pair] = None
    return list(out)


def _windows(network: Network, lower: int, upper: int) -> list[tuple[int, ...]]:
    """Return the clashing joints of two neighbouring rows, gathered as wide as one stagger allows."""
    pairs = network.clash_pairs(lower, upper)
    if not pairs:
        return []
    ease = network.faces[int(network.row_face[upper])].ease
    found = []
    places = {n: network.node(n).u for pair in pairs for n in pair}
    for start in sorted(set(places.values())):
        inside = [n for n, u in places.items() if start <= u < start + ease.stagger]
        if _exclusive(network, inside, ease.least_piece):
            found.append(tuple(sorted(inside)))
    covered = {(a, b) for g in found for a in g for b in g}
    return found + [p for p in pairs if p not in covered]


def _exclusive(network: Network, nodes: list[int], least: int) -> bool:
    """Return whether no two of these joints in one row can both be used: no piece is so short."""
    rows: dict[int, list[int]] = {}
    for n in nodes:
        rows.setdefault(network.row_of(n), []).append(n)
    if len(rows) < 2:
        return False
    for mine in rows.values():
        ends = [network.node(n).u for n in mine]
        if max(ends) - min(ends) >= max(least, 1) or not network.unbroken(min(mine), max(mine)):
            return False
    return True
