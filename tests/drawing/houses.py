"""A tiny house put together by hand: two rooms, a closet and a loft room, all invented."""

from collections.abc import Sequence

from setday.house import (
    Axis,
    Backing,
    CeilingShape,
    FloorHole,
    FramingMember,
    House,
    HouseDescription,
    MemberKind,
    Opening,
    OpeningKind,
    Point,
    Room,
    Span,
    Surface,
    SurfaceKind,
    SurfaceOpening,
    TypedCeiling,
    TypedDrop,
    TypedHatch,
    TypedReserve,
    Wall,
    WallKind,
    WetPatch,
)
from setday.measure import Area, Length

__all__ = ["inch", "tiny_house"]


def inch(value: float) -> Length:
    return Length.of(inches=value)


def at(x: float, y: float) -> Point:
    return Point(x=inch(x), y=inch(y))


OUTSIDE = WallKind(name="outside", depth=inch(3.5), outside=True, bearing=True, spacing=inch(16))
INSIDE = WallKind(name="inside", depth=inch(3.5), outside=False, bearing=False, spacing=inch(16))


def opening(
    name: str, kind: OpeningKind, along: float, size: tuple[float, float], sill: float = 0
) -> Opening:
    return Opening(
        name=name, kind=kind, along=inch(along), width=inch(size[0]), height=inch(size[1]), sill=inch(sill)
    )


def member(kind: MemberKind, left: float, right: float, bottom: float, top: float) -> FramingMember:
    return FramingMember(
        kind=kind,
        left=inch(left),
        right=inch(right),
        bottom=inch(bottom),
        top_left=inch(top),
        top_right=inch(top),
    )


def framing(length: float, height: float, openings: Sequence[Opening]) -> tuple[FramingMember, ...]:
    """Plates, studs 16 inches on center from the start, and what an opening takes."""
    members = [
        member(MemberKind.BOTTOM_PLATE, 0, length, 0, 1.5),
        member(MemberKind.TOP_PLATE, 0, length, height - 3, height - 1.5),
        member(MemberKind.TOP_PLATE, 0, length, height - 1.5, height),
        member(MemberKind.END_STUD, 0, 1.5, 1.5, height - 3),
        member(MemberKind.END_STUD, length - 1.5, length, 1.5, height - 3),
    ]
    for hole in openings:
        members += _around(hole, height)
    center = 16.0
    while center < length - 2.5:
        inside = [
            hole
            for hole in openings
            if hole.along.inches - 3 < center < hole.along.inches + hole.width.inches + 3
        ]
        if not inside:
            members.append(member(MemberKind.STUD, center - 0.75, center + 0.75, 1.5, height - 3))
        elif inside[0].along.inches < center < inside[0].along.inches + inside[0].width.inches:
            members.append(
                member(
                    MemberKind.CRIPPLE, center - 0.75, center + 0.75, inside[0].head.inches + 7.25, height - 3
                )
            )
            if inside[0].sill.inches > 3:
                members.append(
                    member(MemberKind.CRIPPLE, center - 0.75, center + 0.75, 1.5, inside[0].sill.inches - 1.5)
                )
        center += 16
    return tuple(sorted(members, key=lambda m: (m.left, m.bottom)))


def _around(hole: Opening, height: float) -> list[FramingMember]:
    left, right = hole.along.inches, hole.along.inches + hole.width.inches
    head, sill = hole.head.inches, hole.sill.inches
    members = [
        member(MemberKind.KING, left - 3, left - 1.5, 1.5, height - 3),
        member(MemberKind.JACK, left - 1.5, left, 1.5, head),
        member(MemberKind.JACK, right, right + 1.5, 1.5, head),
        member(MemberKind.KING, right + 1.5, right + 3, 1.5, height - 3),
        member(MemberKind.HEADER, left - 1.5, right + 1.5, head, head + 7.25),
    ]
    if sill:
        members.append(member(MemberKind.SILL, left, right, sill - 1.5, sill))
    return members


def wall(
    name: str,
    kind: WallKind,
    ends: tuple[Point, Point],
    openings: Sequence[Opening] = (),
    height: float = 97.125,
) -> Wall:
    (start, end) = ends
    length = max(abs(end.x - start.x), abs(end.y - start.y))
    return Wall(
        name=name,
        kind=kind,
        start=start,
        end=end,
        length=length,
        top=((inch(0), inch(height)), (length, inch(height))),
        spacing=kind.spacing,
        openings=tuple(openings),
        members=framing(length.inches, height, openings),
    )


def _walls() -> tuple[Wall, ...]:
    door, window = OpeningKind.DOOR, OpeningKind.WINDOW
    return (
        wall(
            "south",
            OUTSIDE,
            (at(0, 1.75), at(312, 1.75)),
            [
                opening("front door", door, 40, (38.5, 82.5)),
                opening("wide window", window, 210, (60, 48), 34),
            ],
        ),
        wall(
            "east",
            OUTSIDE,
            (at(310.25, 3.5), at(310.25, 188.5)),
            [opening("bed <E>", window, 60, (36, 48), 34)],
        ),
        wall(
            "north",
            OUTSIDE,
            (at(312, 190.25), at(0, 190.25)),
            [
                opening("bath window", window, 40, (24, 24), 58),
                opening("north window", window, 200, (48, 48), 34),
            ],
        ),
        wall("west", OUTSIDE, (at(1.75, 188.5), at(1.75, 3.5))),
        wall(
            "middle",
            INSIDE,
            (at(180, 3.5), at(180, 188.5)),
            [opening("bedroom door", door, 70, (32.5, 82.5))],
        ),
        wall(
            "bath south",
            INSIDE,
            (at(181.75, 120), at(308.5, 120)),
            [opening("bath door", door, 12, (30.5, 82.5))],
        ),
        wall(
            "closet",
            INSIDE,
            (at(250, 121.75), at(250, 188.5)),
            [opening("arch", OpeningKind.CASED, 20, (26, 80))],
        ),
    )


def room(name: str, use: str, corners: Sequence[tuple[float, float]], surfaces: tuple[str, ...] = ()) -> Room:
    outline = tuple(at(x, y) for x, y in corners)
    return Room(
        name=name,
        use=use,
        outline=outline,
        holes=(),
        area=Area.polygon(tuple((p.x, p.y) for p in outline)),
        surfaces=surfaces,
    )


def box(x0: float, y0: float, x1: float, y1: float) -> tuple[tuple[float, float], ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _surface(surface_id: str, label: str, spans: tuple[Span, ...], size: tuple[float, float]) -> Surface:
    width, height = size
    return Surface(
        id=surface_id,
        label=label,
        room=surface_id.partition("/")[0],
        kind=SurfaceKind.WALL,
        facing=surface_id.partition("/")[2],
        outline=tuple((inch(x), inch(y)) for x, y in box(0, 0, width, height)),
        openings=(
            SurfaceOpening(
                name="wide window", kind="window", x=inch(28.25), y=inch(34), w=inch(60), h=inch(48)
            ),
        ),
        wet=(WetPatch(name="tub", board="none", x=inch(100), y=inch(0), w=inch(26.75), h=inch(60)),),
        backing=tuple(
            Backing(kind="stud", x=inch(x), width=inch(1.5), y_low=inch(1.5), y_high=inch(94.125))
            for x in (0.75, 10.25, 26.25, 58.25, 90.25, 106.25, 126)
        ),
        member_spacing=inch(16),
        spans=spans,
    )


def _ceiling(
    surface_id: str, label: str, box_in: tuple[float, float, float, float], spacing: float
) -> Surface:
    """A flat ceiling with its framing north to south; seen from below, west is at the right."""
    west, south, east, north = box_in
    width, height = east - west, north - south
    centers = [spacing * (i + 1) for i in range(int(width // spacing))]
    return Surface(
        id=surface_id,
        label=label,
        room=surface_id.partition("/")[0],
        kind=SurfaceKind.CEILING,
        facing="up",
        outline=tuple((inch(x), inch(y)) for x, y in box(0, 0, width, height)),
        openings=(),
        wet=(),
        backing=tuple(
            Backing(kind="joist", x=inch(x), width=inch(1.5), y_low=inch(0), y_high=inch(height))
            for x in centers
        ),
        member_spacing=inch(spacing),
        plan_origin=(east, south),
        plan_x=(-1.0, 0.0),
        plan_y=(0.0, 1.0),
    )


def _ceilings() -> tuple[Surface, ...]:
    return (
        _ceiling("living/ceiling-south", "living, south slope of the ceiling", (3.5, 3.5, 178.25, 96), 24),
        _ceiling("living/ceiling-north", "living, north slope of the ceiling", (3.5, 96, 178.25, 188.5), 24),
        _ceiling("bedroom/ceiling", "bedroom, ceiling", (181.75, 3.5, 308.5, 118.25), 16),
        _ceiling("bath/ceiling", "bath, ceiling", (181.75, 121.75, 248.25, 188.5), 16),
    )


def _rooms() -> tuple[Room, ...]:
    return (
        room("living", "living", box(3.5, 3.5, 178.25, 188.5), ("living/south",)),
        room("bedroom", "bedroom", box(181.75, 3.5, 308.5, 118.25), ("bedroom/south",)),
        room("bath", "bath", box(181.75, 121.75, 248.25, 188.5)),
        room("linen & coats", "closet", box(251.75, 121.75, 308.5, 188.5)),
    )


def _description(name: str) -> HouseDescription:
    ceilings = (
        TypedCeiling(
            room="living",
            shape=CeilingShape.VAULT,
            height=inch(97.125),
            rise=inch(3),
            ridge_runs=Axis.EAST_WEST,
            ridge_at=inch(96),
            framing_runs=Axis.NORTH_SOUTH,
            spacing=inch(24),
        ),
        *(
            TypedCeiling(
                room=name,
                shape=CeilingShape.FLAT,
                height=inch(97.125),
                framing_runs=Axis.NORTH_SOUTH,
                spacing=inch(16),
            )
            for name in ("bedroom", "bath", "linen & coats")
        ),
    )
    return HouseDescription(
        name=name,
        kinds=(OUTSIDE, INSIDE),
        walls=(),
        ceilings=ceilings,
        drops=(
            TypedDrop(
                name="soffit",
                room="living",
                corner=at(3.5, 160),
                east=inch(110),
                north=inch(28.5),
                bottom=inch(84),
            ),
        ),
        hatches=(
            TypedHatch(
                name="attic hatch", room="bedroom", corner=at(270, 20), east=inch(30), north=inch(22.5)
            ),
        ),
    )


def tiny_house(name: str = "Practice cottage") -> House:
    """A house of 26 x 16 ft with every thing a plan shows."""
    span = Span(wall="south", side="left", x=inch(0), width=inch(126.75), along=inch(308.5), forward=False)
    return House(
        name=name,
        description=_description(name),
        walls=_walls(),
        rooms=_rooms(),
        surfaces=(_surface("bedroom/south", "bedroom, south wall", (span,), (126.75, 97.125)), *_ceilings()),
        footprint=(
            tuple(at(x, y) for x, y in box(0, 0, 312, 192)),
            *(tuple(reversed(room.outline)) for room in _rooms()),
        ),
        joists_run={"living": Axis.NORTH_SOUTH},
        floor_holes=(FloorHole(name="stair hole", corner=at(20, 60), east=inch(36), north=inch(80)),),
        reserves=(
            TypedReserve(
                name="stack",
                trade="drains",
                corner=at(182, 130),
                east=inch(8),
                north=inch(30),
                bottom=inch(0),
                top=inch(97),
            ),
        ),
    )
