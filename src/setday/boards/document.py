"""The boards of a house as one plain document, for other programs to read.

Lengths in inches, areas in square feet, joints in feet, money in dollars; the order is fixed.
"""

from setday.boards.figure import BoardFigure
from setday.boards.laidout import LaidOut
from setday.boards.outcome import Piece
from setday.boards.problem import Board, Corner, Surface, Void
from setday.boards.surfaces import Prepared
from setday.findings import Finding
from setday.measure import Length
from setday.rules import Rule

__all__ = ["boards_document"]

Document = dict[str, object]
_SQFT = (12 * 64) ** 2
_DIGITS = 6


def boards_document(figured: BoardFigure) -> Document:
    """Return the document of a figured house.

    `member_axis` is the axis along which ``members_in`` are measured: members run along y on walls and
    on ceilings alike.  Without a layout ``pieces`` and ``boards`` used are empty, totals are zero and
    ``findings`` say why.
    """
    laid = figured.laid_out
    return {
        "surfaces": [_surface(surface, figured, laid) for surface in figured.prepared.problem.surfaces],
        "boards": _boards(laid),
        "pieces": [_piece(piece) for piece in laid.layout.pieces] if laid else [],
        "totals": _totals(figured),
        "bound": {
            "cost": figured.outcome.bound.cost_cents / 100,
            "area_sqft": _bound_area(figured.prepared),
            "method": figured.outcome.bound.method,
            "area_bound_cost": figured.outcome.bound.area_cost_cents / 100,
        },
        "gap": round(figured.outcome.gap, _DIGITS),
        "status": figured.outcome.status.value,
        "seconds": round(figured.outcome.seconds, 3),
        "by_area": {
            "net_area_sqft": round(figured.by_area.net_area.sqft, _DIGITS),
            "sheets": figured.by_area.sheets,
            "waste_factor": round(figured.by_area.waste_factor, _DIGITS),
        },
        "settings": {rule.key: _setting(rule) for rule in figured.settings},
        "relaxed": list(laid.layout.relaxed) if laid else [],
        "findings": [_finding(finding) for finding in figured.findings],
    }


def _inches(value: int) -> float:
    return value / 64


def _ring(corners: tuple[Corner, ...]) -> list[list[float]]:
    return [[_inches(x), _inches(y)] for x, y in corners]


def _surface(surface: Surface, figured: BoardFigure, laid: LaidOut | None) -> Document:
    rows = laid.divided[surface.id].rows if laid else surface.rows[0]
    edges = laid.divided[surface.id].edges if laid else ()
    note = figured.prepared.note(surface.id)
    return {
        "id": surface.id,
        "room": surface.room,
        "kind": surface.kind.value,
        "outline_in": _ring(surface.outline),
        "openings": _openings(surface.voids),
        "members_in": sorted({_inches(member.x) for member in surface.members}),
        "member_axis": "x",
        "members_run": "y",
        "members": [
            {"x": _inches(m.x), "y_low": _inches(m.y_low), "y_high": _inches(m.y_high)}
            for m in surface.members
        ],
        "member_spacing_in": _inches(surface.member_spacing),
        "rows": rows.value,
        "row_edges_in": [_inches(edge) for edge in edges],
        "label": surface.label,
        "board_kind": surface.board_kind,
        "layer": surface.layer,
        "over": surface.over,
        "sequence": surface.sequence,
        "day": surface.day,
        "longest_in": _inches(surface.longest),
        "floor_gap_in": _inches(note.floor_gap),
        "house_surface": note.house_surface,
        "from_house_in": [_inches(note.dx), _inches(note.dy)],
    }


def _openings(voids: tuple[Void, ...]) -> list[Document]:
    """Return openings as boxes that share no area, so that a reader may add them up."""
    apart: list[Void] = []
    for void in voids:
        rest = [void]
        for taken in tuple(apart):
            rest = [part for piece in rest for part in _without(piece, taken)]
        apart += rest
    return [
        {"x": _inches(v.x), "y": _inches(v.y), "w": _inches(v.w), "h": _inches(v.h), "name": v.name}
        for v in apart
    ]


def _without(void: Void, taken: Void) -> list[Void]:
    """Return what is left of one box outside another: below, above, left and right of it."""
    left, right = max(void.x, taken.x), min(void.x + void.w, taken.x + taken.w)
    low, high = max(void.y, taken.y), min(void.y + void.h, taken.y + taken.h)
    if left >= right or low >= high:
        return [void]
    boxes = (
        (void.x, void.y, void.w, low - void.y),
        (void.x, high, void.w, void.y + void.h - high),
        (void.x, low, left - void.x, high - low),
        (right, low, void.x + void.w - right, high - low),
    )
    return [Void(x=x, y=y, w=w, h=h, name=void.name) for x, y, w, h in boxes if w > 0 and h > 0]


def _boards(laid: LaidOut | None) -> list[Document]:
    if laid is None:
        return []
    return [{"id": b.number, **_board(laid.price_list[b.key])} for b in laid.layout.boards]


def _board(board: Board) -> Document:
    return {
        "kind": board.kind,
        "width_in": _inches(board.width),
        "length_in": _inches(board.length),
        "price": board.price_cents / 100,
        "item": board.key,
    }


def _piece(piece: Piece) -> Document:
    document: Document = {
        "surface": piece.surface,
        "board": piece.board,
        "x": _inches(piece.x),
        "y": _inches(piece.y),
        "w": _inches(piece.w),
        "h": _inches(piece.h),
        "board_x": _inches(piece.board_x),
        "board_y": _inches(piece.board_y),
        "row": piece.row,
        "flipped": piece.flipped,
    }
    if piece.outline:
        document["outline_in"] = _ring(piece.outline)
    return document


def _totals(figured: BoardFigure) -> Document:
    counted = figured.totals
    return {
        "boards": counted.boards if counted else 0,
        "cost": counted.cost_cents / 100 if counted else 0.0,
        "board_area_sqft": round(counted.board_area / _SQFT, _DIGITS) if counted else 0.0,
        "net_area_sqft": round(counted.net_area / _SQFT, _DIGITS) if counted else 0.0,
        "butt_joint_ft": round(counted.butt_joint / 768, _DIGITS) if counted else 0.0,
        "pieces": counted.pieces if counted else 0,
    }


def _bound_area(prepared: Prepared) -> float:
    """No layout buys less board than the net area of the surfaces [ft2]."""
    from setday.boards.verify import net_area

    return round(sum(net_area(surface) for surface in prepared.problem.surfaces) / _SQFT, _DIGITS)


def _setting(rule: Rule) -> Document:
    value = rule.value.inches if isinstance(rule.value, Length) else rule.value
    return {
        "value": value,
        "unit": "in" if isinstance(rule.value, Length) else rule.unit,
        "label": rule.label,
        "source": str(rule.source),
        "certainty": rule.source.certainty,
        "overridden": rule.overridden,
    }


def _finding(finding: Finding) -> Document:
    return {
        "rule": finding.rule,
        "about": finding.about,
        "found": finding.found,
        "expected": finding.expected,
        "do": finding.do,
        "severity": finding.severity.value,
        "where": str(finding.where),
    }
