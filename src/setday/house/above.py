"""Ceiling surfaces: every plane over a room, drops and their upright sides."""

from math import hypot

from shapely import Polygon, box
from shapely.geometry import MultiPolygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from setday.house.ceilings import Drop, Overhead, Plane
from setday.house.description import Axis
from setday.house.faces import Face, tidy
from setday.house.model import Backing, Surface, SurfaceKind, SurfaceOpening
from setday.house.placing import from_inches
from setday.house.rooms import FoundRoom
from setday.measure import Length

__all__ = ["ceiling_surfaces"]

_END_BACKING = 1.0
_LEAST_AREA = 4.0
_PLAY = 1 / 32

Knot = tuple[float, float]


def ceiling_surfaces(room: FoundRoom, overhead: Overhead, house_low: Knot) -> tuple[Surface, ...]:
    """Return the surfaces over one room: ceiling planes, undersides of drops, sides of drops.

    Parameters
    ----------
    room : FoundRoom
    overhead : Overhead
    house_low : (float, float)
        Lowest east and north coordinate of the house's framing, where ceiling layouts start unless
        the file says otherwise [in].
    """
    surfaces: list[Surface] = []
    name = room.typed.name
    for plane in overhead.planes:
        region: BaseGeometry = room.space.intersection(plane.region)
        for drop in overhead.drops:
            region = region.difference(drop.region)
        suffix = f"ceiling-{plane.name}" if plane.name else "ceiling"
        words = f"{plane.name} slope of the ceiling" if plane.name else "ceiling"
        for n, part in enumerate(_parts(region)):
            mark = f"-{n + 1}" if n else ""
            surfaces.append(
                _flat(part, plane, overhead, house_low, (f"{name}/{suffix}{mark}", f"{name}, {words}"), name)
            )
    for drop in overhead.drops:
        surfaces += _drop_surfaces(drop, room, overhead, house_low)
    return tuple(surfaces)


def _parts(shape: BaseGeometry) -> list[Polygon]:
    shapes = list(shape.geoms) if isinstance(shape, MultiPolygon) else [shape]
    found = [s for s in shapes if isinstance(s, Polygon) and s.area >= _LEAST_AREA]
    return sorted(found, key=lambda p: (p.bounds[0], p.bounds[1]))


class _View:
    """Plan to surface: what a point of the plan is on a ceiling seen from below, members across x."""

    def __init__(self, part: Polygon, plane: Plane, runs: Axis) -> None:
        east, north = plane.stretch
        if runs is Axis.NORTH_SOUTH:  # looking up with north at the top, west is to the right
            self.x_axis, self.y_axis = (-east, 0.0), (0.0, north)
        else:  # looking up with east at the top, north is to the right
            self.x_axis, self.y_axis = (0.0, north), (east, 0.0)
        corners = [self._turn(x, y) for x, y in list(part.exterior.coords)]
        self.low_x = min(x for x, _ in corners)
        self.low_y = min(y for _, y in corners)

    def _turn(self, x: float, y: float) -> Knot:
        return (x * self.x_axis[0] + y * self.x_axis[1], x * self.y_axis[0] + y * self.y_axis[1])

    def point(self, x: float, y: float) -> Knot:
        u, v = self._turn(x, y)
        return (u - self.low_x, v - self.low_y)

    def plan(self) -> tuple[Knot, Knot, Knot]:
        """Return the plan point of the origin and the plan vectors of one inch along x and y."""
        px = _inverse(self.x_axis)
        py = _inverse(self.y_axis)
        origin = (self.low_x * px[0] + self.low_y * py[0], self.low_x * px[1] + self.low_y * py[1])
        return origin, px, py


def _inverse(axis: Knot) -> Knot:
    square = axis[0] ** 2 + axis[1] ** 2
    return (axis[0] / square, axis[1] / square)


def _flat(
    part: Polygon, plane: Plane, overhead: Overhead, house_low: Knot, names: tuple[str, str], room: str
) -> Surface:
    view = _View(part, plane, overhead.typed.framing_runs)
    ring = tidy([view.point(x, y) for x, y in list(part.exterior.coords)[:-1]])
    flat = orient(Polygon(ring), sign=1.0)
    outline = _from_lower_left([(x, y) for x, y in list(flat.exterior.coords)[:-1]])
    width = max(x for x, _ in outline)
    height = max(y for _, y in outline)
    origin, plan_x, plan_y = view.plan()
    return Surface(
        id=names[0],
        label=names[1],
        room=room,
        kind=SurfaceKind.CEILING,
        facing="up",
        outline=tuple((from_inches(x), from_inches(y)) for x, y in outline),
        openings=_holes(part, view) + _hatch_openings(part, overhead, view),
        wet=(),
        backing=_joists(overhead, view, house_low, width, height),
        member_spacing=overhead.typed.spacing,
        plan_origin=origin,
        plan_x=plan_x,
        plan_y=plan_y,
    )


def _from_lower_left(ring: list[Knot]) -> list[Knot]:
    first = min(range(len(ring)), key=lambda n: (ring[n][1], ring[n][0]))
    return ring[first:] + ring[:first]


def _joists(
    overhead: Overhead, view: _View, house_low: Knot, width: float, height: float
) -> tuple[Backing, ...]:
    """Return the ceiling framing's centres across a surface."""
    across_east = overhead.typed.framing_runs is Axis.NORTH_SOUTH
    spacing = overhead.typed.spacing.inches
    typed = overhead.typed.layout_at
    start = typed.inches if typed is not None else house_low[0 if across_east else 1]
    reach = hypot(*view.x_axis)
    sign = -1.0 if across_east else 1.0
    found = []
    # Surface x of the plan coordinate c is sign * c * reach - low_x.
    ends = sorted((sign * (view.low_x) / reach, sign * (view.low_x + width) / reach))
    first = int((ends[0] - start) // spacing) - 1
    last = int((ends[1] - start) // spacing) + 2
    for n in range(first, last):
        x = sign * (start + n * spacing) * reach - view.low_x
        if _END_BACKING <= x <= width - _END_BACKING:
            found.append(
                Backing(
                    kind="joist",
                    x=from_inches(x),
                    width=Length(96),
                    y_low=Length(0),
                    y_high=from_inches(height),
                )
            )
    return tuple(sorted(found, key=lambda b: b.x))


def _holes(part: Polygon, view: _View) -> tuple[SurfaceOpening, ...]:
    """Return what stands up through a ceiling: free walls and drops away from the walls."""
    return tuple(_opening("framing", "framing", Polygon(ring).bounds, view) for ring in part.interiors)


def _hatch_openings(part: Polygon, overhead: Overhead, view: _View) -> tuple[SurfaceOpening, ...]:
    found = []
    for hatch in overhead.hatches:
        x, y = hatch.corner.x.inches, hatch.corner.y.inches
        shape = box(x, y, x + hatch.east.inches, y + hatch.north.inches).intersection(part)
        if not shape.is_empty and shape.area > _PLAY:
            found.append(_opening(hatch.name, "hatch", shape.bounds, view))
    return tuple(found)


def _opening(name: str, kind: str, bounds: tuple[float, ...], view: _View) -> SurfaceOpening:
    a, b = view.point(bounds[0], bounds[1]), view.point(bounds[2], bounds[3])
    x, y = min(a[0], b[0]), min(a[1], b[1])
    return SurfaceOpening(
        name=name,
        kind=kind,
        x=from_inches(x),
        y=from_inches(y),
        w=from_inches(abs(a[0] - b[0])),
        h=from_inches(abs(a[1] - b[1])),
    )


def _drop_surfaces(drop: Drop, room: FoundRoom, overhead: Overhead, house_low: Knot) -> list[Surface]:
    name, title = room.typed.name, drop.typed.name
    level = Plane(name="", base=drop.bottom, east=0.0, north=0.0, region=drop.region)
    under = _flat(
        drop.region, level, overhead, house_low, (f"{name}/{title}", f"{name}, underside of {title}"), name
    )
    sides = []
    ring = tidy(list(orient(drop.region, sign=1.0).exterior.coords)[:-1])
    edges = list(zip(ring, ring[1:] + ring[:1], strict=True))
    for left, right in edges:
        face = Face(left=left, right=right, facing=_toward(left, right))
        if not _on_wall(face, room):
            side = _drop_side(face, drop, overhead, room)
            if side is not None:
                sides.append(side)
    return [under, *sides]


def _toward(left: Knot, right: Knot) -> str:
    """Return the compass side of the drop that a side stands on, as a room would name its wall."""
    ux, uy = right[0] - left[0], right[1] - left[1]
    if abs(ux) >= abs(uy):
        return "north" if ux > 0 else "south"
    return "west" if uy > 0 else "east"


def _on_wall(face: Face, room: FoundRoom) -> bool:
    x, y = face.at(face.length / 2)
    edge = room.space.boundary
    return bool(edge.distance(Polygon(box(x - 0.01, y - 0.01, x + 0.01, y + 0.01))) < _PLAY)


def _drop_side(face: Face, drop: Drop, overhead: Overhead, room: FoundRoom) -> Surface | None:
    heights = []
    for at in (0.0, face.length):
        x, y = face.at(at)
        heights.append(overhead.plane_at(x, y).height(x, y) - drop.bottom)
    if min(heights) < 0 or max(heights) < 1.0:
        return None
    ring = tidy([(0.0, 0.0), (face.length, 0.0), (face.length, heights[1]), (0.0, heights[0])])
    spacing = overhead.typed.spacing.inches
    marks = [spacing * n for n in range(1, int(face.length / spacing) + 1)]
    name, title = room.typed.name, drop.typed.name
    return Surface(
        id=f"{name}/{title}-{face.facing}",
        label=f"{name}, {title}, side facing {_OPPOSITE[face.facing]}",
        room=name,
        kind=SurfaceKind.SOFFIT_SIDE,
        facing=face.facing,
        outline=tuple((from_inches(x), from_inches(y)) for x, y in ring),
        openings=(),
        wet=(),
        backing=tuple(
            Backing(
                kind="blocking",
                x=from_inches(m),
                width=Length(96),
                y_low=Length(0),
                y_high=from_inches(max(heights)),
            )
            for m in marks
            if _END_BACKING <= m <= face.length - _END_BACKING
        ),
        member_spacing=overhead.typed.spacing,
        plan_origin=face.left,
        plan_x=face.direction,
        plan_y=(0.0, 0.0),
    )


_OPPOSITE = {"north": "south", "south": "north", "east": "west", "west": "east"}
