"""The ways into a room, and on which side of each a hand looks for the switch."""

from dataclasses import dataclass
from math import hypot

from setday.house import House, Opening, OpeningKind, Surface, SurfaceKind, SurfaceOpening, Wall, hung

__all__ = ["OUTDOORS", "Way", "farthest_apart", "ways_of"]

OUTDOORS = ""
_WALKED = (OpeningKind.DOOR.value, OpeningKind.CASED.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A door or cased opening as seen in one room.

    Parameters
    ----------
    opening : str
    room : str
        The room it is seen in.
    leads_to : str or None
        Room behind it; `OUTDOORS`, or None where the space behind has no name.
    surface : Surface
    low, high : float
        Its rough opening along the surface [in].
    latch_at_high : bool
        The house file does not say how a door is hung: it is taken as `setday.house.hung` says, and as it is
        drawn on the plan; a cased opening like a door.
    plan : tuple of float
        Its middle on the plan [in].
    """

    opening: str
    room: str
    leads_to: str | None
    surface: Surface
    low: float
    high: float
    latch_at_high: bool
    plan: tuple[float, float]


def ways_of(house: House) -> dict[str, tuple[Way, ...]]:
    """Return the ways into every room, by room, in the order of its surfaces."""
    seen: dict[str, list[tuple[Surface, SurfaceOpening]]] = {}
    for surface in house.surfaces:
        if surface.kind is SurfaceKind.WALL:
            for opening in surface.openings:
                if opening.kind in _WALKED:
                    seen.setdefault(opening.name, []).append((surface, opening))
    found: dict[str, list[Way]] = {room.name: [] for room in house.rooms}
    for surface in house.surfaces:
        for opening in surface.openings:
            if surface.kind is SurfaceKind.WALL and opening.kind in _WALKED:
                behind = _behind(house, surface, opening, seen[opening.name])
                found[surface.room].append(_way(house, surface, opening, behind))
    return {room: tuple(ways) for room, ways in found.items()}


def _behind(
    house: House, surface: Surface, opening: SurfaceOpening, seen: list[tuple[Surface, SurfaceOpening]]
) -> str | None:
    others = [other.room for other, _ in seen if other.room != surface.room]
    if others:
        return others[0]
    wall, _ = _built(house, opening.name)
    return OUTDOORS if wall.kind.outside else None


def _built(house: House, name: str) -> tuple[Wall, Opening]:
    return next((w, o) for w in house.walls for o in w.openings if o.name == name)


def _way(house: House, surface: Surface, opening: SurfaceOpening, behind: str | None) -> Way:
    wall, built = _built(house, opening.name)
    hinged_at_start = hung(house, wall, built).hinge_at_start
    forward = next((span.forward for span in surface.spans if span.wall == wall.name), True)
    middle = (opening.x + opening.w // 2).inches
    return Way(
        opening=opening.name,
        room=surface.room,
        leads_to=behind,
        surface=surface,
        low=opening.x.inches,
        high=(opening.x + opening.w).inches,
        latch_at_high=hinged_at_start == forward,
        plan=(
            surface.plan_origin[0] + surface.plan_x[0] * middle,
            surface.plan_origin[1] + surface.plan_x[1] * middle,
        ),
    )


def farthest_apart(ways: tuple[Way, ...], count: int) -> tuple[Way, ...]:
    """Return `count` of the ways, the farthest apart first; all of them where there are no more."""
    if len(ways) <= count:
        return ways
    if count == 1:
        return ways[:1]
    pairs = [(_apart(a, b), -m, -n) for m, a in enumerate(ways) for n, b in enumerate(ways) if m < n]
    _, m, n = max(pairs)
    chosen = [-m, -n]
    while len(chosen) < count:
        left = [k for k in range(len(ways)) if k not in chosen]
        chosen.append(max(left, key=lambda k: (min(_apart(ways[k], ways[c]) for c in chosen), -k)))
    return tuple(ways[k] for k in sorted(chosen))


def _apart(a: Way, b: Way) -> float:
    return hypot(a.plan[0] - b.plan[0], a.plan[1] - b.plan[1])
