"""Cutting pieces from stock lengths: the problem, the plan, and what a solve came to.

Lumber, pipe, bead, coils of cable: pieces of given lengths are cut from sticks of given lengths.
All lengths here are whole sixty-fourths of an inch, as plain ``int``, so that solver and verifier
are exact.

A saw takes its kerf at every cut.  A stick of length L gives pieces whose lengths, each with one
kerf, sum to at most L plus one kerf: the last piece needs no cut when it ends where the stick ends,
and what is left beyond it may be thinner than the blade.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from setday.solving import Status

__all__ = [
    "Certificate",
    "CutPiece",
    "CutStick",
    "CuttingPlan",
    "LengthBound",
    "LengthDemand",
    "LengthOutcome",
    "LengthProblem",
    "Objective",
    "StockLength",
]


class Objective(StrEnum):
    """What the plan keeps least."""

    MONEY = "money"
    STICKS = "sticks"
    """The number of sticks, whatever they cost."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthDemand:
    """So many pieces of one length.

    Parameters
    ----------
    length : int
        [1/64 in], more than nothing.
    count : int
        Not below nothing.
    label : str
        What they are for: "north wall, top plate".
    """

    length: int
    count: int
    label: str = ""

    def __post_init__(self) -> None:
        if self.length <= 0 or self.count < 0:
            raise ValueError(f"{self.count} pieces of length {self.length} cannot be asked for")


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLength:
    """A length that can be bought, or a remnant that lies in the yard.

    Parameters
    ----------
    key : str
        Item key on the price list, or the remnant's mark; unique in a problem.
    length : int
        [1/64 in].
    cost_cents : int
        Price of one [cents]; nothing for what is on hand.
    available : int or None
        How many there are; None when any number can be bought.
    label : str
    """

    key: str
    length: int
    cost_cents: int
    available: int | None = None
    label: str = ""

    def __post_init__(self) -> None:
        if self.length <= 0 or self.cost_cents < 0 or (self.available or 0) < 0:
            raise ValueError(
                f"stock {self.key!r} cannot be: {self.length}, {self.cost_cents}, {self.available}"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthProblem:
    """Everything a cutting plan depends on.

    Parameters
    ----------
    demands : tuple of LengthDemand
        Several may ask for one length under different labels.
    stocks : tuple of StockLength
    kerf : int
        What one cut takes [1/64 in].
    least_remnant : int
        Shortest remnant worth keeping [1/64 in]; anything shorter is scrap.
    objective : Objective
    """

    demands: tuple[LengthDemand, ...]
    stocks: tuple[StockLength, ...]
    kerf: int = 0
    least_remnant: int = 0
    objective: Objective = Objective.MONEY

    def __post_init__(self) -> None:
        if self.kerf < 0 or self.least_remnant < 0:
            raise ValueError("a kerf and a least remnant are not below nothing")
        keys = [stock.key for stock in self.stocks]
        if len(set(keys)) != len(keys):
            raise ValueError("two stock lengths share a key")

    def weight(self, stock: StockLength) -> int:
        """Return what one stick of `stock` counts for in the objective: its price in cents, or one."""
        return 1 if self.objective is Objective.STICKS else stock.cost_cents

    @property
    def asked(self) -> Mapping[int, int]:
        """Pieces asked for by length, longest first."""
        total: dict[int, int] = {}
        for demand in self.demands:
            if demand.count:
                total[demand.length] = total.get(demand.length, 0) + demand.count
        return dict(sorted(total.items(), reverse=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPiece:
    """One piece of a stick: how long, and what it is for."""

    length: int
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CutStick:
    """One stick and the pieces cut from it, the longest first."""

    number: int
    stock: str
    pieces: tuple[CutPiece, ...]
    remnant: int
    """What is left of it behind the last cut [1/64 in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingPlan:
    """Which pieces come from which stick.

    Parameters
    ----------
    sticks : tuple of CutStick
        Numbered from 1.
    """

    sticks: tuple[CutStick, ...]

    @property
    def counts(self) -> Mapping[str, int]:
        """Sticks used by stock key."""
        total: dict[str, int] = {}
        for stick in self.sticks:
            total[stick.stock] = total.get(stick.stock, 0) + 1
        return total

    @property
    def longest_remnant(self) -> int:
        """The longest remnant [1/64 in]; nothing when no stick leaves one."""
        return max((stick.remnant for stick in self.sticks), default=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """What proves a bound: a worth for each length, in parts of the objective's unit.

    Parameters
    ----------
    worth : tuple of (int, int)
        For each length asked for, its worth in `scale`-ths of a cent (or of a stick).
    scale : int

    Notes
    -----
    For any worths not below nothing, let V be the most worth that fits on one stick of a stock.  Where
    V is not above the stick's cost, no plan costs less than the worth of all pieces asked for; a stock of
    limited number may be overdrawn, at the price of its number times V less its cost.  This is linear
    programming duality; `setday.materials.verify` works V out anew.
    """

    worth: tuple[tuple[int, int], ...]
    scale: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthBound:
    """What no plan can beat, in the objective's unit (cents or sticks).

    Parameters
    ----------
    value : Fraction
        The bound in force.
    linear : Fraction
        From the linear programme over all cutting patterns, proven by `certificate`; a little below that
        programme's own total where closing the rest could not have changed `value`.
    material : Fraction
        The weaker one from length alone: every inch at the price of the cheapest inch.
    method : str
        How `value` was proven, in words.
    certificate : Certificate
    """

    value: Fraction
    linear: Fraction
    material: Fraction
    method: str
    certificate: Certificate


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthOutcome:
    """What a solve came to.

    Parameters
    ----------
    status : Status
        "optimal" when `objective` equals the bound in force.
    plan : CuttingPlan or None
    objective : int
        Cents or sticks, as the problem's objective says; 0 without a plan.
    cost_cents : int
        Price of the sticks used [cents].
    bound : LengthBound
    remnant_proven : bool
        True when no plan of the same objective leaves a longer remnant worth keeping.
    seconds : float
        By the clock handed in [s].
    why_none : tuple of str
        Sentences: what cannot be cut, when there is no plan.
    """

    status: Status
    plan: CuttingPlan | None
    objective: int
    cost_cents: int
    bound: LengthBound
    remnant_proven: bool
    seconds: float
    why_none: tuple[str, ...] = ()

    @property
    def gap(self) -> float:
        """Objective over bound, minus 1; 0 where there is no plan or nothing to pay."""
        return float(self.objective / self.bound.value - 1) if self.plan and self.bound.value else 0.0
