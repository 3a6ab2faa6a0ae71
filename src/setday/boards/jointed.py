"""Whether joints stand on members, clear of openings, apart from each other, and on tapered edges."""

from collections.abc import Iterable

from setday.boards.covered import is_square_cut
from setday.boards.faults import at, fault, size
from setday.boards.joints import Joint
from setday.boards.laidout import LaidOut
from setday.boards.outcome import Piece
from setday.boards.problem import Rows, Surface, Void
from setday.findings import Finding

__all__ = ["joint_findings"]


def joint_findings(laid: LaidOut, butts: tuple[Joint, ...], rowed: tuple[Joint, ...]) -> Iterable[Finding]:
    """Check every rule of the trade that concerns joints."""
    yield from _backing_findings(laid, butts, rowed)
    yield from _opening_findings(laid, butts)
    yield from _stagger_findings(laid, butts)
    yield from _layer_findings(laid, butts)
    yield from _factory_findings(laid, rowed)


def _spot(joint: Joint) -> str:
    middle = (joint.low + joint.high) // 2
    upright = joint.rows is Rows.ALONG
    return at(joint.at, middle) if upright else at(middle, joint.at)


def _backing_findings(laid: LaidOut, butts: tuple[Joint, ...], rowed: tuple[Joint, ...]) -> Iterable[Finding]:
    """Joints that run with the members stand on one; joints that cross them are held where they cross."""
    if not laid.problem.rules.butt_on_member:
        return
    with_members = [j for j in butts if j.rows is Rows.ALONG] + [j for j in rowed if j.rows is Rows.ACROSS]
    for joint in with_members:
        surface = laid.surfaces[joint.surface]
        if not _backed(surface, joint):
            place = at(joint.at, (joint.low + joint.high) // 2)
            yield fault(
                "on-member",
                surface.label,
                f"the joint at {place} does not stand on the centre of a member over its whole length.",
                "a member behind every joint that runs with the framing.",
            )


def _backed(surface: Surface, joint: Joint) -> bool:
    play = 0 if is_square_cut(surface.outline) else 1
    reached = joint.low + play
    for member in sorted((m for m in surface.members if m.x == joint.at), key=lambda m: m.y_low):
        if member.y_low <= reached:
            reached = max(reached, member.y_high)
    return reached >= joint.high - play


def _opening_findings(laid: LaidOut, butts: tuple[Joint, ...]) -> Iterable[Finding]:
    clear = max(laid.problem.rules.opening_clear, 1)
    for joint in butts:
        surface = laid.surfaces[joint.surface]
        edges = laid.divided[joint.surface].edges
        row = (edges[joint.row], edges[joint.row + 1])
        for void in surface.voids:
            near = [side for side in _cracking_sides(surface, void, joint, row) if _near(joint, side, clear)]
            if near:
                yield fault(
                    "opening-corner",
                    surface.label,
                    f"the joint at {_spot(joint)} stands {size(abs(joint.at - near[0]))} from the side of "
                    f"{void.name or 'an opening'}.",
                    f"{size(clear)} at least where a corner of the opening lies in the row.",
                )


def _near(joint: Joint, side: int, clear: int) -> bool:
    return abs(joint.at - side) < clear


def _cracking_sides(surface: Surface, void: Void, joint: Joint, row: tuple[int, int]) -> list[int]:
    """Return the sides of an opening that have a corner in the joint's row and touch its height."""
    start, end, low, high = void.x, void.x + void.w, void.y, void.y + void.h
    length, whole = surface.width, surface.height
    if joint.rows is Rows.ACROSS:
        start, end, low, high = void.y, void.y + void.h, void.x, void.x + void.w
        length, whole = whole, length
    corner_in_row = any(0 < v < whole and row[0] <= v <= row[1] for v in (low, high))
    touches = low <= joint.high and joint.low <= high
    return [side for side in (start, end) if 0 < side < length] if corner_in_row and touches else []


def _stagger_findings(laid: LaidOut, butts: tuple[Joint, ...]) -> Iterable[Finding]:
    by_row: dict[tuple[str, int], list[Joint]] = {}
    for joint in butts:
        by_row.setdefault((joint.surface, joint.row), []).append(joint)
    for (surface_id, row), joints in by_row.items():
        surface = laid.surfaces[surface_id]
        least = laid.problem.rules.stagger_on(surface)
        for joint in joints:
            for other in by_row.get((surface_id, row + 1), ()):
                if abs(joint.at - other.at) < least:
                    yield _stagger_fault(surface, joint, other, least, "the joint in the next row")


def _layer_findings(laid: LaidOut, butts: tuple[Joint, ...]) -> Iterable[Finding]:
    on_surface: dict[str, list[Joint]] = {}
    for joint in butts:
        on_surface.setdefault(joint.surface, []).append(joint)
    for surface in laid.problem.surfaces:
        least = laid.problem.rules.stagger_on(surface)
        for joint in on_surface.get(surface.id, ()):
            for other in on_surface.get(surface.over, ()):
                overlaps = max(joint.low, other.low) < min(joint.high, other.high)
                if joint.rows is other.rows and overlaps and abs(joint.at - other.at) < least:
                    yield _stagger_fault(surface, joint, other, least, "the joint in the layer below")


def _stagger_fault(surface: Surface, joint: Joint, other: Joint, least: int, words: str) -> Finding:
    return fault(
        "stagger",
        surface.label,
        f"the joint at {_spot(joint)} is {size(abs(joint.at - other.at))} from {words}.",
        f"{size(least)} at least.",
    )


def _factory_findings(laid: LaidOut, rowed: tuple[Joint, ...]) -> Iterable[Finding]:
    """Where two rows meet, both pieces show an uncut long edge of their boards."""
    if not laid.problem.rules.factory_edge_between_rows:
        return
    sides: dict[int, set[str]] = {}
    for joint in rowed:
        sides.setdefault(joint.first, set()).add("upper")
        sides.setdefault(joint.second, set()).add("lower")
    for number, asked in sorted(sides.items()):
        piece = laid.layout.pieces[number]
        have = _factory_edges(laid, piece)
        if len(asked) > have:
            yield fault(
                "factory-edge",
                laid.surfaces[piece.surface].label,
                f"the piece at {at(piece.x, piece.y)} meets {len(asked)} neighbouring rows and has {have} "
                "uncut long edges.",
                "an uncut (tapered) edge wherever two rows meet.",
            )


def _factory_edges(laid: LaidOut, piece: Piece) -> int:
    board = laid.board_of(piece)
    across = piece.h if laid.rows_of(piece) is Rows.ALONG else piece.w
    return (piece.board_y == 0) + (piece.board_y + across == board.width)
