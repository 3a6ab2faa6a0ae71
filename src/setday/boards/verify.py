"""The verifier: every layout is checked against its problem, without a line of the optimiser.

It reads only the words of `setday.boards.problem` and `setday.boards.outcome`.  A layout is shown only
when nothing of severity "problem" comes back.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from setday.boards.covered import cover_findings, is_square_cut, wanted_area
from setday.boards.cutting import cutting_findings
from setday.boards.faults import RELAXABLE, fault, size
from setday.boards.jointed import joint_findings
from setday.boards.joints import butt_joints, row_joints
from setday.boards.laidout import LaidOut
from setday.boards.outcome import Layout, Outcome, Status
from setday.boards.problem import BoardProblem, Surface, SurfaceKind
from setday.boards.rowed import row_findings, short_piece_findings
from setday.findings import Finding, Severity, in_order

__all__ = ["Totals", "net_area", "totals", "verify", "verify_outcome"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """What a layout adds up to, counted afresh from its pieces.

    Parameters
    ----------
    boards, pieces : int
    cost_cents : int
        [cents]
    board_area : int
        Of the bought boards [1/4096 in2].
    net_area : float
        Of the surfaces without openings [1/4096 in2].
    butt_joint : int
        Total length of the butt joints [1/64 in].
    """

    boards: int
    pieces: int
    cost_cents: int
    board_area: int
    net_area: float
    butt_joint: int


def verify(problem: BoardProblem, layout: Layout) -> tuple[Finding, ...]:
    """Check a layout in everything the problem asks.

    Returns
    -------
    tuple of Finding
        Empty for a layout that keeps every rule.  A rule that `layout.relaxed` names for a surface
        comes back with severity "ask"; anything else with severity "problem".
    """
    laid = LaidOut(problem=problem, layout=layout)
    broken = tuple(_reference_findings(laid))
    if broken:
        return in_order(broken)
    butts, rowed = butt_joints(laid), row_joints(laid)
    findings = [
        *_order_findings(laid),
        *row_findings(laid),
        *cover_findings(laid),
        *cutting_findings(laid),
    ]
    if not any(f.rule in ("boards.verify.row-edges", "boards.verify.row-of-piece") for f in findings):
        findings += short_piece_findings(laid, butts)
        findings += joint_findings(laid, butts, rowed)
    return in_order(_eased(f, laid) for f in findings)


def _reference_findings(laid: LaidOut) -> Iterable[Finding]:
    """Find what the layout names and the problem lacks."""
    named = [rows.surface for rows in laid.layout.surfaces]
    for surface_id in sorted(set(named) ^ set(laid.surfaces)):
        yield fault("surfaces", surface_id, "it stands in the layout or in the problem only.", "in both.")
    if len(named) != len(set(named)):
        yield fault("surfaces", "the layout", "a surface is divided twice.", "every surface once.")
    if len(laid.bought) != len(laid.layout.boards):
        yield fault("boards", "the layout", "two boards have one number.", "one number a board.")
    for board in laid.layout.boards:
        if board.key not in laid.price_list:
            yield fault("boards", f"board {board.number}", f"{board.key} is not on the price list.")
    for piece in laid.layout.pieces:
        if piece.surface not in laid.surfaces:
            yield fault("pieces", piece.surface, "a piece hangs on a surface that does not exist.")
        if piece.board not in laid.bought:
            yield fault(
                "pieces", piece.surface, f"a piece is cut from board {piece.board}, which was not bought."
            )


def _order_findings(laid: LaidOut) -> Iterable[Finding]:
    sequence = [laid.surfaces[rows.surface].sequence for rows in laid.layout.surfaces]
    if sequence != sorted(sequence):
        yield fault("order", "the layout", "its surfaces do not stand in hanging order.")
    first_use = list(dict.fromkeys(piece.board for piece in laid.layout.pieces))
    if [board.number for board in laid.layout.boards] != list(range(1, len(laid.layout.boards) + 1)):
        yield fault("numbering", "the layout", "its boards are not numbered 1, 2, 3 and on.")
    elif first_use != sorted(first_use):
        yield fault("numbering", "the layout", "its boards are not numbered in the order of first use.")
    for number in sorted(set(laid.bought) - set(first_use)):
        yield fault("numbering", f"board {number}", "it is bought and not used.", "a piece from every board.")
    yield from _hanging_findings(laid)


def _hanging_findings(laid: LaidOut) -> Iterable[Finding]:
    hung: set[str] = set()
    last = (0, False)
    for piece in laid.layout.pieces:
        surface = laid.surfaces[piece.surface]
        place = (surface.day, surface.kind is SurfaceKind.WALL)
        if place < last:
            yield fault("order", surface.label, "a piece hangs after the day, or after walls were begun.")
        last = max(place, last)
        hung.add(surface.id)
        if surface.over and surface.over not in hung:
            yield fault("order", surface.label, "a piece hangs before the layer below it.")


def _eased(finding: Finding, laid: LaidOut) -> Finding:
    """Put a rule that had to give way, and says so, to the person instead of ending the layout."""
    for surface in laid.problem.surfaces:
        if surface.label == finding.about and _is_relaxed(finding.rule, surface, laid.layout.relaxed):
            return replace(
                finding,
                severity=Severity.ASK,
                do="The search found no way to keep the rule here: agree to it, or change framing or rule.",
            )
    return finding


_SIGNS = {
    "stagger": ("stagger",),
    "opening-corner": ("opening",),
    "least-piece": ("piece",),
    "least-row": ("row",),
    "on-member": ("member",),
    "factory-edge": ("factory", "taper"),
}


def _is_relaxed(rule: str, surface: Surface, relaxed: tuple[str, ...]) -> bool:
    if rule not in RELAXABLE:
        return False
    signs = _SIGNS[rule.removeprefix("boards.verify.")]
    mine = [s for s in relaxed if s.startswith((f"{surface.id}:", f"{surface.label}:"))]
    return any(sign in sentence for sentence in mine for sign in signs)


def net_area(surface: Surface) -> float:
    """Return the area of a surface without its openings [1/4096 in2]; exact for square-cut surfaces."""
    if is_square_cut(surface.outline):
        return float(wanted_area(surface))
    from shapely import Polygon, box, union_all

    voids = union_all([box(v.x, v.y, v.x + v.w, v.y + v.h) for v in surface.voids])
    return float(Polygon(surface.outline).difference(voids).area)


def totals(problem: BoardProblem, layout: Layout) -> Totals:
    """Add a layout up from its pieces and its problem."""
    laid = LaidOut(problem=problem, layout=layout)
    bought = [laid.price_list[board.key] for board in layout.boards]
    return Totals(
        boards=len(bought),
        pieces=len(layout.pieces),
        cost_cents=sum(board.price_cents for board in bought),
        board_area=sum(board.width * board.length for board in bought),
        net_area=sum(net_area(surface) for surface in problem.surfaces),
        butt_joint=sum(joint.length for joint in butt_joints(laid)),
    )


def verify_outcome(problem: BoardProblem, outcome: Outcome) -> tuple[Finding, ...]:
    """Check an outcome: its layout, its totals and that its bound is one.

    An outcome without a layout passes; it shows nothing that could be wrong.
    """
    if outcome.layout is None:
        return ()
    findings = verify(problem, outcome.layout)
    if any(f.rule in _REFERENCES for f in findings):
        return findings
    return in_order((*findings, *_total_findings(problem, outcome, totals(problem, outcome.layout))))


_REFERENCES = ("boards.verify.surfaces", "boards.verify.boards", "boards.verify.pieces")
_CENT = 0.5


def _total_findings(problem: BoardProblem, outcome: Outcome, counted: Totals) -> Iterable[Finding]:
    if outcome.cost_cents != counted.cost_cents:
        yield fault("total", "cost", f"{outcome.cost_cents} cents stated.", f"{counted.cost_cents} counted.")
    if outcome.pieces != counted.pieces:
        yield fault("total", "pieces", f"{outcome.pieces} stated.", f"{counted.pieces} counted.")
    square = all(is_square_cut(surface.outline) for surface in problem.surfaces)
    play = 0 if square else counted.pieces
    if abs(outcome.butt_joint - counted.butt_joint) > play:
        yield fault(
            "total",
            "butt joints",
            f"{size(outcome.butt_joint)} stated.",
            f"{size(counted.butt_joint)} counted.",
        )
    if outcome.bound.cost_cents > counted.cost_cents + _CENT:
        yield fault(
            "bound", "bound", f"{outcome.bound.cost_cents:.0f} cents is above the cost of the layout."
        )
    if outcome.status is Status.OPTIMAL and outcome.bound.cost_cents <= counted.cost_cents - 1 + 1e-6:
        yield fault("bound", "status", "it is called optimal and the bound is a cent or more below the cost.")
