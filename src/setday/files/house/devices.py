"""Devices, circuits and wiring of a house file, as the core takes them."""

from dataclasses import replace

from setday.files.house.electrical import unknown_device
from setday.files.house.openings import wall_named
from setday.files.house.phrases import FromEnd, Spot
from setday.files.house.rooms import Rooms
from setday.files.house.shape import HousePart
from setday.files.house.shape_devices import CircuitPart, DevicePart
from setday.files.house.taping import spot_point
from setday.files.house.unless_noted import UnlessNoted
from setday.files.house.walls import Walls
from setday.files.written.notebook import Names, Notebook
from setday.files.written.tree import Path
from setday.house import DeviceKind, Mount, Point, TypedCircuit, TypedDevice, TypedWiring
from setday.measure import ZERO, Length

__all__ = ["Electrical"]

_WORDS = {"north", "south", "east", "west", "start", "end"}
_OUTDOORS = "outdoors"


class Electrical:
    """The devices, circuits and wiring of one file.

    `names` are the devices as written, also those with findings of their own.
    """

    def __init__(
        self,
        house: HousePart,
        walls: Walls,
        rooms: Rooms,
        noted: UnlessNoted,
        notebook: Notebook,
        names: tuple[str, ...],
    ) -> None:
        self.house = house
        self.walls = walls
        self.rooms = rooms
        self.noted = noted
        self.notebook = notebook
        self.names = Names(names)
        self.openings = Names(house.openings or {})
        self.circuit_names = Names(house.circuits or {})

    def devices(self) -> tuple[TypedDevice, ...]:
        """Return the devices that could be read."""
        placed: dict[str, TypedDevice] = {}
        found: list[TypedDevice] = []
        for name, part in (self.house.devices or {}).items():
            device = self._device(name, part, placed)
            if device is not None:
                found.append(device)
                if device.box:
                    placed.setdefault(device.box, device)
        return tuple(found)

    def _device(self, name: str, part: DevicePart, placed: dict[str, TypedDevice]) -> TypedDevice | None:
        path: Path = ("devices", name)
        where = self.notebook.where(path, at_key=True)
        plain = TypedDevice(
            name=name,
            kind=part.is_.kind,
            what=part.is_.what,
            side="",
            gangs=part.gangs or 1,
            box=part.box or "",
            serves=tuple(self.names.find(each) or each for each in part.serves or ()),
            half_switched=bool(part.half_switched),
            volts=part.volts or 120,
            load=part.load,
            circuit=(self.circuit_names.find(part.circuit) or part.circuit) if part.circuit else "",
            where=where,
        )
        known = self._known(part, path)
        if not (part.wall or _overhead(part)) and plain.box in placed:
            return _beside(plain, placed[plain.box])
        stands = self._placed(plain, part, path)
        return stands if known else None

    def _known(self, part: DevicePart, path: Path) -> bool:
        """Tell whether it is known what an appliance is, or at least what it draws."""
        if part.is_.known or part.load:
            return True
        found, expected, do = unknown_device(part.is_.what or "appliance")
        self.notebook.find((*path, "is"), rule="file.entry", found=found, expected=expected, do=do)
        return False

    def _placed(self, plain: TypedDevice, part: DevicePart, path: Path) -> TypedDevice | None:
        given = [key for key in ("wall", "ceiling", "floor") if key in part.model_fields_set]
        if len(given) != 1:
            self._missing(
                path,
                "it is not written where it is." if not given else "it is written in more than one place.",
                "one of wall, ceiling or floor; or box, where another device says where the box is.",
                "Write one line like: wall: north wall; or: ceiling: middle.",
            )
            return None
        room = self._room(part, path)
        if room is None:
            return None
        if given[0] == "wall":
            return self._on_wall(replace(plain, room=room), part, path)
        return self._level(replace(plain, room=room), given[0], part, path)

    def _room(self, part: DevicePart, path: Path) -> str | None:
        if part.room is None:
            self._missing(
                path, "its room is not written.", "the room it faces, or outdoors.", "Add a line: room: ..."
            )
            return None
        if part.room.lower() == _OUTDOORS and self.rooms.names.find(part.room) is None:
            return ""
        return self.rooms.room(part.room, (*path, "room"))

    def _on_wall(self, plain: TypedDevice, part: DevicePart, path: Path) -> TypedDevice | None:
        wall = wall_named(part.wall or "", self.walls, (*path, "wall"), self.notebook)
        held = self._held(part.center, path)
        up = self._up(plain, part, path)
        if wall is None or held is None or up is None:
            return None
        return replace(
            plain,
            mount=Mount.WALL,
            wall=wall,
            side=part.side or "",
            along=held.distance,
            measured_from="" if held.end == "start" else held.end,
            going=held.going,
            up=up,
        )

    def _held(self, held: FromEnd | None, path: Path) -> FromEnd | None:
        if held is None:
            self._missing(
                path,
                "its place along the wall is not written.",
                "center, with where the tape was held.",
                "Add a line like: center: 4'-0\" from west end.",
            )
            return None
        if held.end in _WORDS:
            return held
        name = self.openings.find(held.end) or self.walls.names.find(held.end)
        if name is None:
            found, _, do = self.openings.unknown(held.end, "opening or wall")
            self.notebook.find(
                (*path, "center"),
                rule="device.from",
                found=found,
                expected="an end of the wall (like west), a wall that meets it, or an opening.",
                do=do,
            )
            return None
        return FromEnd(distance=held.distance, end=name, going=held.going)

    def _up(self, plain: TypedDevice, part: DevicePart, path: Path) -> Length | None:
        usual = {
            DeviceKind.RECEPTACLE: self.noted.receptacle_height,
            DeviceKind.SWITCH: self.noted.switch_height,
        }.get(plain.kind)
        if part.up is None and usual is None:
            self._missing(
                path,
                "its height is not written.",
                "up, the centre of its box above the subfloor.",
                "Add a line like: up: 6'-6\".",
            )
        return usual if part.up is None else part.up

    def _level(self, plain: TypedDevice, key: str, part: DevicePart, path: Path) -> TypedDevice | None:
        mount = Mount.CEILING if key == "ceiling" else Mount.FLOOR
        for other in ("center", "side"):
            if other in part.model_fields_set:
                self.notebook.find(
                    (*path, other),
                    rule="file.entry",
                    found=f"a device on the {key} has no '{other}'.",
                    expected=f"{key}: middle, or {key} with a point of the plan.",
                    do="Take it out.",
                    at_key=True,
                )
        spot = _overhead(part)
        point: Point | None = None
        if isinstance(spot, Spot):
            point = spot_point(self.walls.plan, spot, (*path, key))
            if point is None:
                return None
        up = part.up if part.up is not None and mount is Mount.FLOOR else ZERO
        return replace(plain, mount=mount, point=point, up=up)

    def _missing(self, path: Path, found: str, expected: str, do: str) -> None:
        self.notebook.find(path, rule="file.missing", found=found, expected=expected, do=do, at_key=True)

    def circuits(self) -> tuple[TypedCircuit, ...]:
        """Return the circuits."""
        return tuple(self._circuit(name, part) for name, part in (self.house.circuits or {}).items())

    def _circuit(self, name: str, part: CircuitPart) -> TypedCircuit:
        return TypedCircuit(
            name=name,
            use=(part.use or "general").lower(),
            breaker=part.breaker or 15,
            volts=part.volts or 120,
            wire=part.wire,
            devices=tuple(self.names.find(each) or each for each in part.devices or ()),
            ordered=bool(part.in_order),
            where=self.notebook.where(("circuits", name), at_key=True),
        )

    def wiring(self) -> TypedWiring:
        """Return the wiring as a whole."""
        part = self.house.wiring
        if part is None:
            return TypedWiring()
        return TypedWiring(
            panel=spot_point(self.walls.plan, part.panel, ("wiring", "panel")) if part.panel else None,
            set_slack=part.set_slack,
            rating=part.service or 200,
            spaces=part.spaces or 30,
            hole_height=part.hole_height,
            closed_walls=tuple(self.walls.names.find(each) or each for each in part.closed_walls or ()),
            where=self.notebook.where(("wiring",), at_key=True),
        )


def _overhead(part: DevicePart) -> Spot | bool:
    """Return the point on the ceiling or the floor; True for the middle of the room, False for neither."""
    for key, spot in (("ceiling", part.ceiling), ("floor", part.floor)):
        if key in part.model_fields_set:
            return spot or True
    return False


def _beside(plain: TypedDevice, first: TypedDevice) -> TypedDevice:
    """Return a device in the box of another, with the other's place."""
    return replace(
        plain,
        mount=first.mount,
        room=first.room,
        wall=first.wall,
        side=first.side,
        along=first.along,
        measured_from=first.measured_from,
        going=first.going,
        up=first.up,
        point=first.point,
    )
