"""Where walls meet, as cables see it: the spot in which a way turns from one wall into another."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.cable.routes.wall_ways import WallWays

__all__ = ["Meeting", "meetings"]

_PLAY = 17
"""An end stands in another wall's face, give or take a quarter inch, the play of a tape [1/64 in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """The end of one wall in the side of another.

    Parameters
    ----------
    butting, through : int
        Places of the two walls in the list they came from.
    butting_at, through_at : int
        Where their centre lines cross, along each [1/64 in]; half a wall's thickness or so beyond the end
        of the butting wall's own framing.
    plan : (int, int)
        That spot on the plan [1/64 in].
    """

    butting: int
    through: int
    butting_at: int
    through_at: int
    plan: tuple[int, int]


def meetings(ways: Sequence[WallWays]) -> tuple[Meeting, ...]:
    """Return every end of a wall that stands against the side of another."""
    found = []
    for n, butting in enumerate(ways):
        for at_start in (True, False):
            for k, through in enumerate(ways):
                if k != n and (meeting := _met(n, butting, k, through, at_start=at_start)):
                    found.append(meeting)
    return tuple(found)


def _direction(ways: WallWays) -> tuple[float, float]:
    x, y = ways.wall.start.x.sixtyfourths, ways.wall.start.y.sixtyfourths
    return (
        (ways.wall.end.x.sixtyfourths - x) / ways.run,
        (ways.wall.end.y.sixtyfourths - y) / ways.run,
    )


def _met(n: int, butting: WallWays, k: int, through: WallWays, *, at_start: bool) -> Meeting | None:
    end = butting.wall.start if at_start else butting.wall.end
    ux, uy = _direction(through)
    dx = end.x.sixtyfourths - through.wall.start.x.sixtyfourths
    dy = end.y.sixtyfourths - through.wall.start.y.sixtyfourths
    aside, along = dy * ux - dx * uy, dx * ux + dy * uy
    half = through.wall.kind.depth.sixtyfourths / 2
    if abs(abs(aside) - half) > _PLAY or not -_PLAY <= along <= through.run + _PLAY:
        return None
    vx, vy = _direction(butting)
    slant = ux * vy - uy * vx
    if abs(slant) < 1e-6:
        return None
    beyond = -aside / slant  # along the butting wall, from its end to the other's centre line
    at = (0 if at_start else butting.run) + beyond
    if (beyond < 0) is not at_start:
        return None
    plan = (round(end.x.sixtyfourths + vx * beyond), round(end.y.sixtyfourths + vy * beyond))
    through_at = round(along + (vx * ux + vy * uy) * beyond)
    return Meeting(butting=n, through=k, butting_at=round(at), through_at=through_at, plan=plan)
