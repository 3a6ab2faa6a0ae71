"""Where things inside a wall or over a ceiling stand, as seen from the room that the surface closes."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely import LineString, Polygon

from setday.cable import Hole, Medium, PlateNeed, RoutePoint, Run
from setday.closein import Item, ItemKind, Spot
from setday.drawing.elevation import Elevation
from setday.drawing.placing import upright_inside
from setday.house import Device, FramingMember, House, Span, Surface, SurfaceKind, Wall
from setday.measure import ZERO, Length

__all__ = ["Behind", "Block", "BoxAt", "RunAt", "behind_of"]

_PLAY = 0.1
Way = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxAt:
    """A box: its devices, and whether it opens to this side."""

    name: str
    devices: tuple[Device, ...]
    x: Length
    y: Length
    this_side: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class RunAt:
    """A run and the parts of its way that are behind the surface [in]."""

    run: Run
    ways: tuple[Way, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Blocking the instructor marked, in the coordinates of this surface."""

    words: str
    spot: Spot
    this_side: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """Everything behind a surface, each with its place on it.

    Parameters
    ----------
    surface : Surface
    spans : tuple of (Span, Wall)
        Stretches of walls it lies on; none for a ceiling.
    boxes : tuple of BoxAt
    runs : tuple of RunAt
    holes : tuple of (Hole, Length)
        With the place from the left; height is the hole's own.
    plates : tuple of (PlateNeed, Length)
    blocks : tuple of Block
    """

    surface: Surface
    spans: tuple[tuple[Span, Wall], ...]
    boxes: tuple[BoxAt, ...]
    runs: tuple[RunAt, ...]
    holes: tuple[tuple[Hole, Length], ...]
    plates: tuple[tuple[PlateNeed, Length], ...]
    blocks: tuple[Block, ...]

    def members(self) -> Iterable[tuple[Span, FramingMember]]:
        """Yield the framing members that stand behind the surface, cut off at its ends and at its top."""
        ring = [(x.inches, y.inches) for x, y in self.surface.outline]
        for span, wall in self.spans:
            ends = sorted((span.along, span.along + (span.width if span.forward else -span.width)))
            for member in wall.members:
                if member.face in {"both", span.side}:
                    low, high = max(member.left, ends[0]), min(member.right, ends[1])
                    cut = _below(ring, span, _cut(member, low, high)) if low < high else None
                    if cut is not None:
                        yield span, cut


def _below(ring: Sequence[tuple[float, float]], span: Span, member: FramingMember) -> FramingMember | None:
    """Return the part of a member under the top of the surface: a gable wall goes on above a flat ceiling."""
    tops = []
    for along in (member.left, member.right):
        x = (span.x + (along - span.along if span.forward else span.along - along)).inches
        inside = upright_inside(ring, x=x, low=-1.0, high=1e5)
        tops.append(Length.of(inches=max((high for _, high in inside), default=0.0)))
    top_left, top_right = min(member.top_left, tops[0]), min(member.top_right, tops[1])
    if max(top_left, top_right) <= member.bottom:
        return None
    return replace(member, top_left=top_left, top_right=top_right)


def _cut(member: FramingMember, low: Length, high: Length) -> FramingMember:
    """Return the part of a member between two places along its wall."""
    wide = (member.right - member.left).inches
    rise = (member.top_right - member.top_left).inches / wide

    def higher(at: Length) -> Length:
        return Length.of(inches=rise * (at - member.left).inches)

    level = member.right - member.left > member.top_left - member.bottom
    return replace(
        member,
        left=low,
        right=high,
        bottom=member.bottom + (higher(low) if level else ZERO),
        top_left=member.top_left + higher(low),
        top_right=member.top_left + higher(high),
    )


def behind_of(
    house: House,
    surface: Surface,
    *,
    runs: Sequence[Run] = (),
    holes: Sequence[Hole] = (),
    plates: Sequence[PlateNeed] = (),
    items: Sequence[Item] = (),
) -> Behind:
    """Return what is behind a surface, placed on it.

    Parameters
    ----------
    house : House
    surface : Surface
    runs, holes, plates : sequences
        Of the whole house.
    items : sequence of Item
        Of the gate, of both sides; blocking among them is placed.
    """
    spans = tuple((s, house.wall(s.wall)) for s in surface.spans if s.side in {"left", "right"})
    shape = Polygon([(x.inches, y.inches) for x, y in surface.outline])
    placed = ((run, _ways(run.points, surface, spans, shape)) for run in runs)
    return Behind(
        surface=surface,
        spans=spans,
        boxes=_boxes(house, surface, spans),
        runs=tuple(RunAt(run=run, ways=ways) for run, ways in placed if ways),
        holes=tuple((h, x) for h in holes if (x := _x_in(spans, h.wall, h.along)) is not None),
        plates=tuple((p, x) for p in plates if (x := _x_in(spans, p.wall, p.along, side=p.side)) is not None),
        blocks=tuple(block for item in items for block in _block(house, surface, spans, item)),
    )


def x_on(span: Span, along: Length) -> Length | None:
    """Return where a place along a wall stands on the surface; None outside the stretch."""
    x = span.x + (along - span.along if span.forward else span.along - along)
    inside = (span.x.inches - _PLAY) <= x.inches <= (span.x + span.width).inches + _PLAY
    return x if inside else None


def wall_view(view: Elevation, span: Span) -> Elevation:
    """Return the same view for places along a wall, so that the wall's own members are drawn with it."""
    if span.forward:
        return Elevation(
            per_inch=view.per_inch,
            left=view.left + (span.x - span.along).inches * view.per_inch,
            base=view.base,
        )
    return Elevation(
        per_inch=view.per_inch, left=view.left, base=view.base, mirror_in=(span.x + span.along).inches
    )


def _x_in(spans: Sequence[tuple[Span, Wall]], wall: str, along: Length, *, side: str = "") -> Length | None:
    for span, _ in spans:
        if span.wall == wall and side in {"", span.side}:
            x = x_on(span, along)
            if x is not None:
                return x
    return None


def _boxes(house: House, surface: Surface, spans: Sequence[tuple[Span, Wall]]) -> tuple[BoxAt, ...]:
    found: dict[str, BoxAt] = {}
    by_box: dict[str, list[Device]] = {}
    for device in house.devices:
        by_box.setdefault(device.box, []).append(device)
    for name, devices in by_box.items():
        first = devices[0]
        own = first.surface == surface.id
        x = first.x if own else None
        if not own and first.typed.wall:
            x = _x_in(spans, first.typed.wall, first.typed.along)
        if x is not None:
            y = first.y if own else first.height
            found[name] = BoxAt(name=name, devices=tuple(devices), x=x, y=y, this_side=own)
    return tuple(sorted(found.values(), key=lambda box: (not box.this_side, box.x, box.y)))


def _ways(
    points: tuple[RoutePoint, ...],
    surface: Surface,
    spans: Sequence[tuple[Span, Wall]],
    shape: Polygon,
) -> tuple[Way, ...]:
    """Return the stretches of a run's way that lie behind a surface."""
    ways: list[Way] = []
    for a, b in pairwise(points):
        for line in _lines(a, b, surface, spans):
            inside = LineString(line).intersection(shape.buffer(_PLAY))
            parts = getattr(inside, "geoms", [inside])
            ways += [
                tuple(part.coords) for part in parts if isinstance(part, LineString) and part.length > _PLAY
            ]
    return tuple(ways)


def _lines(
    a: RoutePoint, b: RoutePoint, surface: Surface, spans: Sequence[tuple[Span, Wall]]
) -> Iterable[list[tuple[float, float]]]:
    if surface.kind is SurfaceKind.CEILING:
        if Medium.CEILING in {a.medium, b.medium}:
            yield [_on_ceiling(surface, p) for p in (a, b)]
        return
    if a.medium is not Medium.WALL or a.wall != b.wall:
        return
    for span, wall in spans:
        if wall.name == a.wall:
            sign = 1 if span.forward else -1
            yield [(span.x.inches + sign * (p.along - span.along).inches, p.up.inches) for p in (a, b)]


def _on_ceiling(surface: Surface, point: RoutePoint) -> tuple[float, float]:
    """Return a point of the plan in the coordinates of a ceiling."""
    (ox, oy), (ax, ay), (bx, by) = surface.plan_origin, surface.plan_x, surface.plan_y
    dx, dy = point.plan.x.inches - ox, point.plan.y.inches - oy
    turn = ax * by - ay * bx
    return ((dx * by - dy * bx) / turn, (ax * dy - ay * dx) / turn)


def _block(house: House, surface: Surface, spans: Sequence[tuple[Span, Wall]], item: Item) -> Iterable[Block]:
    if item.kind is not ItemKind.BLOCKING or item.spot is None:
        return
    words = item.label.split(": ")[0]
    if item.surface == surface.id:
        yield Block(words=words, spot=item.spot, this_side=True)
        return
    other = house.surface(item.surface)
    for theirs in other.spans:
        along = theirs.along + (item.spot.x - theirs.x if theirs.forward else theirs.x - item.spot.x)
        wide = item.spot.w or ZERO
        far = along + wide if theirs.forward else along - wide
        places = [_x_in(spans, theirs.wall, each) for each in (along, far)]
        if places[0] is not None and places[1] is not None:
            low = min(places[0], places[1])
            spot = Spot(x=low, y=item.spot.y, w=item.spot.w, h=item.spot.h)
            yield Block(words=words, spot=spot, this_side=False)
            return
