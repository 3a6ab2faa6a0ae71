"""What if: the same house with other boards, another price list, another rule, side by side."""

from dataclasses import dataclass, replace

from setday.boards.choices import BoardChoices
from setday.boards.figure import BoardFigure, Solve, figure
from setday.boards.outcome import Limits, Outcome, Status
from setday.boards.problem import Board, OffcutUse
from setday.boards.verify import totals, verify
from setday.findings import Finding, Severity
from setday.house import House
from setday.measure import Length
from setday.rules import LocalRules, RuleBook

__all__ = ["Variant", "WhatIf", "only_lengths", "usual_variants", "what_if"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """One way to look at the house: what differs from the house as chosen; None leaves it."""

    label: str
    boards: tuple[Board, ...] | None = None
    choices: BoardChoices | None = None
    local: LocalRules | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIf:
    """What one variant comes to.

    Parameters
    ----------
    label : str
    status : Status
    boards, pieces : int
    cost_cents : int
    butt_joint_ft : float
    gap : float
        Cost over the proven bound, minus 1.
    dearer_cents : int
        Than the first variant that has a layout.
    findings : tuple of Finding
    """

    label: str
    status: Status
    boards: int
    pieces: int
    cost_cents: int
    butt_joint_ft: float
    gap: float
    dearer_cents: int
    findings: tuple[Finding, ...]


def only_lengths(boards: tuple[Board, ...], lengths: tuple[Length, ...]) -> tuple[Board, ...]:
    """Return the boards of the price list that have one of these lengths."""
    wanted = {length.sixtyfourths for length in lengths}
    return tuple(board for board in boards if board.length in wanted)


def usual_variants(boards: tuple[Board, ...], choices: BoardChoices) -> tuple[Variant, ...]:
    """Return the variants asked for most: as chosen, only 8 ft boards, no wide boards, off-cuts kept near.

    A variant that changes nothing is left out.
    """
    short = only_lengths(boards, (Length.of(feet=8),))
    narrow = tuple(board for board in boards if board.width <= 48 * 64)
    near = replace(choices, offcuts=OffcutUse.ROOM)
    asked = (
        Variant(label="only 8 ft boards", boards=short),
        Variant(label="no boards wider than 48 in", boards=narrow),
        Variant(label="off-cuts stay in their room", choices=near),
    )
    changing = (v for v in asked if v.boards != boards and v.choices != choices)
    return (Variant(label="as chosen"), *changing)


def what_if(
    house: House,
    variants: tuple[Variant, ...],
    *,
    choices: BoardChoices,
    rules: RuleBook,
    boards: tuple[Board, ...],
    limits: Limits,
    solve: Solve | None = None,
) -> tuple[WhatIf, ...]:
    """Lay the house out once a variant, each within the same limits, and compare.

    Parameters
    ----------
    house : House
    variants : tuple of Variant
        The first is what the others are compared with.
    choices : BoardChoices
    rules : RuleBook
    boards : tuple of Board
    limits : Limits
        For each variant.
    solve : callable or None
        As for `figure`.
    """
    figured = [
        figure(
            house,
            choices=variant.choices or choices,
            rules=rules.with_local(variant.local) if variant.local else rules,
            boards=boards if variant.boards is None else variant.boards,
            limits=limits,
            solve=solve,
        )
        for variant in variants
    ]
    outcomes = [_best(own, figured) for own in figured]
    base = next((outcome.cost_cents for outcome in outcomes if outcome.layout), 0)
    return tuple(
        _row(variant.label, outcome, own, base)
        for variant, outcome, own in zip(variants, outcomes, figured, strict=True)
    )


def _best(own: BoardFigure, others: list[BoardFigure]) -> Outcome:
    """Return the best outcome known for a variant.

    A layout found under a stricter rule or with fewer boards to choose from may serve here too; it is
    taken where the verifier passes it and it is better than the variant's own.
    """
    best, problem = own.outcome, own.prepared.problem
    for layout in (other.outcome.layout for other in others if other is not own):
        if layout is None or best.layout is None:
            continue
        if any(f.severity is Severity.PROBLEM for f in verify(problem, layout)):
            continue
        counted = totals(problem, layout)
        rank = (counted.cost_cents, counted.butt_joint, counted.pieces)
        if rank < (best.cost_cents, best.butt_joint, best.pieces):
            best = replace(best, layout=layout, cost_cents=rank[0], butt_joint=rank[1], pieces=rank[2])
    return best


def _row(label: str, outcome: Outcome, own: BoardFigure, base: int) -> WhatIf:
    return WhatIf(
        label=label,
        status=outcome.status,
        boards=len(outcome.layout.boards) if outcome.layout else 0,
        pieces=outcome.pieces,
        cost_cents=outcome.cost_cents,
        butt_joint_ft=outcome.butt_joint / 768,
        gap=outcome.gap,
        dearer_cents=outcome.cost_cents - base if outcome.layout else 0,
        findings=own.findings,
    )
