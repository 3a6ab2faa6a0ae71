"""All ways to cut the rows of a surface, as small graphs.

Every row is a graph from its left end to its right end.  Its nodes are the places where a piece may
end: the ends of the surface, the sides of openings as high as the row, and the members a butt joint
may stand on.  Its arcs are the admissible pieces.  One path is one way to cut the row.
"""

from dataclasses import dataclass
from itertools import combinations
from math import ceil, floor

from setday.boards.layout.levels import bands, on_a_path
from setday.boards.layout.shape import Number, Slab, band, box, connected, contact, seam, slabs
from setday.boards.problem import Board, BoardRules, Joist, Rows, Surface

__all__ = ["Arc", "Avoid", "Ease", "Face", "Item", "Node", "Row", "clashes", "face"]

Item = tuple[int, int, int]
"""What a piece asks of a board: height, number of factory edges (0 to 2), length [1/64 in]."""


@dataclass(frozen=True, slots=True)
class Ease:
    """The rules as they are applied to one surface, after what had to give way has given way."""

    stagger: int
    least_piece: int
    clear: int
    least_row: int
    backed: bool = True
    factory: bool = True

    @classmethod
    def strict(cls, surface: Surface, rules: BoardRules) -> "Ease":
        """Return the rules as given, for `surface`."""
        return cls(
            stagger=rules.stagger_on(surface),
            least_piece=rules.least_piece,
            clear=rules.opening_clear,
            least_row=rules.least_row,
            backed=rules.butt_on_member,
            factory=rules.factory_edge_between_rows,
        )


@dataclass(frozen=True, slots=True)
class Avoid:
    """A butt joint of the layer below: its place along the rows and the row it stands in."""

    rows: Rows
    low: int
    high: int
    u: int


@dataclass(frozen=True, slots=True)
class Node:
    """A place where a piece may end; `joint` is the length of the butt joint there, 0 at a free end.

    `low` and `high` are the ends of the joint.
    """

    u: int
    joint: int = 0
    low: int = 0
    high: int = 0


@dataclass(frozen=True, slots=True)
class Arc:
    """An admissible piece between two nodes: its box, and which long edges must be factory edges."""

    tail: int
    head: int
    start: int
    end: int
    low: int
    high: int
    edge_low: bool
    edge_high: bool

    @property
    def item(self) -> Item:
        """What the piece asks of a board."""
        return (self.high - self.low, self.edge_low + self.edge_high, self.end - self.start)


@dataclass(frozen=True, slots=True)
class Row:
    """One row a surface may be divided into, with all ways to cut it: paths from first node to last."""

    rows: Rows
    low: int
    high: int
    nodes: tuple[Node, ...]
    arcs: tuple[Arc, ...]


@dataclass(frozen=True, slots=True)
class Face:
    """A surface with every row it may be divided into."""

    surface: Surface
    ease: Ease
    rows: tuple[Row, ...]

    def top(self, rows: Rows) -> int:
        """Return the level at which the last row of the direction `rows` ends."""
        return self.surface.height if rows is Rows.ALONG else self.surface.width


@dataclass(frozen=True, slots=True)
class _Row:
    """A row being built."""

    surface: Surface
    ease: Ease
    rows: Rows
    whole: tuple[Slab, ...]
    slabs: tuple[Slab, ...]
    low: int
    high: int
    whole_top: int
    boards: tuple[Board, ...]
    avoid: tuple[Avoid, ...]

    def longest(self, height: int, edges: int) -> int:
        fits = [b.length for b in self.boards if (b.width == height if edges == 2 else b.width >= height)]
        return min(max(fits, default=0), self.surface.longest)


def face(
    surface: Surface, *, boards: tuple[Board, ...], ease: Ease, avoid: tuple[Avoid, ...] = ()
) -> Face | None:
    """Return every way to divide and cut `surface`, or None when no division covers it.

    Parameters
    ----------
    surface : Surface
    boards : tuple of Board
        The boards of the kind it takes.
    ease : Ease
        The rules to apply.
    avoid : tuple of Avoid
        Joints of the layer below, from which joints keep the stagger distance.
    """
    widths = tuple(sorted({b.width for b in boards}))
    found: list[Row] = []
    for rows in dict.fromkeys(surface.rows):
        whole = slabs(surface, rows=rows)
        top = surface.height if rows is Rows.ALONG else surface.width
        made: dict[tuple[int, int], Row] = {}
        for low, high in bands(
            surface,
            rows=rows,
            widths=widths,
            least_row=ease.least_row,
            factory=ease.factory,
            backed=ease.backed,
        ):
            plan = _Row(surface, ease, rows, whole, band(whole, low, high), low, high, top, boards, avoid)
            row = _row(plan)
            if row is not None and _edges_backed(plan, top):
                made[low, high] = row
        found += [made[b] for b in on_a_path(tuple(made), top)]
    return Face(surface, ease, tuple(found)) if found else None


def _edges_backed(plan: _Row, top: int) -> bool:
    """Rows across: the long edges between two columns stand on members over their whole length."""
    if plan.rows is Rows.ALONG or not plan.ease.backed:
        return True
    along = slabs(plan.surface, rows=Rows.ALONG)
    inner = [v for v in (plan.low, plan.high) if 0 < v < top]
    return all(_backed(plan.surface.members, v, contact(along, v)) for v in inner)


def _backed(members: tuple[Joist, ...], x: int, lines: list[tuple[Number, Number]]) -> bool:
    here = sorted((m.y_low, m.y_high) for m in members if m.x == x)
    for low, high in lines:
        reached = ceil(low)
        for a, b in here:
            if a <= reached:
                reached = max(reached, b)
        if reached < floor(high):
            return False
    return True


def _row(plan: _Row) -> Row | None:
    nodes = [Node(0)]
    arcs: list[Arc] = []
    for start, end in _segments(plan.slabs):
        base = len(nodes) - 1
        ours = [Node(floor(start)), *_joints(plan, start, end), Node(ceil(end))]
        arcs += _arcs(plan, ours, base)
        nodes += ours[1:]
    return _trimmed(Row(plan.rows, plan.low, plan.high, tuple(nodes), tuple(arcs)))


def _segments(row: tuple[Slab, ...]) -> list[tuple[Number, Number]]:
    """Return the stretches of a row that hang together: between its ends and openings as high as it."""
    out: list[tuple[Number, Number]] = []
    for slab in row:
        if not slab.spans:
            continue
        if out and out[-1][1] == slab.start and contact(row, slab.start):
            out[-1] = (out[-1][0], slab.end)
        else:
            out.append((slab.start, slab.end))
    return out


def _joints(plan: _Row, start: Number, end: Number) -> list[Node]:
    out = []
    for u in sorted(_places(plan, floor(start), ceil(end))):
        if not start < u < end:
            continue
        lines = contact(plan.slabs, u)
        if lines and _backing(plan, u, lines) and _clear(plan, u, lines) and not _over_joint(plan, u, lines):
            out.append(Node(u, round(sum(b - a for a, b in lines)), floor(lines[0][0]), ceil(lines[-1][1])))
    return out


def _places(plan: _Row, first: int, last: int) -> set[int]:
    """Return where butt joints may be tried."""
    step = max(plan.surface.member_spacing, 1)
    if plan.rows is Rows.ALONG:
        places = {m.x for m in plan.surface.members}
        if plan.ease.backed:
            return places
        step = max(step // 2, 1)
    elif plan.longest(plan.high - plan.low, 0) >= last - first:
        return set()
    else:
        places = set()
    longest = max(plan.longest(plan.high - plan.low, 0), step)
    for stride in (step, longest):
        places |= set(range(first + stride, last, stride)) | set(range(last - stride, first, -stride))
    return places | {(first + last) // 2}


def _backing(plan: _Row, u: int, lines: list[tuple[Number, Number]]) -> bool:
    if plan.rows is Rows.ACROSS or not plan.ease.backed:
        return True
    return _backed(plan.surface.members, u, lines)


def _clear(plan: _Row, u: int, lines: list[tuple[Number, Number]]) -> bool:
    """Return whether a joint at `u` keeps clear of every opening whose corner it could crack from."""
    for w in plan.surface.voids:
        start, end, low, high = w.x, w.x + w.w, w.y, w.y + w.h
        length = plan.surface.width
        if plan.rows is Rows.ACROSS:
            start, end, low, high = low, high, start, end
            length = plan.surface.height
        corner = any(0 < v < plan.whole_top and plan.low <= v <= plan.high for v in (low, high))
        touches = any(a <= high and low <= b for a, b in lines)
        near = any(0 < side < length and abs(u - side) < max(plan.ease.clear, 1) for side in (start, end))
        if corner and touches and near:
            return False
    return True


def _over_joint(plan: _Row, u: int, lines: list[tuple[Number, Number]]) -> bool:
    """Return whether a joint at `u` would stand too close to one of the layer below."""
    low, high = lines[0][0], lines[-1][1]
    return any(
        a.rows is plan.rows and a.low < high and low < a.high and abs(a.u - u) < plan.ease.stagger
        for a in plan.avoid
    )


def _arcs(plan: _Row, nodes: list[Node], base: int) -> list[Arc]:
    last = len(nodes) - 1
    out = []
    for i, j in combinations(range(last + 1), 2):
        length = nodes[j].u - nodes[i].u
        if length < plan.ease.least_piece and (i, j) != (0, last):
            continue
        arc = _arc(plan, (nodes[i].u, nodes[j].u), (base + i, base + j))
        if arc is not None:
            out.append(arc)
    return out


def _arc(plan: _Row, ends: tuple[int, int], nodes: tuple[int, int]) -> Arc | None:
    """Return the piece between two places of a row, or None when no board or no knife makes it."""
    low, high = box(plan.slabs, *ends)
    top = plan.whole_top
    edge_low = plan.ease.factory and low == plan.low > 0 and seam(plan.whole, low, ends)
    edge_high = plan.ease.factory and high == plan.high < top and seam(plan.whole, high, ends)
    if ends[1] - ends[0] > plan.longest(high - low, edge_low + edge_high):
        return None
    if not connected(plan.slabs, *ends):
        return None
    return Arc(*nodes, *ends, low, high, edge_low, edge_high)


def _trimmed(row: Row) -> Row | None:
    """Drop what lies on no path; None when there is no path."""
    last = len(row.nodes) - 1
    ahead, behind = {0}, {last}
    for arc in row.arcs:
        if arc.tail in ahead:
            ahead.add(arc.head)
    for arc in sorted(row.arcs, key=lambda a: -a.head):
        if arc.head in behind:
            behind.add(arc.tail)
    if last not in ahead:
        return None
    arcs = tuple(a for a in row.arcs if a.tail in ahead and a.head in behind)
    return Row(row.rows, row.low, row.high, row.nodes, arcs)


def clashes(lower: Row, upper: Row, stagger: int, *, layers: bool = False) -> list[tuple[int, int]]:
    """Return the pairs of joint nodes of two rows that stand too close together.

    Neighbouring rows keep all their joints apart; rows of two `layers` only joints over each other.
    """
    if stagger <= 0:
        return []
    return [
        (i, j)
        for i, a in enumerate(lower.nodes)
        for j, b in enumerate(upper.nodes)
        if a.joint
        and b.joint
        and abs(a.u - b.u) < stagger
        and (not layers or (a.low < b.high and b.low < a.high))
    ]
