"""Where the points of a house stand on its drawn plan."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from setday.drawing.ink import Svg
from setday.drawing.lettering import Box
from setday.drawing.paper import Paper, Scale, scale_bar, scale_to_fit
from setday.house import House, Point, Wall
from setday.measure import ZERO

__all__ = ["PlanFrame", "Sight", "WallOnPlan", "extent", "frame_plan"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """Turns inches of the plan (x east, y north) into drawing units (y downward)."""

    per_inch: float
    left: float
    top: float
    west: float
    north: float

    def at(self, x_in: float, y_in: float) -> tuple[float, float]:
        """Return the place of a plan point given in inches."""
        return self.left + (x_in - self.west) * self.per_inch, self.top + (self.north - y_in) * self.per_inch

    def point(self, point: Point) -> tuple[float, float]:
        """Return the place of a plan point."""
        return self.at(point.x.inches, point.y.inches)

    def ring(self, points: Sequence[Point]) -> list[tuple[float, float]]:
        """Return the places of a closed line."""
        return [self.point(point) for point in points]

    def box(self, corner: Point, east_in: float, north_in: float) -> Box:
        """Return the box of a rectangle of the plan."""
        left, bottom = self.point(corner)
        return Box(left, bottom - north_in * self.per_inch, left + east_in * self.per_inch, bottom)


@dataclass(frozen=True, slots=True, kw_only=True)
class WallOnPlan:
    """A wall with its direction: places along it and across it (to the left) on the drawing."""

    wall: Wall
    sight: Sight

    @property
    def direction(self) -> tuple[float, float]:
        """Unit vector from start to end on the plan."""
        dx = self.wall.end.x.inches - self.wall.start.x.inches
        dy = self.wall.end.y.inches - self.wall.start.y.inches
        size = hypot(dx, dy) or 1.0
        return dx / size, dy / size

    @property
    def half(self) -> float:
        """Half the depth of the framing [in]."""
        return self.wall.kind.depth.inches / 2

    def plan_at(self, along_in: float, across_in: float) -> tuple[float, float]:
        """Return the plan point so far along the wall and to the left of its centre line [in]."""
        dx, dy = self.direction
        x, y = self.wall.start.x.inches, self.wall.start.y.inches
        return x + dx * along_in - dy * across_in, y + dy * along_in + dx * across_in

    def at(self, along_in: float, across_in: float) -> tuple[float, float]:
        """Return that point on the drawing."""
        return self.sight.at(*self.plan_at(along_in, across_in))

    def patch(self, ends_in: tuple[float, float], faces_in: tuple[float, float]) -> list[tuple[float, float]]:
        """Return the corners of a stretch of the wall between two lines across it."""
        (start, end), (low, high) = ends_in, faces_in
        return [self.at(start, low), self.at(end, low), self.at(end, high), self.at(start, high)]


def extent(house: House) -> tuple[float, float, float, float]:
    """Return west, south, east and north of the framing [in]."""
    corners = [point for ring in house.footprint for point in ring]
    if not corners:
        corners = [end for wall in house.walls for end in (wall.start, wall.end)] or [Point(x=ZERO, y=ZERO)]
    xs = [point.x.inches for point in corners]
    ys = [point.y.inches for point in corners]
    return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFrame:
    """A plan placed on its paper with an even margin, its scale below it.

    Parameters
    ----------
    sight : Sight
    scale : Scale
    margin : float
        On every side [drawing units].
    right, foot : float
        Where plan and margin end to the right and downward [drawing units].
    """

    sight: Sight
    scale: Scale
    margin: float
    right: float
    foot: float

    @property
    def width(self) -> float:
        """Width of the drawing: of the plan, and at least what notes below it take [drawing units]."""
        return max(self.right, 300.0)

    @property
    def bar(self) -> Svg:
        """The bar of the scale, at the foot."""
        return scale_bar(x=self.margin, y=self.foot, scale=self.scale)


def frame_plan(
    bounds_in: tuple[float, float, float, float], *, margin: float, below: float, paper: Paper
) -> PlanFrame:
    """Place a stretch of the plan on a paper, as large as it fits.

    Parameters
    ----------
    bounds_in : tuple of float
        West, south, east and north [in].
    margin : float
        On every side [drawing units].
    below : float
        Room kept for what stands below the plan [drawing units].
    paper : Paper
    """
    west, south, east, north = bounds_in
    scale = scale_to_fit(
        width_in=east - west,
        height_in=north - south,
        room_x=paper.width - 2 * margin,
        room_y=paper.height - 2 * margin - below,
        paper=paper,
    )
    return PlanFrame(
        sight=Sight(per_inch=scale.per_inch, left=margin, top=margin, west=west, north=north),
        scale=scale,
        margin=margin,
        right=2 * margin + (east - west) * scale.per_inch,
        foot=2 * margin + (north - south) * scale.per_inch,
    )
