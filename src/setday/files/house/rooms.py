"""Rooms, what is above them, and what is kept in them, as the core takes them."""

from setday.files.house.openings import held_to, wall_named
from setday.files.house.phrases import Tape
from setday.files.house.shape import HousePart
from setday.files.house.shape_rooms import BoxPart, CeilingPart, ReservedPart
from setday.files.house.taping import FACES, spot_point
from setday.files.house.unless_noted import UnlessNoted
from setday.files.house.walls import Walls
from setday.files.written.notebook import Names, Notebook
from setday.files.written.tree import Path
from setday.findings import Severity
from setday.house import (
    Axis,
    CeilingShape,
    FloorHole,
    Foundation,
    Point,
    Side,
    TypedCeiling,
    TypedDrop,
    TypedHatch,
    TypedReserve,
    TypedRoom,
    TypedWet,
)
from setday.measure import Length

__all__ = ["Rooms"]

_SHAPES = {
    "flat": CeilingShape.FLAT,
    "slope": CeilingShape.SLOPE,
    "vault": CeilingShape.VAULT,
    "scissors": CeilingShape.VAULT,
}
_ACROSS = {"east-west": "north-south", "north-south": "east-west"}
_TOWARD = {"north": "north-south", "south": "north-south", "east": "east-west", "west": "east-west"}
_ANY_WAY = "north-south"
"""Taken for the further checks where the way of the ceiling framing is missing, a problem by itself."""
Box = tuple[Point, Length, Length]


class Rooms:
    """The rooms of one file and everything that names a room.

    `names` are the rooms as written, also those with findings of their own.
    """

    def __init__(
        self, house: HousePart, walls: Walls, noted: UnlessNoted, notebook: Notebook, names: tuple[str, ...]
    ) -> None:
        self.house = house
        self.walls = walls
        self.noted = noted
        self.notebook = notebook
        self.names = Names(names)

    def rooms(self) -> tuple[TypedRoom, ...]:
        """Return the rooms with a point inside each."""
        found = []
        for name, part in (self.house.rooms or {}).items():
            at = spot_point(self.walls.plan, part.at, ("rooms", name, "at"))
            if at is not None:
                where = self.notebook.where(("rooms", name), at_key=True)
                found.append(TypedRoom(name=name, at=at, use=part.use or "", where=where))
        return tuple(found)

    def ceilings(self) -> tuple[TypedCeiling, ...]:
        """Return a ceiling for every room: its own, or the one that holds unless noted."""
        own = {}
        for written in self.house.ceilings or {}:
            room = self.room(written, ("ceilings", written), at_key=True)
            if room:
                own[room] = written
        return tuple(
            ceiling for room in self.house.rooms or {} if (ceiling := self._ceiling(room, own.get(room)))
        )

    def room(self, written: str, path: Path, *, at_key: bool = False) -> str | None:
        """Return the room meant, or None with a finding."""
        name = self.names.find(written)
        if name is None:
            found, expected, do = self.names.unknown(written, "room")
            self.notebook.find(
                path, rule="house.room-unknown", found=found, expected=expected, do=do, at_key=at_key
            )
        return name

    def _ceiling(self, room: str, written: str | None) -> TypedCeiling | None:
        path: Path = ("ceilings", written) if written else ("rooms", room)
        part = (self.house.ceilings or {})[written] if written else CeilingPart()
        height = part.height or self.noted.ceiling_height
        framing = part.framing or self.noted.ceiling_framing
        for value, what, key in (
            (height, "the height of its ceiling", "ceiling height"),
            (framing, "the way its ceiling framing runs", "ceiling framing"),
        ):
            if not value:
                self._missing(path, what, key)
        if height is None or not self._whole(part, path):
            return None
        self._ask_framing(part, framing, path)
        framing = framing or _ANY_WAY
        across = "x" if framing == "north-south" else "y"
        layout = self._across(part.first_member, across, (*path, "first member"))
        ridge = self._across(part.ridge, "x" if part.ridge_runs == "north-south" else "y", (*path, "ridge"))
        if (layout is None) != (part.first_member is None) or (ridge is None) != (part.ridge is None):
            return None
        return TypedCeiling(
            room=room,
            shape=_SHAPES[part.shape or "flat"],
            height=height,
            rise=part.rise or Length(0),
            low_side=Side(part.low_side) if part.low_side else None,
            ridge_runs=Axis(part.ridge_runs) if part.ridge_runs else None,
            ridge_at=ridge,
            framing_runs=Axis(framing),
            spacing=part.spacing or self.noted.ceiling_spacing,
            layout_at=layout,
            where=self.notebook.where(path, at_key=True),
        )

    def _across(self, tape: Tape | None, axis: str, path: Path) -> Length | None:
        return None if tape is None else self.walls.plan.coordinate(tape, axis, path)

    def _whole(self, part: CeilingPart, path: Path) -> bool:
        """Tell whether a ceiling has what its shape needs, and nothing its shape has no use for."""
        shape = part.shape or "flat"
        keys = {
            "low side": part.low_side,
            "ridge runs": part.ridge_runs,
            "ridge": part.ridge,
            "rise": part.rise,
        }
        needed = {
            "flat": set(),
            "slope": {"rise", "low side"},
            "vault": {"rise", "ridge runs", "ridge"},
            "scissors": {"rise", "ridge runs", "ridge"},
        }[shape]
        missing = [key for key in sorted(needed) if keys[key] is None]
        extra = [key for key, value in keys.items() if value is not None and key not in needed]
        for key in missing:
            self.notebook.find(
                path,
                rule="file.missing",
                found=f"a {shape} ceiling needs '{key}', which is not written.",
                expected=f"{', '.join(sorted(needed))}.",
                do=f"Add a line: {key}: ...",
                at_key=True,
            )
        for key in extra:
            self.notebook.find(
                (*path, key),
                rule="file.entry",
                found=f"a {shape} ceiling has no '{key}'.",
                expected="the shape first: slope, vault or scissors.",
                do="Write the shape, or take the line out.",
                at_key=True,
            )
        return not missing and not extra

    def _ask_framing(self, part: CeilingPart, framing: str, path: Path) -> None:
        """Ask about rafters or trusses that do not run with the slope."""
        if part.ridge_runs:
            slope, key = _ACROSS[part.ridge_runs], "ridge runs"
            told = f"the ridge of this {part.shape} runs {part.ridge_runs}"
        elif part.low_side:
            slope, key = _TOWARD[part.low_side], "low side"
            told = f"this ceiling slopes down to the {part.low_side}"
        else:
            return
        if not framing or framing == slope:
            return
        own: Path = (*path, "framing") if part.framing else ("unless noted", "ceiling framing")
        self.notebook.find(
            (*path, key),
            rule="house.framing-across-slope",
            found=f"{told}, and its framing runs {framing} (line {self.notebook.where(own).line}): across "
            "the slope.",
            expected=f"rafters or trusses that run with the slope, {slope}.",
            do=f"Write framing: {slope} for this ceiling, or turn the {'ridge' if part.ridge_runs else key}.",
            severity=Severity.ASK,
        )

    def _missing(self, path: Path, what: str, key: str) -> None:
        self.notebook.find(
            path,
            rule="file.missing",
            found=f"{what} is not written.",
            expected=f"{key}, under 'unless noted' for all rooms, or for this one under 'ceilings'.",
            do=f"Add {key} under 'unless noted'.",
            at_key=True,
        )

    def drops(self) -> tuple[TypedDrop, ...]:
        """Return the soffits."""
        found = []
        for name, part in (self.house.soffits or {}).items():
            path: Path = ("soffits", name)
            room, box = self.room(part.room, (*path, "room")), self._box(part, path)
            if room and box:
                where = self.notebook.where(path, at_key=True)
                corner, east, north = box
                found.append(
                    TypedDrop(
                        name=name,
                        room=room,
                        corner=corner,
                        east=east,
                        north=north,
                        bottom=part.bottom,
                        where=where,
                    )
                )
        return tuple(found)

    def hatches(self) -> tuple[TypedHatch, ...]:
        """Return the openings in ceilings."""
        found = []
        for name, part in (self.house.hatches or {}).items():
            path: Path = ("hatches", name)
            room, box = self.room(part.room, (*path, "room")), self._box(part, path)
            if room and box:
                corner, east, north = box
                where = self.notebook.where(path, at_key=True)
                found.append(
                    TypedHatch(name=name, room=room, corner=corner, east=east, north=north, where=where)
                )
        return tuple(found)

    def floor_holes(self) -> tuple[FloorHole, ...]:
        """Return the holes in the floor."""
        found = []
        for name, part in (self.house.floor_holes or {}).items():
            box = self._box(part, ("floor holes", name))
            if box:
                corner, east, north = box
                where = self.notebook.where(("floor holes", name), at_key=True)
                found.append(FloorHole(name=name, corner=corner, east=east, north=north, where=where))
        return tuple(found)

    def reserves(self) -> tuple[TypedReserve, ...]:
        """Return the spaces kept free."""
        found = (self._reserve(name, part) for name, part in (self.house.reserved or {}).items())
        return tuple(reserve for reserve in found if reserve)

    def _reserve(self, name: str, part: ReservedPart) -> TypedReserve | None:
        path: Path = ("reserved", name)
        box, bottom = self._box(part, path), part.bottom or Length(0)
        if not self._upright(bottom, part.top, path) or not box:
            return None
        return TypedReserve(
            name=name,
            trade=part.trade,
            corner=box[0],
            east=box[1],
            north=box[2],
            bottom=bottom,
            top=part.top,
            where=self.notebook.where(path, at_key=True),
        )

    def _upright(self, bottom: Length, top: Length, path: Path) -> bool:
        if bottom < top:
            return True
        self.notebook.find(
            (*path, "top"),
            rule="file.entry",
            found=f"its top at {top} is not above its bottom at {bottom}.",
            expected="a top above the bottom.",
            do="Check both heights.",
        )
        return False

    def wets(self) -> tuple[TypedWet, ...]:
        """Return the wet stretches, one for each wall they are on."""
        found = []
        for name, part in (self.house.wet_areas or {}).items():
            path: Path = ("wet areas", name)
            room, bottom = self.room(part.room, (*path, "room")), part.bottom or Length(0)
            upright = self._upright(bottom, part.top, path)
            for written, stretch in part.on.items():
                at: Path = (*path, "on", written)
                wall = wall_named(written, self.walls, at, self.notebook)
                held = held_to(stretch.start, self.walls, at, self.notebook)
                if room and wall and held and upright:
                    found.append(
                        TypedWet(
                            name=name,
                            wall=wall,
                            room=room,
                            measured_from=held.end,
                            distance=held.distance,
                            width=stretch.width,
                            bottom=bottom,
                            top=part.top,
                            board=part.board,
                            where=self.notebook.where(at, at_key=True),
                        )
                    )
        return tuple(found)

    def foundation(self) -> Foundation:
        """Return what waits at the far end."""
        part = self.house.foundation
        if part is None:
            return Foundation()
        where = self.notebook.where(("foundation",), at_key=True)
        return Foundation(kind=part.kind or "basement", panel_corner=part.panel_corner or "", where=where)

    def _box(self, part: BoxPart, path: Path) -> Box | None:
        east = self._extent("x", part.west_side, part.east_side, part.east_west, path)
        north = self._extent("y", part.south_side, part.north_side, part.north_south, path)
        if east is None or north is None:
            return None
        return Point(x=east[0], y=north[0]), east[1], north[1]

    def _extent(
        self, axis: str, low: Tape | None, high: Tape | None, size: Length | None, path: Path
    ) -> tuple[Length, Length] | None:
        """Return where a box begins along an axis, and how far it reaches."""
        sides, size_key = FACES[axis], "east-west" if axis == "x" else "north-south"
        if sum(each is not None for each in (low, high, size)) != 2:
            how = "twice" if low and high and size else "not wholly"
            self.notebook.find(
                path,
                rule="file.missing",
                found=f"its place from {sides[0]} to {sides[1]} is written {how}.",
                expected=f"two of: {sides[0]} side, {sides[1]} side, {size_key}.",
                do=f"Write one side and {size_key}, or both sides.",
                at_key=True,
            )
            return None
        plan = self.walls.plan
        start = plan.coordinate(low, axis, (*path, f"{sides[0]} side"), inside=sides[1]) if low else None
        end = plan.coordinate(high, axis, (*path, f"{sides[1]} side"), inside=sides[0]) if high else None
        if (low and start is None) or (high and end is None):
            return None
        if start is None and end is not None and size:
            start = end - size
        if start is None:
            return None
        reach = size or ((end - start) if end is not None else Length(0))
        if reach.sixtyfourths <= 0:
            self.notebook.find(
                path,
                rule="file.entry",
                found=f"its {sides[1]} side is not {sides[1]} of its {sides[0]} side.",
                expected="a box wider than nothing.",
                do="Check both sides.",
                at_key=True,
            )
            return None
        return start, reach
