"""Screws or nails, counted on the layout: member by member, piece by piece."""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from setday.boards.laidout import LaidOut, Ring, ring_of
from setday.boards.outcome import Piece
from setday.boards.problem import Surface, SurfaceKind, Void
from setday.boards.surfaces import Prepared
from setday.measure import Length
from setday.rules import Rule, RuleBook, Table, load_table

__all__ = ["Fastener", "SurfaceFasteners", "fastener_for", "fastener_spacing", "fasteners_of"]

_SAME_LINE = 3 * 64
"""Of members standing closer than this only one takes a row of fasteners [1/64 in] (our own, 3 in)."""
_SIXTEEN = 16 * 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """A screw or nail to buy: its key on the price list, its label and its length."""

    item: str
    label: str
    length: Length

    @property
    def unit(self) -> str:
        """What it is counted in: "screws" or "nails"."""
        return "nails" if self.item.startswith("nail") else "screws"


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceFasteners:
    """How many fasteners one surface takes, and at what spacing."""

    surface: str
    fastener: Fastener
    spacing: Rule
    lines: int
    count: int


def fastener_spacing(surface: Surface, rules: RuleBook) -> Rule:
    """Return the rule for the widest spacing of fasteners on a surface."""
    if rules.choice("boards.fastener") == "nails":
        return rules["boards.nail_ceiling" if surface.kind is SurfaceKind.CEILING else "boards.nail_wall"]
    if surface.kind is SurfaceKind.CEILING:
        return rules["boards.screw_ceiling"]
    return rules["boards.screw_wall_16" if surface.member_spacing <= _SIXTEEN else "boards.screw_wall_24"]


def fastener_for(through: Length, rules: RuleBook, lengths: Table | None = None) -> Fastener:
    """Return the shortest fastener that goes through the board and deep enough into the wood.

    Parameters
    ----------
    through : Length
        Thickness of all layers it goes through.
    rules : RuleBook
    lengths : Table or None
        The lengths sold; None reads the table ``fasteners``.
    """
    kind = "nail" if rules.choice("boards.fastener") == "nails" else "screw"
    table = lengths or load_table("setday.boards", "fasteners")
    needed = through + rules.length(f"boards.{kind}_into_wood")
    sold = [row for row in table.rows if row["kind"] == kind]
    fitting = [row for row in sold if Length.of(inches=Fraction(row["length_in"])) >= needed]
    row = min(fitting or sold[-1:], key=lambda r: Fraction(r["length_in"]))
    return Fastener(item=row["item"], label=row["label"], length=Length.of(inches=Fraction(row["length_in"])))


def fasteners_of(laid: LaidOut, prepared: Prepared, rules: RuleBook) -> tuple[SurfaceFasteners, ...]:
    """Count the fasteners of every surface on its layout.

    Every piece is fastened along its two ends and along every member behind it; the spacing is the
    widest the rules allow, the first and last fastener within the edge distance.
    """
    table = load_table("setday.boards", "fasteners")
    edge = rules.length("boards.edge_most").sixtyfourths
    found = []
    for surface in laid.problem.surfaces:
        spacing = fastener_spacing(surface, rules)
        assert isinstance(spacing.value, Length)
        lines = [n for piece in laid.pieces_on.get(surface.id, ()) for n in _stretches(piece, surface)]
        note = prepared.note(surface.id)
        found.append(
            SurfaceFasteners(
                surface=surface.id,
                fastener=fastener_for(note.thickness * surface.layer, rules, table),
                spacing=spacing,
                lines=len(lines),
                count=sum(on_line(n, spacing=spacing.value.sixtyfourths, edge=edge) for n in lines),
            )
        )
    return tuple(found)


def on_line(length: int, *, spacing: int, edge: int) -> int:
    """Return how many fasteners a line takes.

    Examples
    --------
    >>> on_line(48 * 64, spacing=16 * 64, edge=64), on_line(48 * 64, spacing=12 * 64, edge=64)
    (4, 5)
    """
    inner = length - 2 * edge
    return 1 if inner <= 0 else ceil(Fraction(inner, spacing)) + 1


def _stretches(piece: Piece, surface: Surface) -> list[int]:
    """Return the lengths of the lines of fasteners on one piece [1/64 in]."""
    ring = ring_of(piece)
    left, right = piece.x, piece.x + piece.w
    places = [left, right]
    for member in surface.members:
        clear = all(abs(member.x - place) >= _SAME_LINE for place in places)
        if left < member.x < right and clear:
            places.append(member.x)
    # A line is counted just inside the piece, where the piece's shape is not in doubt.
    inside = [min(max(place, left + 1), right - 1) for place in places]
    return [
        high - low
        for place in inside
        for low, high in _covered_at(ring, surface.voids, place)
        if _held(surface, place, low, high)
    ]


def _held(surface: Surface, place: int, low: int, high: int) -> bool:
    """Return whether a member, or the end of the surface, stands behind a line."""
    if place <= 1 or place >= surface.width - 1:
        return True
    near = [m for m in surface.members if abs(m.x - place) <= 1]
    return not near or any(m.y_low < high and low < m.y_high for m in near)


def _covered_at(ring: Ring, voids: tuple[Void, ...], x: int) -> list[tuple[int, int]]:
    crossings = sorted(
        y0 + Fraction((y1 - y0) * (2 * x + 1 - 2 * x0), 2 * (x1 - x0))
        for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], *ring[:1]), strict=True)
        if min(x0, x1) < x + Fraction(1, 2) < max(x0, x1)
    )
    spans = [(round(a), round(b)) for a, b in zip(crossings[::2], crossings[1::2], strict=False)]
    for void in voids:
        if void.x <= x < void.x + void.w:
            low, high = void.y, void.y + void.h
            spans = [
                part for a, b in spans for part in ((a, min(b, low)), (max(a, high), b)) if part[0] < part[1]
            ]
    return spans
