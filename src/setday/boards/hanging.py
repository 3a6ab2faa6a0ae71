"""The order in which surfaces are hung, and what neighbours take from each other at the corners."""

from dataclasses import dataclass

from setday.boards.choices import BoardChoices
from setday.boards.corners import corners
from setday.boards.specified import Cover
from setday.findings import Finding, Severity, Where
from setday.house import House, Surface, SurfaceKind
from setday.rules import RuleBook

__all__ = ["HungSurface", "corner_losses", "hanging_order"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HungSurface:
    """A surface in its place in the hanging order; `day` counts from 1."""

    surface: Surface
    day: int


def hanging_order(
    house: House, *, choices: BoardChoices, rules: RuleBook
) -> tuple[tuple[HungSurface, ...], tuple[Finding, ...]]:
    """Put the surfaces in hanging order: day by day, ceilings before walls, room by room.

    Within a room the walls follow the rule ``boards.corner_order``: longer walls first (of walls
    equally long those that face north or south), or clockwise as the room is walked.
    """
    days, findings = _days(house, choices)
    longer_first = rules.choice("boards.corner_order") == "longer first"
    keyed = []
    for room_number, room in enumerate(house.rooms):
        own = [surface for surface in house.surfaces if surface.room == room.name]
        place = {surface_id: n for n, surface_id in enumerate(room.surfaces)}
        for surface in own:
            ceiling = surface.kind is SurfaceKind.CEILING
            rank = _wall_rank(surface) if longer_first and not ceiling else (0, 0)
            soffit = surface.kind is SurfaceKind.SOFFIT_SIDE
            day = days[room.name]
            order = (
                day[0],
                not ceiling,
                day[1],
                room_number,
                soffit,
                rank,
                place.get(surface.id, 0),
                surface.id,
            )
            keyed.append((order, HungSurface(surface=surface, day=day[0])))
    keyed.sort(key=lambda pair: pair[0])
    return tuple(hung for _, hung in keyed), findings


def _wall_rank(surface: Surface) -> tuple[int, int]:
    return (-surface.width.sixtyfourths, surface.facing not in ("north", "south"))


def _days(house: House, choices: BoardChoices) -> tuple[dict[str, tuple[int, int]], tuple[Finding, ...]]:
    known = {room.name for room in house.rooms}
    days: dict[str, tuple[int, int]] = {}
    findings = []
    for number, day in enumerate(choices.days, start=1):
        for place, room in enumerate(day.rooms):
            if room not in known:
                findings.append(_unknown_room(room, sorted(known), f"hanging day {number}", day.where))
            elif room in days:
                findings.append(_twice(room, number, days[room][0], day.where))
            else:
                days[room] = (number, place)
    left = [room.name for room in house.rooms if room.name not in days]
    last = len(choices.days) + 1
    if left and choices.days:
        findings.append(_left_out(left, last, choices))
    days.update({name: (last, place) for place, name in enumerate(left)})
    return days, tuple(findings)


def _unknown_room(room: str, known: list[str], about: str, where: Where) -> Finding:
    return Finding(
        rule="boards.no-such-room",
        about=about,
        found=f"there is no room {room!r}.",
        expected=f"one of: {', '.join(known)}.",
        do="Correct the room's name.",
        where=where,
    )


def _twice(room: str, number: int, first: int, where: Where) -> Finding:
    return Finding(
        rule="boards.room-on-two-days",
        about=f"hanging day {number}",
        found=f"{room} already hangs on day {first}.",
        expected="every room on one day.",
        do=f"Take {room} off one of the days; day {first} was taken.",
        where=where,
        severity=Severity.ASK,
    )


def _left_out(rooms: list[str], day: int, choices: BoardChoices) -> Finding:
    return Finding(
        rule="boards.rooms-without-day",
        about="hanging days",
        found=f"no day is given for {', '.join(rooms)}.",
        expected="a day for every room.",
        do=f"They were put on a day of their own, day {day}.",
        where=choices.days[-1].where,
        severity=Severity.ASK,
    )


def corner_losses(order: tuple[HungSurface, ...], covers: dict[str, Cover]) -> dict[str, tuple[int, int]]:
    """Return what each wall surface loses to boards hung before it, at its left and its right end.

    At an inner corner the wall hung later butts to the boards of the earlier one and loses their
    thickness; at an outer corner it covers their edges and gains it (a negative loss) [1/64 in].
    All layers of a wall are counted as hung before the next wall.
    """
    walls = tuple(hung.surface for hung in order if hung.surface.kind is SurfaceKind.WALL)
    hung_at = {surface.id: n for n, surface in enumerate(walls)}
    losses = {surface.id: [0, 0] for surface in walls}
    for corner in corners(walls):
        left_first = hung_at[corner.left.id] < hung_at[corner.right.id]
        first, second = (corner.left, corner.right) if left_first else (corner.right, corner.left)
        thick = covers[first.id].total.sixtyfourths
        # The second surface loses at the end that stands in this corner.
        losses[second.id][0 if second is corner.right else 1] = thick if corner.inside else -thick
    return {surface_id: (left, right) for surface_id, (left, right) in losses.items()}
