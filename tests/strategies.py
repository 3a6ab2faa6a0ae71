"""What hypothesis draws: valid houses and the parts they are made of."""

from dataclasses import replace
from typing import TypeVar

from hypothesis import strategies as st

from setday.boards import BoardChoice, BoardChoices, CarryIn, HangDay, OffcutUse, Rows
from setday.house import (
    Axis,
    CeilingShape,
    DeviceKind,
    FloorHole,
    Foundation,
    FramingChange,
    HouseDescription,
    Mount,
    OpeningKind,
    Point,
    Side,
    TypedCeiling,
    TypedCircuit,
    TypedCounter,
    TypedDevice,
    TypedDrop,
    TypedHatch,
    TypedOpening,
    TypedReserve,
    TypedRoom,
    TypedWall,
    TypedWet,
    TypedWiring,
    WallKind,
    WallLine,
)
from setday.measure import Length
from setday.rules import LocalRules

Drawn = TypeVar("Drawn")
FOOT, INCH = 768, 64
COMPASS = ("north", "south", "east", "west")
MEMBERS = ("stud", "end stud", "corner backer", "partition backer", "king stud", "jack stud", "cripple")


def lengths(low: int = 1, high: int = 40 * FOOT) -> st.SearchStrategy[Length]:
    """Draw lengths of `low` to `high` sixty-fourths of an inch."""
    return st.integers(low, high).map(Length)


def names() -> st.SearchStrategy[str]:
    """Draw names as people give them: one to three plain words."""
    word = st.text("abcdefghijklmnoprstuvwy", min_size=2, max_size=7)
    return st.lists(word, min_size=1, max_size=3).map(" ".join)


def free_texts() -> st.SearchStrategy[str]:
    """Draw any visible text, with the signs that mean something to YAML."""
    visible = st.characters(categories=("L", "N", "P", "S"))
    return st.text(visible | st.sampled_from(" #:'\"{}[],&*!|>%@`-?"), min_size=1, max_size=30).map(
        lambda text: " ".join(text.split()) or "x"
    )


def points() -> st.SearchStrategy[Point]:
    """Draw plan points within a lot."""
    place = lengths(-20 * FOOT, 80 * FOOT)
    return st.builds(Point, x=place, y=place)


def several(strategy: st.SearchStrategy[Drawn], most: int) -> st.SearchStrategy[tuple[Drawn, ...]]:
    """Draw a tuple of up to `most`."""
    return st.lists(strategy, max_size=most).map(tuple)


def unlike(count: int) -> st.SearchStrategy[list[str]]:
    """Draw names that no reader would take for one another."""
    return st.lists(
        names(),
        min_size=count,
        max_size=count,
        unique_by=lambda name: name.removesuffix(" wall"),
    )


def wall_kinds(name: str) -> st.SearchStrategy[WallKind]:
    """Draw a build-up of wall."""
    return st.builds(
        WallKind,
        name=st.just(name),
        depth=lengths(INCH, 12 * INCH),
        outside=st.booleans(),
        bearing=st.booleans(),
        spacing=lengths(8 * INCH, 48 * INCH),
        plates_below=st.integers(1, 4),
        plates_above=st.integers(1, 4),
    )


@st.composite
def framing_changes(draw: st.DrawFn) -> FramingChange:
    """Draw something that was built otherwise."""
    do = draw(st.sampled_from(("add", "remove", "move")))
    return FramingChange(
        do=do,
        member=draw(st.sampled_from(MEMBERS)),
        at=draw(lengths()),
        to=draw(lengths()) if do == "move" else None,
    )


@st.composite
def typed_walls(draw: st.DrawFn, name: str, kinds: tuple[WallKind, ...]) -> TypedWall:
    """Draw a wall by two points, its top level or sloping."""
    start = draw(points())
    run = draw(lengths(4 * FOOT))
    end = Point(x=start.x + run, y=start.y) if draw(st.booleans()) else Point(x=start.x, y=start.y - run)
    height, kind = draw(lengths(FOOT, 20 * FOOT)), draw(st.sampled_from(kinds))
    spacing = draw(st.none() | lengths(8 * INCH, 48 * INCH))
    top = ((Length(0), height), (run // 2, draw(lengths(FOOT, 20 * FOOT))), (run, height))
    return TypedWall(
        name=name,
        kind=kind.name,
        start=start,
        end=end,
        line=draw(st.sampled_from(WallLine)),
        height=height,
        gable=draw(st.sampled_from(((), top))),
        spacing=spacing,
        layout_from_end=draw(st.booleans()),
        layout_offset=draw(lengths(1 - (spacing or kind.spacing).sixtyfourths, 24 * INCH)),
        changes=draw(several(framing_changes(), 2)),
    )


@st.composite
def typed_openings(draw: st.DrawFn, name: str, walls: tuple[str, ...]) -> TypedOpening:
    """Draw an opening by its rough size and its place along a wall."""
    held = draw(st.sampled_from((*COMPASS, "start", "end", *walls)))
    return TypedOpening(
        name=name,
        wall=draw(st.sampled_from(walls)),
        kind=draw(st.sampled_from(OpeningKind)),
        width=draw(lengths(FOOT, 12 * FOOT)),
        height=draw(lengths(FOOT, 8 * FOOT)),
        sill=draw(lengths(0, 5 * FOOT)),
        measured_from=held,
        distance=draw(lengths(0)),
        to_center=draw(st.booleans()),
        going=draw(st.sampled_from(("", *COMPASS))) if held in walls else "",
        jacks=draw(st.integers(0, 6)),
        header_depth=draw(st.none() | lengths(INCH, 20 * INCH)),
    )


@st.composite
def typed_ceilings(draw: st.DrawFn, room: str) -> TypedCeiling:
    """Draw a ceiling of any shape."""
    shape = draw(st.sampled_from(CeilingShape))
    vault = shape is CeilingShape.VAULT
    return TypedCeiling(
        room=room,
        shape=shape,
        height=draw(lengths(6 * FOOT, 20 * FOOT)),
        rise=Length(0) if shape is CeilingShape.FLAT else draw(lengths(1, 12 * INCH)),
        low_side=draw(st.sampled_from(Side)) if shape is CeilingShape.SLOPE else None,
        ridge_runs=draw(st.sampled_from(Axis)) if vault else None,
        ridge_at=draw(lengths(0)) if vault else None,
        framing_runs=draw(st.sampled_from(Axis)),
        spacing=draw(lengths(8 * INCH, 48 * INCH)),
        layout_at=draw(st.none() | lengths(0)),
    )


def _box() -> dict[str, st.SearchStrategy[object]]:
    return {"corner": points(), "east": lengths(), "north": lengths()}


def _reserves() -> st.SearchStrategy[TypedReserve]:
    heights = {"bottom": lengths(0, 3 * FOOT), "top": lengths(4 * FOOT, 9 * FOOT)}
    return st.builds(TypedReserve, name=names(), trade=free_texts(), **_box(), **heights)


@st.composite
def _counters(draw: st.DrawFn, walls: tuple[str, ...], rooms: tuple[str, ...]) -> TypedCounter:
    """Draw a counter against a wall, or an island."""
    plain = TypedCounter(
        name=draw(names()),
        room=draw(st.sampled_from(rooms)),
        width=draw(lengths(INCH)),
        depth=draw(lengths(INCH, 5 * FOOT)),
        top=draw(lengths(INCH, 5 * FOOT)),
    )
    if draw(st.booleans()):
        return plain
    return replace(
        plain,
        wall=draw(st.sampled_from(walls)),
        measured_from=draw(st.sampled_from((*COMPASS, *walls))),
        distance=draw(lengths(0)),
    )


@st.composite
def _wets(draw: st.DrawFn, walls: tuple[str, ...], rooms: tuple[str, ...]) -> TypedWet:
    return TypedWet(
        name=draw(names()),
        wall=draw(st.sampled_from(walls)),
        room=draw(st.sampled_from(rooms)),
        measured_from=draw(st.sampled_from((*COMPASS, *walls))),
        distance=draw(lengths(0)),
        width=draw(lengths()),
        bottom=draw(lengths(0, 2 * FOOT)),
        top=draw(lengths(3 * FOOT, 9 * FOOT)),
        board=draw(st.sampled_from(("none", "wet-area"))),
    )


_WHAT = {
    DeviceKind.RECEPTACLE: ("", "counter", "outdoor"),
    DeviceKind.SWITCH: ("", "dimmer"),
    DeviceKind.LIGHT: ("", "mirror"),
    DeviceKind.FAN: ("bath fan", "ceiling fan"),
    DeviceKind.ALARM: ("smoke alarm", "carbon monoxide alarm"),
    DeviceKind.APPLIANCE: ("range", "dryer", "water heater"),
    DeviceKind.JUNCTION: ("",),
}


@st.composite
def typed_devices(draw: st.DrawFn, name: str, description: HouseDescription) -> TypedDevice:
    """Draw a device of any kind on a wall, a ceiling or in a floor, somewhere or nowhere."""
    kind = draw(st.sampled_from(DeviceKind))
    room = draw(st.sampled_from([each.name for each in description.rooms]))
    walls = [each.name for each in description.walls]
    openings = [each.name for each in description.openings]
    plain = {
        "name": name,
        "kind": kind,
        "what": draw(st.sampled_from(_WHAT[kind])),
        "gangs": draw(st.integers(1, 4)),
        "box": draw(st.sampled_from(("", "door box"))),
        "serves": (name,) if kind is DeviceKind.SWITCH and draw(st.booleans()) else (),
        "half_switched": draw(st.booleans()),
        "volts": draw(st.sampled_from((120, 240))),
        "load": draw(st.none() | st.integers(1, 20000)),
    }
    mount = draw(st.sampled_from(Mount))
    if mount is not Mount.WALL:
        point = draw(st.none() | points())
        up = draw(lengths(0, FOOT)) if mount is Mount.FLOOR else Length(0)
        return TypedDevice(mount=mount, room=room, side="", point=point, up=up, **plain)
    held = draw(st.sampled_from(("", "end", *COMPASS, *walls, *openings)))
    return TypedDevice(
        mount=mount,
        room=draw(st.sampled_from(("", room))),
        wall=draw(st.sampled_from(walls)),
        side=draw(st.sampled_from(("", "left", "right"))),
        along=draw(lengths(0)),
        measured_from=held,
        going=draw(st.sampled_from(("", *COMPASS))) if held in openings else "",
        up=draw(lengths(0, 8 * FOOT)),
        **plain,
    )


@st.composite
def typed_circuits(draw: st.DrawFn, name: str, devices: tuple[str, ...]) -> TypedCircuit:
    """Draw a circuit of some devices."""
    on = st.lists(st.sampled_from(devices), unique=True) if devices else st.just([])
    return TypedCircuit(
        name=name,
        use=draw(st.sampled_from(("general", "small appliance", "individual"))),
        breaker=draw(st.sampled_from((15, 20, 30, 50))),
        volts=draw(st.sampled_from((120, 240))),
        wire=draw(st.none() | st.sampled_from((14, 12, 10, 6))),
        devices=tuple(draw(on)),
        ordered=draw(st.booleans()),
    )


@st.composite
def wired_descriptions(draw: st.DrawFn) -> HouseDescription:
    """Draw a house with devices, circuits and wiring."""
    description = draw(descriptions())
    named = tuple(draw(unlike(draw(st.integers(0, 4)))))
    devices = tuple(draw(typed_devices(name, description)) for name in named)
    wiring = st.builds(
        TypedWiring,
        panel=st.none() | points(),
        set_slack=st.none() | lengths(),
        rating=st.sampled_from((100, 200)),
        spaces=st.integers(2, 84),
        hole_height=st.none() | lengths(),
        closed_walls=st.sampled_from(((), (description.walls[0].name,))),
    )
    return replace(
        description,
        devices=devices,
        circuits=tuple(draw(typed_circuits(name, named)) for name in draw(unlike(2))),
        wiring=draw(wiring),
    )


@st.composite
def descriptions(draw: st.DrawFn) -> HouseDescription:
    """Draw everything a house file can say; the parts need not fit each other on the plan."""
    kind_names, wall_names = draw(unlike(draw(st.integers(1, 3)))), draw(unlike(draw(st.integers(1, 5))))
    kinds = tuple(draw(wall_kinds(name)) for name in kind_names)
    rooms, walls = tuple(draw(unlike(draw(st.integers(1, 3))))), tuple(wall_names)
    by_name = {"unique_by": lambda entry: entry.name}
    a_room = st.sampled_from(rooms)
    drops = st.builds(TypedDrop, name=names(), room=a_room, bottom=lengths(6 * FOOT, 9 * FOOT), **_box())
    hatches = st.builds(TypedHatch, name=names(), room=a_room, **_box())
    return HouseDescription(
        name=draw(free_texts()),
        kinds=kinds,
        walls=tuple(draw(typed_walls(name, kinds)) for name in walls),
        openings=tuple(draw(typed_openings(name, walls)) for name in draw(unlike(draw(st.integers(0, 3))))),
        rooms=tuple(TypedRoom(name=n, at=draw(points()), use=draw(free_texts())) for n in rooms),
        ceilings=tuple(draw(typed_ceilings(room)) for room in rooms),
        drops=tuple(draw(st.lists(drops, max_size=2, **by_name))),
        hatches=tuple(draw(st.lists(hatches, max_size=2, **by_name))),
        wets=tuple(draw(st.lists(_wets(walls, rooms), max_size=2, **by_name))),
        counters=tuple(draw(st.lists(_counters(walls, rooms), max_size=2, **by_name))),
        floor_holes=tuple(
            draw(st.lists(st.builds(FloorHole, name=names(), **_box()), max_size=2, **by_name))
        ),
        reserves=tuple(draw(st.lists(_reserves(), max_size=2, **by_name))),
        foundation=draw(
            st.builds(
                Foundation,
                kind=st.sampled_from(("basement", "crawl space", "slab")),
                panel_corner=st.sampled_from(("", "northeast", "southwest")),
            )
        ),
    )


@st.composite
def board_choices(draw: st.DrawFn, rooms: tuple[str, ...]) -> BoardChoices:
    """Draw what an instructor may choose about boards."""
    choice = st.builds(
        BoardChoice,
        room=st.sampled_from(("", *rooms)),
        on=st.sampled_from(("", "walls", "ceilings", f"{rooms[0]}/north")),
        kind=st.sampled_from(("regular", "sag-resistant", "wet-area")),
        thickness=st.none() | st.sampled_from((Length(24), Length(32), Length(40))),
        layers=st.none() | st.integers(0, 2),
        rows=st.none() | st.sampled_from(Rows),
    )
    carry = st.lists(st.sampled_from(rooms), unique=True)
    return BoardChoices(
        choices=draw(several(choice, 3)),
        carry_in=tuple(CarryIn(room=room, longest=draw(lengths())) for room in draw(carry)),
        days=tuple(HangDay(rooms=(room,)) for room in draw(carry)),
        offcuts=draw(st.none() | st.sampled_from(OffcutUse)),
        class_factor=draw(st.integers(10, 200)) / 10,
    )


def local_rules() -> st.SearchStrategy[LocalRules]:
    """Draw rules set for one house, some with who said so."""
    keys = st.sampled_from(("boards.stagger", "boards.least_piece", "boards.rows"))
    values = st.dictionaries(keys, free_texts(), max_size=3)
    return values.flatmap(
        lambda said: st.builds(
            LocalRules,
            values=st.just(said),
            reasons=st.dictionaries(st.sampled_from(sorted(said)), free_texts()) if said else st.just({}),
        )
    )
