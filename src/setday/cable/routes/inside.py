"""What runs inside a surface: boxes, runs, holes and plates behind it."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString, Polygon

from setday.cable.figure import CableFigure
from setday.cable.placing.ceiling_places import floor_of
from setday.cable.run import Hole, Medium, PlateNeed, RoutePoint, Run
from setday.house import House, Span, Surface, SurfaceKind

__all__ = ["Inside", "inside_surface"]

_PLAY = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """What is behind one surface.

    Parameters
    ----------
    surface : str
    boxes : tuple of str
        Boxes that show on it, each once.
    runs : tuple of Run
        Runs that pass in the wall or over the ceiling behind it.
    holes : tuple of Hole
    plates : tuple of PlateNeed
        Steel plates to be nailed on its side of the framing.
    """

    surface: str
    boxes: tuple[str, ...]
    runs: tuple[Run, ...]
    holes: tuple[Hole, ...]
    plates: tuple[PlateNeed, ...]


def inside_surface(figured: CableFigure, surface: str) -> Inside:
    """Return what is behind a surface.

    Parameters
    ----------
    figured : CableFigure
    surface : str
        Its id.
    """
    house = figured.house
    face = house.surface(surface)
    boxes = tuple(dict.fromkeys(device.box for device in house.devices if device.surface == surface))
    if face.kind is SurfaceKind.CEILING:
        return _over(figured, face, boxes)
    spans = [span for span in face.spans if span.side in ("left", "right")]
    return Inside(
        surface=surface,
        boxes=boxes,
        runs=tuple(run for run in figured.routing.runs if _passes(run, spans)),
        holes=tuple(h for h in figured.routing.holes if _at(spans, h.wall, h.along.inches)),
        plates=tuple(
            p
            for p in figured.routing.plates
            if any(s.side == p.side for s in _holding(spans, p.wall, p.along.inches))
        ),
    )


def _holding(spans: Iterable[Span], wall: str, along: float) -> list[Span]:
    return [span for span in spans if span.wall == wall and _low(span) <= along <= _high(span)]


def _at(spans: Iterable[Span], wall: str, along: float) -> bool:
    return bool(_holding(spans, wall, along))


def _low(span: Span) -> float:
    return span.along.inches - (0.0 if span.forward else span.width.inches) - _PLAY


def _high(span: Span) -> float:
    return span.along.inches + (span.width.inches if span.forward else 0.0) + _PLAY


def _passes(run: Run, spans: list[Span]) -> bool:
    for a, b in pairwise(run.points):
        if a.medium is not Medium.WALL or a.wall != b.wall:
            continue
        low, high = sorted((a.along.inches, b.along.inches))
        if any(s.wall == a.wall and low <= _high(s) and high >= _low(s) for s in spans):
            return True
    return False


def _over(figured: CableFigure, face: Surface, boxes: tuple[str, ...]) -> Inside:
    area = _plan_of(figured.house, face)
    crossing = [run for run in figured.routing.runs if _crosses(run.points, area)]
    ends = {box for run in figured.routing.runs for box in (run.cable.start, run.cable.end)} & set(boxes)
    runs = [run for run in figured.routing.runs if run in crossing or {run.cable.start, run.cable.end} & ends]
    holes = tuple(h for h in figured.routing.holes if not h.wall and h.room == face.room)
    return Inside(surface=face.id, boxes=boxes, runs=tuple(runs), holes=holes, plates=())


def _plan_of(house: House, face: Surface) -> Polygon:
    """Return a ceiling's outline on the plan; its room's floor where that cannot be told."""
    (ox, oy), (ax, ay), (bx, by) = face.plan_origin, face.plan_x, face.plan_y
    ring = [(ox + ax * x.inches + bx * y.inches, oy + ay * x.inches + by * y.inches) for x, y in face.outline]
    shape = Polygon(ring)
    return shape if shape.is_valid and shape.area > 0 else floor_of(house.room(face.room))


def _crosses(points: tuple[RoutePoint, ...], area: Polygon) -> bool:
    """Tell whether a way runs over an area, more than along its edge."""
    for a, b in pairwise(points):
        if a.medium is not Medium.CEILING and b.medium is not Medium.CEILING:
            continue
        line = LineString([(p.plan.x.inches, p.plan.y.inches) for p in (a, b)])
        if line.length > 0 and line.intersection(area).length > _PLAY:
            return True
    return False
