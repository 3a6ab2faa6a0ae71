"""Hatching drawn as lines, so that a drawing needs no pattern ids and prints the same everywhere."""

from collections.abc import Sequence
from math import cos, floor, radians, sin

from setday.drawing.ink import HAIR, Svg, number, path

__all__ = ["hatch", "hatch_box"]

Corners = Sequence[tuple[float, float]]


def hatch(
    rings: Sequence[Corners],
    *,
    spacing: float = 5.0,
    angle: float = 45.0,
    width: float = HAIR,
) -> Svg:
    """Fill what lies inside an odd number of `rings` with parallel lines.

    Parameters
    ----------
    rings : sequence of sequences of corners
        Closed lines on the drawing.
    spacing : float
        Distance of the lines [drawing units].
    angle : float
        Their angle, counter-clockwise from level [degrees].
    width : float
        How heavy the lines are [drawing units].
    """
    turn = radians(angle)
    # Turned so that the hatching is level: u along the lines, v across them.
    turned = [
        [(x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)) for x, y in ring] for ring in rings
    ]
    low = min((v for ring in turned for _, v in ring), default=0.0)
    high = max((v for ring in turned for _, v in ring), default=0.0)
    pieces = []
    for step in range(floor(low / spacing) + 1, floor(high / spacing) + 1):
        across = step * spacing + 1e-6
        cuts = sorted(_crossings(turned, across))
        for start, end in zip(cuts[::2], cuts[1::2], strict=False):
            pieces.append(_segment(start, end, across, turn))
    return path("".join(pieces), width=width) if pieces else Svg("")


def hatch_box(*, x: float, y: float, w: float, h: float, spacing: float = 5.0, angle: float = 45.0) -> Svg:
    """Hatch a rectangle."""
    return hatch([[(x, y), (x + w, y), (x + w, y + h), (x, y + h)]], spacing=spacing, angle=angle)


def _crossings(rings: Sequence[Corners], across: float) -> list[float]:
    found = []
    for ring in rings:
        for (u0, v0), (u1, v1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if (v0 > across) != (v1 > across):
                found.append(u0 + (across - v0) / (v1 - v0) * (u1 - u0))
    return found


def _segment(start: float, end: float, across: float, turn: float) -> str:
    def back(u: float) -> str:
        return f"{number(u * cos(turn) + across * sin(turn))} {number(-u * sin(turn) + across * cos(turn))}"

    return f"M{back(start)}L{back(end)}"
