"""The coil plan: which runs of cable to cut from which coil, so that the fewest coils are bought."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from setday.cable import Pull
from setday.findings import Finding
from setday.materials.cutting import cutting_plan, first_fit_plan
from setday.materials.lengths import (
    CutStick,
    LengthBound,
    LengthDemand,
    LengthOutcome,
    LengthProblem,
    StockLength,
)
from setday.materials.prices import PriceList
from setday.materials.serving import lengths_offered
from setday.measure import Length
from setday.solving import Limits

__all__ = ["CoilCut", "CoilPlan", "CoilPlans", "cable_item", "coil_plans"]

_A_COIL = 1
_WHOLE_INCH = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class CoilCut:
    """One coil and what is cut from it.

    Parameters
    ----------
    number : int
        Counted through all kinds, so that a coil can be called by it.
    kind : str
        Of cable: "14/2".
    stock : str
        Key on the price list, or the mark of a part coil in the yard.
    label : str
    length : Length
        Of the coil before anything is cut.
    runs : tuple of str
        Numbers of the runs, the longest first.
    left : Length
        When nothing is cut wrong, with what was kept for that.
    on_hand : bool
        True for a part coil that lies in the yard.
    """

    number: int
    kind: str
    stock: str
    label: str
    length: Length
    runs: tuple[str, ...]
    left: Length
    on_hand: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CoilPlan:
    """How the runs of one kind of cable are cut.

    Parameters
    ----------
    kind : str
    coils : tuple of CoilCut
        Part coils from the yard first.
    bought : int
        Coils to buy.
    bound : int
        No plan buys fewer.
    proven : bool
        True when `bought` equals `bound`.
    method : str
        How the bound was proven, in words.
    cut, left : Length
        Cable cut, and left on all coils together.
    reserve : Length
        Of what is left, kept for miscuts; no coil is planned without it.
    by_first_fit : int or None
        Coils bought when the longest runs are cut first from wherever they fit, for comparison.
    problem : LengthProblem
    outcome : LengthOutcome
    """

    kind: str
    coils: tuple[CoilCut, ...]
    bought: int
    bound: int
    proven: bool
    method: str
    cut: Length
    left: Length
    reserve: Length
    by_first_fit: int | None
    problem: LengthProblem
    outcome: LengthOutcome


@dataclass(frozen=True, slots=True, kw_only=True)
class CoilPlans:
    """The coil plans of a house by kind of cable, and what could not be planned."""

    plans: tuple[CoilPlan, ...]
    findings: tuple[Finding, ...]

    @property
    def coils(self) -> tuple[CoilCut, ...]:
        """All coils, by number."""
        return tuple(coil for plan in self.plans for coil in plan.coils)


def cable_item(kind: str) -> str:
    """Return the item under which a kind of cable stands on the price list.

    Examples
    --------
    >>> cable_item("14/2")
    'cable-14/2'
    """
    return f"cable-{kind}"


def coil_plans(
    pulls: Sequence[Pull],
    prices: PriceList,
    *,
    limits: Limits,
    on_hand: Mapping[str, Sequence[StockLength]] | None = None,
) -> CoilPlans:
    """Plan from which coil each run is cut, kind by kind.

    Parameters
    ----------
    pulls : sequence of Pull
        The pull list.
    prices : PriceList
        Says in which lengths coils are sold.
    limits : Limits
        Time for all kinds together.
    on_hand : mapping or None
        Part coils in the yard by price list item; they cost nothing and so are used first.
    """
    kinds = sorted({pull.kind for pull in pulls})
    plans: list[CoilPlan] = []
    findings: list[Finding] = []
    for kind in kinds:
        wanted = [pull for pull in pulls if pull.kind == kind]
        offered = _offered(kind, wanted, prices, (on_hand or {}).get(cable_item(kind), ()))
        if not offered:
            findings.append(_not_listed(kind))
            continue
        share = replace(limits, seconds=limits.seconds / len(kinds))
        first = 1 + sum(len(plan.coils) for plan in plans)
        made = _plan(kind, wanted, offered, share, first=first)
        if isinstance(made, Finding):
            findings.append(made)
        else:
            plans.append(made)
    return CoilPlans(plans=tuple(plans), findings=tuple(findings))


def _offered(
    kind: str, wanted: Sequence[Pull], prices: PriceList, on_hand: Sequence[StockLength]
) -> tuple[StockLength, ...]:
    """Return the coils to cut from: one length bought, the shortest that every run fits, and part coils.

    Longer coils would make a smaller number of more metal: with one length the fewest coils are also the
    least cable.
    """
    sold = sorted(lengths_offered(prices, cable_item(kind)), key=lambda stock: (stock.length, stock.key))
    longest = max(_held(pull) for pull in wanted)
    fitting = [stock for stock in sold if stock.length >= longest] or sold[-1:]
    bought = [replace(stock, cost_cents=_A_COIL) for stock in fitting[:1]]
    return (*(replace(stock, cost_cents=0) for stock in on_hand), *bought)


def _plan(
    kind: str, wanted: Sequence[Pull], offered: tuple[StockLength, ...], limits: Limits, *, first: int
) -> CoilPlan | Finding:
    problem = LengthProblem(
        demands=tuple(LengthDemand(length=_held(pull), count=1, label=pull.number) for pull in wanted),
        stocks=offered,
        least_remnant=0,
    )
    outcome = cutting_plan(problem, limits)
    if outcome.plan is None:
        return _cannot_cut(kind, outcome)
    by_key = {stock.key: stock for stock in offered}
    sticks = sorted(outcome.plan.sticks, key=lambda stick: (by_key[stick.stock].cost_cents, stick.number))
    cuts = {pull.number: _whole_inches(pull.cut) for pull in wanted}
    numbered = enumerate(sticks, start=first)
    coils = tuple(_coil(kind, stick, by_key[stick.stock], n, cuts=cuts) for n, stick in numbered)
    greedy = first_fit_plan(problem)
    return CoilPlan(
        kind=kind,
        coils=coils,
        bought=outcome.objective,
        bound=_whole(outcome.bound),
        proven=outcome.objective <= _whole(outcome.bound),
        method=outcome.bound.method,
        cut=Length(sum(cuts.values())),
        left=Length(sum(coil.left.sixtyfourths for coil in coils)),
        reserve=Length(sum(pull.reserve.sixtyfourths for pull in wanted)),
        by_first_fit=None if greedy is None else sum(by_key[s.stock].cost_cents for s in greedy.sticks),
        problem=problem,
        outcome=outcome,
    )


def _whole(bound: LengthBound) -> int:
    return -int(-bound.value // 1)


def _whole_inches(length: Length) -> int:
    """Return a length up to the next inch: nobody cuts a coil finer."""
    return -(-length.sixtyfourths // _WHOLE_INCH) * _WHOLE_INCH


def _held(pull: Pull) -> int:
    """Return what a coil must hold for a run: its cut, and what is kept for a miscut."""
    return _whole_inches(pull.cut) + pull.reserve.sixtyfourths


def _coil(kind: str, stick: CutStick, stock: StockLength, number: int, *, cuts: Mapping[str, int]) -> CoilCut:
    runs = tuple(piece.label for piece in stick.pieces)
    return CoilCut(
        number=number,
        kind=kind,
        stock=stock.key,
        label=stock.label,
        length=Length(stock.length),
        runs=runs,
        left=Length(stock.length - sum(cuts[run] for run in runs)),
        on_hand=not stock.cost_cents,
    )


def _not_listed(kind: str) -> Finding:
    return Finding(
        rule="coils.not-listed",
        about=f"cable {kind}",
        found="the price list has no coil of it, with its length.",
        expected=f"a line with item {cable_item(kind)} and a length, like 250'.",
        do="Add the coil to the price list, or part coils to the stock on hand.",
    )


def _cannot_cut(kind: str, outcome: LengthOutcome) -> Finding:
    return Finding(
        rule="coils.too-short",
        about=f"cable {kind}",
        found=" ".join(outcome.why_none),
        expected="a coil at least as long as the longest run and what is kept with it for a miscut.",
        do="Put a longer coil on the price list, divide the run at a box, or keep less (cable.cut_reserve).",
    )
