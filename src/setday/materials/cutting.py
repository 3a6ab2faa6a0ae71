"""The cutting plan for a length problem: least money or fewest sticks, then the longest remnant."""

from collections import deque
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from setday.errors import NoAnswer
from setday.materials.first_fit import first_fit_decreasing
from setday.materials.lengths import (
    Certificate,
    CutPiece,
    CutStick,
    CuttingPlan,
    LengthBound,
    LengthOutcome,
    LengthProblem,
)
from setday.materials.sticks import Pattern, Solved, Sticks, material_bound, sticks_of
from setday.materials.verify import verify
from setday.measure import Length
from setday.solving import Limits, Status

__all__ = ["cutting_plan", "first_fit_plan", "plan_cost"]

_FOR_THE_TOTAL = 0.8
_NOTHING = Certificate(worth=(), scale=1)


def cutting_plan(problem: LengthProblem, limits: Limits) -> LengthOutcome:
    """Find the plan that costs least, and what no plan can beat.

    Parameters
    ----------
    problem : LengthProblem
        Lengths in 1/64 in, costs in cents.
    limits : Limits
        Time and seed; the clock is handed in.

    Returns
    -------
    LengthOutcome
        With a verified plan and a proven bound, or with the sentences that say why there is none.

    Raises
    ------
    NoAnswer
        When a plan was found that does not pass the check; it is not shown.

    Notes
    -----
    Column generation after Gilmore and Gomory ("A linear programming approach to the cutting-stock
    problem", Operations Research 9, 1961), with patterns limited to the pieces asked for; whole sticks by
    diving, recutting and, where few enough patterns can matter, an exhaustive choice among them.
    """
    from setday.materials.remnants import longer_remnant
    from setday.materials.solving import solve_sticks

    start = limits.clock()
    why = _uncuttable(problem)
    if why or not problem.asked:
        return _without_work(why)
    problem = replace(problem, stocks=tuple(s for s in problem.stocks if s.available != 0))
    sticks = sticks_of(problem)
    solved = solve_sticks(sticks, replace(limits, seconds=limits.seconds * _FOR_THE_TOTAL))
    if any(pattern.stock == sticks.ghost for pattern in solved.patterns):
        return _short_of_stock(problem, sticks, solved, limits.clock() - start)
    left = replace(limits, seconds=limits.seconds - (limits.clock() - start))
    worth_it = -(-problem.least_remnant // sticks.grid)
    patterns, proven = longer_remnant(sticks, solved, left, least=worth_it)
    plan = _plan(problem, sticks, patterns)
    wrong = verify(problem, plan)
    if wrong:
        raise NoAnswer("The cutting plan did not pass its own check and is not shown.", do=" ".join(wrong))
    objective = sticks.weigh(list(patterns))
    return LengthOutcome(
        status=Status.OPTIMAL if objective <= solved.bound else Status.FEASIBLE,
        plan=plan,
        objective=objective,
        cost_cents=plan_cost(problem, plan),
        bound=_bound(problem, sticks, solved),
        remnant_proven=proven and _even(problem, sticks),
        seconds=limits.clock() - start,
    )


def first_fit_plan(problem: LengthProblem) -> CuttingPlan | None:
    """Return the plan of first-fit decreasing, for comparison; None when it finds none."""
    if _uncuttable(problem):
        return None
    problem = replace(problem, stocks=tuple(s for s in problem.stocks if s.available != 0))
    sticks = sticks_of(problem)
    patterns = first_fit_decreasing(sticks)
    if any(pattern.stock == sticks.ghost for pattern in patterns):
        return None
    return _plan(problem, sticks, patterns)


def plan_cost(problem: LengthProblem, plan: CuttingPlan) -> int:
    """Return what the sticks of a plan cost [cents]."""
    prices = {stock.key: stock.cost_cents for stock in problem.stocks}
    return sum(prices[stick.stock] for stick in plan.sticks)


def _uncuttable(problem: LengthProblem) -> tuple[str, ...]:
    longest = max((stock.length for stock in problem.stocks if stock.available != 0), default=0)
    return tuple(
        f"A piece of {Length(demand.length)} is asked for ({demand.label or 'no label'}), "
        + (
            f"and the longest stock is {Length(longest)}."
            if longest
            else "and there is no stock to cut it from."
        )
        for demand in problem.demands
        if demand.count and demand.length > longest
    )


def _without_work(why: tuple[str, ...]) -> LengthOutcome:
    """Answer when nothing is asked for, or something that no stock is long enough for."""
    zero = Fraction(0)
    return LengthOutcome(
        status=Status.NONE if why else Status.OPTIMAL,
        plan=None if why else CuttingPlan(sticks=()),
        objective=0,
        cost_cents=0,
        bound=LengthBound(
            value=zero, linear=zero, material=zero, method="nothing to cut", certificate=_NOTHING
        ),
        remnant_proven=not why,
        seconds=0.0,
        why_none=why,
    )


def _short_of_stock(problem: LengthProblem, sticks: Sticks, solved: Solved, seconds: float) -> LengthOutcome:
    ghost = sticks.ghost if sticks.ghost is not None else 0
    proven = solved.bound >= sticks.weights[ghost]
    missing = CuttingPlan(
        sticks=tuple(
            CutStick(number=i, stock="", pieces=_pieces(sticks, problem, pattern), remnant=0)
            for i, pattern in enumerate((p for p in solved.patterns if p.stock == ghost), start=1)
        )
    )
    lengths = [str(Length(piece.length)) for stick in missing.sticks for piece in stick.pieces]
    sure = "No cutting plan exists" if proven else "No cutting plan was found in the time given"
    why = f"{sure}: the stock of limited number runs out. Left uncut in the best try: {', '.join(lengths)}."
    zero = Fraction(0)
    return LengthOutcome(
        status=Status.NONE,
        plan=None,
        objective=0,
        cost_cents=0,
        bound=LengthBound(
            value=zero,
            linear=zero,
            material=material_bound(problem),
            method=solved.how,
            certificate=_certificate(problem, sticks, solved),
        ),
        remnant_proven=False,
        seconds=seconds,
        why_none=(why,),
    )


def _even(problem: LengthProblem, sticks: Sticks) -> bool:
    """Whether equal remnants in units of the solver are equal in truth, whatever the stick."""
    return len({(stock.length + problem.kerf) % sticks.grid for stock in problem.stocks}) == 1


def _bound(problem: LengthProblem, sticks: Sticks, solved: Solved) -> LengthBound:
    return LengthBound(
        value=Fraction(solved.bound),
        linear=solved.dual.bound,
        material=material_bound(problem),
        method=solved.how,
        certificate=_certificate(problem, sticks, solved),
    )


def _certificate(problem: LengthProblem, sticks: Sticks, solved: Solved) -> Certificate:
    lengths = (size * sticks.grid - problem.kerf for size in sticks.sizes)
    return Certificate(worth=tuple(zip(lengths, solved.dual.worth, strict=True)), scale=solved.dual.scale)


def _plan(problem: LengthProblem, sticks: Sticks, patterns: Sequence[Pattern]) -> CuttingPlan:
    """Write patterns out as sticks with labelled pieces, equal ones side by side."""
    exact = sorted(patterns, key=lambda p: (p.stock, tuple(-count for count in p.counts)))
    labels = _labels(problem)
    result = []
    for number, pattern in enumerate(exact, start=1):
        stock = problem.stocks[pattern.stock]
        pieces = tuple(
            CutPiece(length=piece.length, label=labels[piece.length].popleft())
            for piece in _pieces(sticks, problem, pattern)
        )
        used = sum(piece.length + problem.kerf for piece in pieces)
        remnant = max(stock.length - used, 0)
        result.append(CutStick(number=number, stock=stock.key, pieces=pieces, remnant=remnant))
    return CuttingPlan(sticks=tuple(result))


def _pieces(sticks: Sticks, problem: LengthProblem, pattern: Pattern) -> tuple[CutPiece, ...]:
    return tuple(
        CutPiece(length=size * sticks.grid - problem.kerf, label="")
        for size, count in zip(sticks.sizes, pattern.counts, strict=True)
        for _ in range(count)
    )


def _labels(problem: LengthProblem) -> dict[int, deque[str]]:
    labels: dict[int, deque[str]] = {}
    for demand in problem.demands:
        labels.setdefault(demand.length, deque()).extend([demand.label] * demand.count)
    return labels
