"""Kitchen counters, and where range, refrigerator, sink and dishwasher stand along them.

Where the house file names no counters of a kitchen they are assumed, and everything that leans on them
says so: a counter under every window whose sill is above counter height and under every soffit, otherwise
along the longest wall; the refrigerator at the end of the run that has no window, the range in the middle
of the longest counter without a window, the sink under the first window, the dishwasher beside it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from setday.cable.placing.wall_spaces import Break, Piece, WallSpace, doorways, wall_spaces
from setday.house import Device, DeviceKind, House, OpeningKind, Surface, SurfaceKind
from setday.rules import RuleBook

__all__ = ["Kitchen", "Stretch", "counter_spaces", "kitchen_of", "off_counter_breaks"]

_TOUCH = 1.0
_LEAST_RUN = 24.0
"""A soffit shorter than this along a wall says nothing of a counter [in]; our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a wall surface: from, to [in]."""

    surface: Surface
    low: float
    high: float

    @property
    def width(self) -> float:
        """Its width [in]."""
        return self.high - self.low

    def holds(self, surface: Surface, x: float) -> bool:
        """Tell whether a place on a surface lies in the stretch."""
        return surface.id == self.surface.id and self.low <= x <= self.high

    @property
    def middle(self) -> float:
        """Its middle [in]."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Kitchen:
    """A kitchen's counters and what stands in them.

    Parameters
    ----------
    room : str
    counters : tuple of Stretch
        Counter tops on walls, range and refrigerator taken out.
    fixed : tuple of Stretch
        Where range and refrigerator stand: neither counter nor wall space.
    places : dict
        By appliance ("range", "refrigerator", "sink", "dishwasher"): its stretch.
    assumed : bool
        True when the house file names no counters here.
    """

    room: str
    counters: tuple[Stretch, ...]
    fixed: tuple[Stretch, ...]
    places: dict[str, Stretch]
    assumed: bool


def kitchen_of(house: House, room: str, rules: RuleBook) -> Kitchen:
    """Return a kitchen's counters, as written or assumed.

    Parameters
    ----------
    house : House
    room : str
    rules : RuleBook
    """
    typed = tuple(_typed(house, room))
    runs = typed or _assumed_runs(house, room, rules)
    supposed = _in_gaps(typed, rules) if typed else _in_runs(runs, rules)
    places = supposed | {
        what: stretch
        for what, (stretch, at) in _standing(house, room, rules).items()
        if what not in supposed or not supposed[what].holds(stretch.surface, at)
    }
    fixed = [places[what] for what in ("range", "refrigerator") if what in places]
    counters = tuple(part for run in runs for part in _without(run, fixed))
    places |= {what: spot for what, spot in _sink(counters, rules).items() if what not in places}
    return Kitchen(room=room, counters=counters, fixed=tuple(fixed), places=places, assumed=not typed)


def counter_spaces(house: House, kitchen: Kitchen) -> tuple[WallSpace, ...]:
    """Return the wall spaces over counters, corners included."""
    others = {
        surface.id: list(_complement(surface, kitchen.counters))
        for surface in house.surfaces
        if surface.room == kitchen.room and surface.kind is SurfaceKind.WALL
    }
    return wall_spaces(house, kitchen.room, breaks=others)


def off_counter_breaks(kitchen: Kitchen) -> dict[str, list[Break]]:
    """Return what counters and fixed appliances take of the floor line, by surface."""
    taken: dict[str, list[Break]] = {}
    for stretch in (*kitchen.counters, *kitchen.fixed):
        taken.setdefault(stretch.surface.id, []).append((stretch.low, stretch.high))
    return taken


def _typed(house: House, room: str) -> Iterator[Stretch]:
    for counter in house.counters:
        if counter.typed.room == room and counter.surface:
            surface = house.surface(counter.surface)
            yield Stretch(
                surface=surface, low=counter.x.inches, high=(counter.x + counter.typed.width).inches
            )


def _complement(surface: Surface, counters: tuple[Stretch, ...]) -> Iterator[Break]:
    at = 0.0
    for low, high in sorted((c.low, c.high) for c in counters if c.surface.id == surface.id):
        if low > at:
            yield (at, low)
        at = max(at, high)
    if surface.width.inches > at:
        yield (at, surface.width.inches)


def _assumed_runs(house: House, room: str, rules: RuleBook) -> tuple[Stretch, ...]:
    top = rules.length("cable.counter_height").inches
    pieces = [piece for space in wall_spaces(house, room) for piece in space.pieces]
    runs = []
    for piece in pieces:
        if _has_high_window(piece, top):
            runs.append(_whole(piece))
        elif (under := _under_soffit(house, room, piece)) is not None:
            runs.append(under)
    if not runs and pieces:
        runs = [_whole(max(pieces, key=lambda p: (p.high - p.low, -pieces.index(p))))]
    return tuple(runs)


def _whole(piece: Piece) -> Stretch:
    return Stretch(surface=piece.surface, low=piece.low, high=piece.high)


def _has_high_window(piece: Piece, top: float) -> bool:
    return any(
        o.kind == OpeningKind.WINDOW.value and o.y.inches >= top and piece.low <= o.x.inches < piece.high
        for o in piece.surface.openings
    )


def _under_soffit(house: House, room: str, piece: Piece) -> Stretch | None:
    """Return the part of a piece that a drop's edge runs along."""
    (ox, oy), (ux, uy) = piece.surface.plan_origin, piece.surface.plan_x
    for drop in house.description.drops:
        if drop.room != room:
            continue
        xs = (drop.corner.x.inches, (drop.corner.x + drop.east).inches)
        ys = (drop.corner.y.inches, (drop.corner.y + drop.north).inches)
        corners = [(x - ox, y - oy) for x in xs for y in ys]
        beside = [dx * ux + dy * uy for dx, dy in corners if abs(dx * uy - dy * ux) <= _TOUCH]
        if not beside:
            continue
        low, high = max(min(beside), piece.low), min(max(beside), piece.high)
        if high - low >= _LEAST_RUN:
            return Stretch(surface=piece.surface, low=low, high=high)
    return None


def _standing(house: House, room: str, rules: RuleBook) -> dict[str, tuple[Stretch, float]]:
    """Return where appliances that have a device stand, each with its box's place."""
    found = {}
    for device in house.devices:
        what = device.typed.what
        if device.room != room or device.kind is not DeviceKind.APPLIANCE or not device.surface:
            continue
        if what in ("range", "refrigerator", "dishwasher"):
            width = rules.length(f"cable.{what}_width").inches
            found[what] = (_around(device, house, width), device.x.inches)
    return found


def _around(device: Device, house: House, width: float) -> Stretch:
    surface = house.surface(device.surface)
    low = min(max(device.x.inches - width / 2, 0.0), max(surface.width.inches - width, 0.0))
    return Stretch(surface=surface, low=low, high=low + width)


def _in_runs(runs: tuple[Stretch, ...], rules: RuleBook) -> dict[str, Stretch]:
    """Put refrigerator and range in counters that are assumed."""
    places: dict[str, Stretch] = {}
    for what in ("refrigerator", "range"):
        spot = _room_for(what, runs, list(places.values()), rules)
        if spot is not None:
            places[what] = spot
    return places


def _room_for(what: str, runs: tuple[Stretch, ...], fixed: list[Stretch], rules: RuleBook) -> Stretch | None:
    width = rules.length(f"cable.{what}_width").inches
    parts = [part for run in runs for part in _without(run, fixed) if part.width >= width]
    if not parts:
        return None
    best = max(parts, key=lambda p: (not _windows(p), p.width, -parts.index(p)))
    if what == "refrigerator":
        at_low = best.low < _TOUCH or best.high < best.surface.width.inches - _TOUCH
        return replace(best, high=best.low + width) if at_low else replace(best, low=best.high - width)
    return replace(best, low=best.middle - width / 2, high=best.middle + width / 2)


def _windows(part: Stretch) -> bool:
    return any(
        o.kind == OpeningKind.WINDOW.value and o.x.inches < part.high and (o.x + o.w).inches > part.low
        for o in part.surface.openings
    )


def _in_gaps(typed: tuple[Stretch, ...], rules: RuleBook) -> dict[str, Stretch]:
    """Put range and refrigerator in what is left between and beside written counters."""
    gaps: list[Stretch] = []
    for surface in {c.surface.id: c.surface for c in typed}.values():
        free = list(_complement(surface, typed))
        for low, high in free:
            walked = doorways(surface)
            whole = Stretch(surface=surface, low=low, high=high)
            gaps += _without(whole, [Stretch(surface=surface, low=a, high=b) for a, b in walked])
    found: dict[str, Stretch] = {}
    for what in ("range", "refrigerator"):
        width = rules.length(f"cable.{what}_width").inches
        fits = [gap for gap in gaps if gap.width >= width - _TOUCH]
        if fits:
            gap = min(fits, key=lambda g: (g.width, gaps.index(g)))
            gaps.remove(gap)
            found[what] = replace(gap, low=gap.middle - width / 2, high=gap.middle + width / 2)
    return found


def _sink(counters: tuple[Stretch, ...], rules: RuleBook) -> dict[str, Stretch]:
    """Put the sink under the first window over a counter, and the dishwasher on its roomier side."""
    if not counters:
        return {}
    width, beside = (rules.length(f"cable.{what}_width").inches for what in ("sink", "dishwasher"))
    under = next((c for c in counters if _windows(c)), None)
    counter = under or max(counters, key=lambda c: c.width)
    middle = _window_middle(counter) if under else counter.middle
    sink = replace(counter, low=middle - width / 2, high=middle + width / 2)
    after = counter.high - sink.high >= sink.low - counter.low
    at = sink.high if after else sink.low - beside
    return {"sink": sink, "dishwasher": replace(counter, low=at, high=at + beside)}


def _window_middle(part: Stretch) -> float:
    window = next(o for o in part.surface.openings if o.kind == OpeningKind.WINDOW.value)
    return (window.x + window.w // 2).inches


def _without(run: Stretch, taken: list[Stretch]) -> list[Stretch]:
    """Return what is left of a stretch."""
    left, at = [], run.low
    for low, high in sorted((t.low, t.high) for t in taken if t.surface.id == run.surface.id):
        if low > at:
            left.append(replace(run, low=at, high=min(low, run.high)))
        at = max(at, high)
    if at < run.high:
        left.append(replace(run, low=at))
    return [part for part in left if part.width > 0]
