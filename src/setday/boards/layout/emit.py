"""From boards being filled to a layout: numbers, places, outlines."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.boards.layout.filling import Filling
from setday.boards.layout.network import Network
from setday.boards.layout.rows import Arc, Row
from setday.boards.layout.worth import cheapest_board
from setday.boards.outcome import BoughtBoard, Layout, Piece, SurfaceRows
from setday.boards.problem import Board, Corner, Rows, Surface, SurfaceKind

__all__ = ["Done", "joint_length", "layout", "money"]


@dataclass(frozen=True, slots=True)
class Done:
    """A finished group of surfaces: its network, the rows and pieces taken, the boards cut."""

    network: Network
    boards: tuple[Board, ...]
    taken: tuple[tuple[int, ...], ...]
    cuts: dict[int, tuple[int, ...]]
    fillings: tuple[Filling, ...]


@dataclass(frozen=True, slots=True)
class _Cut:
    """Where a piece comes from: which board of all, its corner on it, and the lane it was cut in."""

    board: int
    x: int
    y: int
    upper: bool


def bought(done: Done) -> list[Board]:
    """Return the cheapest board for every filling."""
    return [done.boards[cheapest_board(done.boards, f.width, f.reach)] for f in done.fillings]


def money(done: Done) -> int:
    """Return the price of all boards [cents]."""
    return sum(b.price_cents for b in bought(done))


def joint_length(done: Done) -> int:
    """Return the length of all butt joints [1/64 in]."""
    net = done.network
    return sum(int(net.joint[net.head[a]]) for arcs in done.cuts.values() for a in arcs)


def layout(groups: Sequence[Done], *, relaxed: tuple[str, ...]) -> Layout:
    """Return the layout of a whole house.

    Parameters
    ----------
    groups : sequence of Done
    relaxed : tuple of str
        What had to give way.
    """
    keys: list[str] = []
    hung: list[tuple[Surface, list[Piece]]] = []
    divided: list[tuple[int, SurfaceRows]] = []
    for done in groups:
        first = len(keys)
        keys += [b.key for b in bought(done)]
        cuts = _cuts(done, first)
        for f, face in enumerate(done.network.faces):
            rows = done.taken[f]
            hung.append((face.surface, _pieces(done, rows, cuts)))
            divided.append(
                (face.surface.sequence, _edges(face.surface, [done.network.rows[r] for r in rows]))
            )
    hung.sort(key=lambda h: (h[0].day, h[0].kind is SurfaceKind.WALL, h[0].sequence))
    numbers: dict[int, int] = {}
    pieces = []
    for _, some in hung:
        for p in some:
            number = numbers.setdefault(p.board, len(numbers) + 1)
            pieces.append(_numbered(p, number))
    order = sorted(numbers, key=numbers.__getitem__)
    return Layout(
        surfaces=tuple(s for _, s in sorted(divided, key=lambda d: d[0])),
        boards=tuple(BoughtBoard(number=numbers[b], key=keys[b]) for b in order),
        pieces=tuple(pieces),
        relaxed=relaxed,
    )


def _numbered(piece: Piece, number: int) -> Piece:
    return Piece(
        surface=piece.surface,
        row=piece.row,
        x=piece.x,
        y=piece.y,
        w=piece.w,
        h=piece.h,
        board=number,
        board_x=piece.board_x,
        board_y=piece.board_y,
        flipped=piece.flipped,
        outline=piece.outline,
    )


def _cuts(done: Done, first: int) -> dict[int, _Cut]:
    return {
        p.owner: _Cut(first + i, x, y, upper)
        for i, f in enumerate(done.fillings)
        for p, x, y, upper in f.placed()
    }


def _edges(surface: Surface, rows: list[Row]) -> SurfaceRows:
    edges = (rows[0].low, *(r.high for r in rows))
    return SurfaceRows(surface=surface.id, rows=rows[0].rows, edges=edges)


def _pieces(done: Done, rows: tuple[int, ...], cuts: dict[int, _Cut]) -> list[Piece]:
    """Return the pieces of one surface in hanging order: a wall from its upper row down."""
    surface = done.network.faces[int(done.network.row_face[rows[0]])].surface
    order = list(enumerate(rows))
    if surface.kind is SurfaceKind.WALL and done.network.rows[rows[0]].rows is Rows.ALONG:
        order.reverse()
    return [
        _piece(surface, (number, done.network.rows[r]), done.network.arcs[a], cuts[a])
        for number, r in order
        for a in done.cuts[r]
    ]


def _piece(surface: Surface, numbered: tuple[int, Row], arc: Arc, cut: _Cut) -> Piece:
    number, row = numbered
    along = row.rows is Rows.ALONG
    left, low, right, high = arc.start, arc.low, arc.end, arc.high
    box = (left, low, right, high) if along else (low, left, high, right)
    outline = _outline(surface, box)
    if outline:
        xs, ys = [x for x, _ in outline], [y for _, y in outline]
        box = (min(xs), min(ys), max(xs), max(ys))
    spare = (arc.high - arc.low) - ((box[3] - box[1]) if along else (box[2] - box[0]))
    return Piece(
        surface=surface.id,
        row=number,
        x=box[0],
        y=box[1],
        w=box[2] - box[0],
        h=box[3] - box[1],
        board=cut.board,
        board_x=cut.x,
        board_y=cut.y + (spare if cut.upper else 0),
        flipped=_flipped(arc, upper=cut.upper, along=along),
        outline=outline,
    )


def _flipped(arc: Arc, *, upper: bool, along: bool) -> bool:
    """Return whether the piece is turned end for end so that its factory edge meets the next row.

    On rows across, a board stands with its length upright and its upper edge to the left.
    """
    if arc.edge_low + arc.edge_high != 1:
        return False
    asks_upper = arc.edge_high if along else arc.edge_low
    return asks_upper != upper


def _outline(surface: Surface, box: tuple[int, int, int, int]) -> tuple[Corner, ...]:
    """Return the outline of what the surface shows within a box; empty when that is the whole box."""
    x0, y0, x1, y1 = box
    square = ((0, 0), (surface.width, 0), (surface.width, surface.height), (0, surface.height))
    touched = [v for v in surface.voids if v.x < x1 and x0 < v.x + v.w and v.y < y1 and y0 < v.y + v.h]
    if not touched and set(surface.outline) == set(square):
        return ()
    import shapely

    shape = shapely.Polygon(surface.outline).intersection(shapely.box(*box))
    for v in touched:
        shape = shape.difference(shapely.box(v.x, v.y, v.x + v.w, v.y + v.h))
    if shape.geom_type != "Polygon":
        shape = max((g for g in shape.geoms if g.geom_type == "Polygon"), key=lambda g: g.area)
    ring = shapely.geometry.polygon.orient(shapely.Polygon(shape.exterior)).exterior
    corners = [(round(x), round(y)) for x, y in list(ring.coords)[:-1]]
    kept = _turning(corners)
    return () if sorted(kept) == sorted([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]) else kept


def _turning(corners: list[Corner]) -> tuple[Corner, ...]:
    """Leave off repeated corners and those on a straight line between their neighbours."""
    ring = [c for i, c in enumerate(corners) if c != corners[i - 1]]
    n = len(ring)
    out = []
    for i, (x, y) in enumerate(ring):
        (a, b), (c, d) = ring[i - 1], ring[(i + 1) % n]
        if (x - a) * (d - y) != (y - b) * (c - x):
            out.append((x, y))
    return tuple(out)
