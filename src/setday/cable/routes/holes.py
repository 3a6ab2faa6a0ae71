"""Holes: which members the runs are bored through, how the runs share the holes, and where plates go."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from setday.cable.routes.bit import edge_wood, needs_plate, plate_beside
from setday.cable.routes.joists import joists_crossed
from setday.cable.routes.passages import Passages
from setday.cable.run import Cable, Hole, Medium, PlateNeed, RoutePoint
from setday.electric import bundled_ampacity, cable_kind, largest_breaker_a
from setday.house import MemberKind, Point
from setday.measure import Length

__all__ = ["Bore", "bores", "drilled", "plates_for"]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Bore:
    """One place where a way passes through a member; runs that share it lie side by side.

    Parameters
    ----------
    wall, room : str
        One of them is "": a joist has the room under it.
    up, along : Length
        On the wall's elevation; of a joist only its height.
    member_at : Length
        Middle of the member along the wall.
    member : str
        Kind of the member; "" for a joist.
    upright : bool
    plan : Point
    """

    wall: str
    room: str
    up: Length
    along: Length
    member_at: Length
    member: str
    upright: bool
    plan: Point


def bores(points: Sequence[RoutePoint], passages: Passages) -> tuple[Bore, ...]:
    """Return the members a way is bored through, in order from its start."""
    found: list[Bore] = []
    for a, b in pairwise(points):
        if a.wall and a.wall == b.wall:
            found += _in_wall(a, b, passages)
        elif a.medium is b.medium is Medium.CEILING and passages.rules.joists:
            found += _in_joists(a, b, passages)
    return tuple(dict.fromkeys(found))


def _in_wall(a: RoutePoint, b: RoutePoint, passages: Passages) -> list[Bore]:
    ways = passages.ways_of(a.wall)
    if a.along == b.along:
        low, high = sorted((a.up.sixtyfourths, b.up.sixtyfourths))
        return [
            Bore(
                wall=a.wall,
                room="",
                up=(plate.bottom + plate.top_left) // 2,
                along=a.along,
                member_at=a.along,
                member=plate.kind.value,
                upright=True,
                plan=a.plan,
            )
            for plate in ways.plates_between(a.along.sixtyfourths, low, high)
        ]
    members = ways.bored(a.along.sixtyfourths, b.along.sixtyfourths, up=a.up.sixtyfourths)
    forward = b.along > a.along
    return [
        Bore(
            wall=a.wall,
            room="",
            up=a.up,
            along=member.center,
            member_at=member.center,
            member=member.kind.value,
            upright=False,
            plan=_plan(ways.plan(member.center.sixtyfourths)),
        )
        for member in sorted(members, key=lambda m: m.center, reverse=not forward)
    ]


def _in_joists(a: RoutePoint, b: RoutePoint, passages: Passages) -> list[Bore]:
    middle = Length(passages.rules.joist_depth // 2)
    return [
        Bore(
            wall="",
            room=room,
            up=a.up + middle,
            along=Length(0),
            member_at=Length(0),
            member="",
            upright=False,
            plan=plan,
        )
        for room, plan in joists_crossed(passages.house, a.plan, b.plan)
    ]


def _plan(at: tuple[int, int]) -> Point:
    return Point(x=Length(at[0]), y=Length(at[1]))


def drilled(wanted: Iterable[tuple[Cable, Sequence[Bore]]], passages: Passages) -> tuple[Hole, ...]:
    """Return the holes that all runs together take: so many cables to a hole, the holes one over another.

    Parameters
    ----------
    wanted : iterable of (Cable, sequence of Bore)
        Every run and what it is bored through.
    passages : Passages
    """
    through: dict[Bore, list[Cable]] = {}
    for cable, needed in wanted:
        for bore in needed:
            through.setdefault(bore, []).append(cable)
    return tuple(hole for bore in sorted(through) for hole in _shared(bore, through[bore], passages))


def _shared(bore: Bore, cables: list[Cable], passages: Passages) -> list[Hole]:
    rules = passages.rules
    depth = passages.ways_of(bore.wall).wall.kind.depth if bore.wall else Length(rules.joist_depth)
    apart = Length(rules.hole_apart)
    holes = []
    for n, together in enumerate(_bundles(cables, rules.cables_in_hole)):
        off = apart * ((n + 1) // 2 * (1 if n % 2 else -1))
        aside = bore.upright or not bore.wall
        holes.append(
            Hole(
                wall=bore.wall,
                room=bore.room,
                member=MemberKind(bore.member) if bore.member else None,
                member_at=bore.member_at,
                along=bore.along + off if aside else bore.along,
                up=bore.up if aside else bore.up + off,
                plan=bore.plan,
                upright=bore.upright,
                diameter=Length(rules.hole_diameter),
                edge=Length(edge_wood(rules.hole_diameter, depth.sixtyfourths)),
                runs=tuple(cable.number for cable in together),
                plated=bool(bore.wall)
                and needs_plate(rules.hole_diameter, depth.sixtyfourths, book=rules.book),
            )
        )
    return holes


def _bundles(cables: list[Cable], most: int) -> list[list[Cable]]:
    """Fill hole after hole, as long as the conductors keep the ampacity their breakers ask for."""
    bundles: list[list[Cable]] = []
    for cable in cables:
        if bundles and len(bundles[-1]) < most and _cool([*bundles[-1], cable]):
            bundles[-1].append(cable)
        else:
            bundles.append([cable])
    return bundles


def _cool(cables: list[Cable]) -> bool:
    """Tell whether every cable in one sealed hole still carries its largest breaker, NEC 334.80."""
    if len(cables) <= 2:
        return True
    kinds = [cable.kind for cable in cables]
    sizes = {cable_kind(kind).awg for kind in kinds}
    return all(bundled_ampacity([f"{awg}/2"] * len(kinds)).value >= largest_breaker_a(awg) for awg in sizes)


def plates_for(
    holes: Iterable[Hole],
    ways: Mapping[str, Sequence[RoutePoint]],
    cables: Mapping[str, Cable],
    passages: Passages,
) -> tuple[PlateNeed, ...]:
    """Return the steel plates: over holes near a face, and over cables that run along a shallow stud.

    Parameters
    ----------
    holes : iterable of Hole
    ways : mapping
        Points of every run, by its number.
    cables : mapping
        By run number.
    passages : Passages
    """
    least = passages.rules.book.length("cable.plate_edge")
    needs = [
        _plate(
            hole.wall, side, hole.along, hole.up, f"{hole.edge} of wood left, less than {least}", hole.runs
        )
        for hole in holes
        if hole.plated
        for side in ("left", "right")
    ]
    for number, points in ways.items():
        for a, b in pairwise(points):
            if not a.wall or a.wall != b.wall or a.along != b.along:
                continue
            depth = passages.ways_of(a.wall).wall.kind.depth
            short = plate_beside(cables[number].kind, depth, book=passages.rules.book)
            if short is not None:
                why = f"cable along a stud {short} from its face, less than {least}"
                middle = (a.up + b.up) // 2
                needs += [_plate(a.wall, side, a.along, middle, why, (number,)) for side in ("left", "right")]
    return tuple(needs)


def _plate(wall: str, side: str, along: Length, up: Length, why: str, runs: tuple[str, ...]) -> PlateNeed:
    return PlateNeed(wall=wall, side=side, along=along, up=up, why=why, runs=runs)
