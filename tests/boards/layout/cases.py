"""Small problems for the layout tests, and a clock that makes runs repeat."""

from dataclasses import replace
from itertools import combinations

from setday.boards.problem import (
    Board,
    BoardProblem,
    BoardRules,
    Joist,
    OffcutUse,
    Rows,
    Surface,
    SurfaceKind,
    Void,
)

INCH = 64
FOOT = 12 * INCH
KIND = "regular"


class Ticks:
    """A clock that gains a fixed time whenever it is read."""

    def __init__(self, step: float = 0.02) -> None:
        self.now = 0.0
        self.step = step

    def __call__(self) -> float:
        self.now += self.step
        return self.now


def board(width: float, feet: float, cents: int, *, kind: str = KIND) -> Board:
    """Return a board on the price list."""
    return Board(
        key=f"{width:g}x{feet:g}-{kind}",
        kind=kind,
        width=int(width * INCH),
        length=int(feet * FOOT),
        price_cents=cents,
    )


def wall(
    name: str,
    length: float,
    height: float,
    *,
    voids: tuple[tuple[float, float, float, float], ...] = (),
    outline: tuple[tuple[float, float], ...] = (),
    spacing: float = 16,
    room: str = "room",
    kind: str = KIND,
    rows: tuple[Rows, ...] = (Rows.ALONG,),
    longest: float = 192,
    sequence: int = 0,
    studs: tuple[float, ...] | None = None,
    over: str = "",
    surface: SurfaceKind = SurfaceKind.WALL,
) -> Surface:
    """Return a surface measured in inches, with studs on centre from its left end."""
    at = studs if studs is not None else tuple(spacing * n for n in range(1, int(length / spacing) + 1))
    corners = outline or ((0, 0), (length, 0), (length, height), (0, height))
    return Surface(
        id=name,
        label=f"{room}, {name}",
        room=room,
        kind=surface,
        outline=tuple((int(x * INCH), int(y * INCH)) for x, y in corners),
        voids=tuple(
            Void(x=int(x * INCH), y=int(y * INCH), w=int(w * INCH), h=int(h * INCH)) for x, y, w, h in voids
        ),
        members=tuple(Joist(x=int(x * INCH), y_low=0, y_high=int(height * INCH)) for x in at if x < length),
        board_kind=kind,
        rows=rows,
        longest=int(longest * INCH),
        member_spacing=int(spacing * INCH),
        sequence=sequence,
        layer=2 if over else 1,
        over=over,
    )


def problem(
    *surfaces: Surface,
    boards: tuple[Board, ...],
    offcuts: OffcutUse = OffcutUse.HOUSE,
    stagger: float | None = None,
    clear: float = 0,
    least_piece: float = 0,
    least_row: float = 0,
    factory: bool = True,
    backed: bool = True,
    trim: int = 0,
) -> BoardProblem:
    """Return a problem; lengths in inches, surfaces in hanging order."""
    rules = BoardRules(
        stagger=int((stagger or 0) * INCH),
        stagger_one_spacing=stagger is None,
        opening_clear=int(clear * INCH),
        least_piece=int(least_piece * INCH),
        least_row=int(least_row * INCH),
        factory_edge_between_rows=factory,
        butt_on_member=backed,
        trim_cut=trim,
        offcuts=offcuts,
    )
    placed = tuple(_at(s, n) for n, s in enumerate(surfaces))
    return BoardProblem(surfaces=placed, boards=boards, rules=rules)


def _at(surface: Surface, sequence: int) -> Surface:
    return replace(surface, sequence=sequence)


def cheapest_by_trying_all(given: BoardProblem) -> int:
    """Return the least money for walls whose rows are all as wide as the boards, by trying everything.

    Rows are 48 in and every board is 48 in wide, so that cutting is one-dimensional.  Every set of
    joints of every row is tried, and every way to share the pieces out among boards.
    """
    layouts = [_ways(s, given) for s in given.surfaces]
    best = None
    for pieces in _products(layouts):
        cost = _cheapest_boards(tuple(sorted(pieces)), given.boards)
        if cost is not None and (best is None or cost < best):
            best = cost
    assert best is not None
    return best


def _products(layouts: list[list[tuple[int, ...]]]) -> set[tuple[int, ...]]:
    out: set[tuple[int, ...]] = {()}
    for some in layouts:
        out = {tuple(sorted(a + b)) for a in out for b in some}
    return out


def _ways(surface: Surface, given: BoardProblem) -> list[tuple[int, ...]]:
    places = [m.x for m in surface.members if 0 < m.x < surface.width]
    cuts = [c for n in range(len(places) + 1) for c in combinations(places, n)]
    lengths = {c: [b - a for a, b in zip((0, *c), (*c, surface.width), strict=True)] for c in cuts}
    longest = min(max(b.length for b in given.boards), surface.longest)
    least = min(given.rules.least_piece, surface.width)
    good = [c for c in cuts if all(least <= n <= longest for n in lengths[c])]
    rows = surface.height // (48 * INCH)
    stagger = given.rules.stagger_on(surface)
    out: set[tuple[int, ...]] = set()

    def extend(chosen: list[tuple[int, ...]]) -> None:
        if len(chosen) == rows:
            out.add(tuple(sorted(n for c in chosen for n in lengths[c])))
            return
        for c in good:
            if not chosen or all(abs(a - b) >= stagger for a in c for b in chosen[-1]):
                extend([*chosen, c])

    extend([])
    return list(out)


def _cheapest_boards(pieces: tuple[int, ...], boards: tuple[Board, ...]) -> int | None:
    """Return the least money for boards that give the pieces, every set of pieces tried on one board."""
    n = len(pieces)
    price: dict[int, int] = {}
    for mask in range(1, 1 << n):
        length = sum(p for i, p in enumerate(pieces) if mask >> i & 1)
        able = [b.price_cents for b in boards if b.length >= length]
        if able:
            price[mask] = min(able)
    best: dict[int, int] = {0: 0}
    for mask in range(1, 1 << n):
        low = mask & -mask
        options = []
        sub = mask
        while sub:
            if sub & low and sub in price and (mask ^ sub) in best:
                options.append(price[sub] + best[mask ^ sub])
            sub = (sub - 1) & mask
        if options:
            best[mask] = min(options)
    return best.get((1 << n) - 1)
