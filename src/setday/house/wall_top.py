"""The top line of a wall: level, or as its gable goes."""

from itertools import pairwise

from setday.house.placing import PlacedWall, from_inches
from setday.measure import Length

__all__ = ["Top", "height_at", "wall_top"]

Top = tuple[tuple[Length, Length], ...]


def wall_top(wall: PlacedWall) -> Top:
    """Return the height of a wall's top along its framing, from 0 to its run."""
    run = from_inches(wall.frame_end - wall.frame_start)
    if not wall.typed.gable:
        return ((Length(0), wall.typed.height), (run, wall.typed.height))
    shifted = [(a.inches - wall.frame_start, h) for a, h in wall.typed.gable]
    points = tuple((from_inches(a), h) for a, h in shifted)
    inner = tuple((a, h) for a, h in points if Length(0) < a < run)
    return (
        (Length(0), from_inches(height_at(points, 0.0))),
        *inner,
        (run, from_inches(height_at(points, run.inches))),
    )


def height_at(top: Top, along: float) -> float:
    """Return the height of a top line at a place along it [in]; level beyond its ends."""
    if along <= top[0][0].inches:
        return top[0][1].inches
    for (a, ha), (b, hb) in pairwise(top):
        if along <= b.inches:
            share = (along - a.inches) / (b.inches - a.inches) if b > a else 0.0
            return ha.inches + share * (hb.inches - ha.inches)
    return top[-1][1].inches
