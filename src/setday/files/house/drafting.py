"""A description typed out as a house file, every value in full and walls by their points."""

from setday.boards import BoardChoices, OffcutUse
from setday.files.house.counters import draft_counters
from setday.files.house.drafting_devices import draft_circuit, draft_device, draft_wiring
from setday.files.written.lines import Plain, block_lines
from setday.house import (
    CeilingShape,
    FloorHole,
    Foundation,
    FramingChange,
    HouseDescription,
    Point,
    TypedCeiling,
    TypedDrop,
    TypedHatch,
    TypedOpening,
    TypedReserve,
    TypedWall,
    TypedWet,
    WallKind,
)
from setday.measure import Length, write_feet_inches
from setday.rules import LocalRules

__all__ = ["draft_house"]

Section = dict[str, Plain]
_OFFCUTS = {
    OffcutUse.NONE: "none",
    OffcutUse.ROOM: "same room",
    OffcutUse.DAY: "same day",
    OffcutUse.HOUSE: "whole house",
}
_DONE = {"add": "added", "remove": "removed"}


def draft_house(
    description: HouseDescription, *, boards: BoardChoices | None = None, local: LocalRules | None = None
) -> str:
    """Return a house file that reads back as this description.

    Parameters
    ----------
    description : HouseDescription
    boards : BoardChoices or None
    local : LocalRules or None
    """
    spacing = {kind.name: kind.spacing for kind in description.kinds}
    sections: Section = {
        "setday house": "1",
        "name": description.name,
        "wall kinds": {kind.name: _kind(kind) for kind in description.kinds},
        "walls": {wall.name: _wall(wall, wall.spacing or spacing[wall.kind]) for wall in description.walls},
        "openings": {opening.name: _opening(opening) for opening in description.openings},
        "rooms": {
            room.name: {"at": _point(room.at)} | ({"use": room.use} if room.use else {})
            for room in description.rooms
        },
        "ceilings": {ceiling.room: _ceiling(ceiling) for ceiling in description.ceilings},
        "soffits": {drop.name: _drop(drop) for drop in description.drops},
        "hatches": {hatch.name: {"room": hatch.room} | _box(hatch) for hatch in description.hatches},
        "wet areas": _wets(description.wets),
        "floor holes": {hole.name: _box(hole) for hole in description.floor_holes},
        "reserved": {reserve.name: _reserve(reserve) for reserve in description.reserves},
        "as built": {
            wall.name: [_change(each) for each in wall.changes] for wall in description.walls if wall.changes
        },
        "foundation": _foundation(description.foundation),
        "devices": {device.name: draft_device(device) for device in description.devices},
        "circuits": {circuit.name: draft_circuit(circuit) for circuit in description.circuits},
        "wiring": draft_wiring(description.wiring),
        "counters": draft_counters(description.counters),
        "boards": _boards(boards or BoardChoices()),
        "local rules": _local(local or LocalRules()),
    }
    written = {key: value for key, value in sections.items() if value}
    return "\n".join(line for key, value in written.items() for line in _section(key, value)) + "\n"


def _section(key: str, value: Plain) -> list[str]:
    lines = block_lines({key: value}, indent=0)
    return lines if isinstance(value, str) else ["", *lines]


def _length(length: Length) -> str:
    return write_feet_inches(length, nearest=None)


def _point(point: Point) -> Plain:
    return [_length(point.x), _length(point.y)]


def _kind(kind: WallKind) -> Section:
    return {
        "studs": _length(kind.depth),
        "outside": "yes" if kind.outside else "no",
        "bearing": "yes" if kind.bearing else "no",
        "stud spacing": _length(kind.spacing),
        "bottom plates": str(kind.plates_below),
        "top plates": str(kind.plates_above),
    }


def _wall(wall: TypedWall, spacing: Length) -> Section:
    entry: Section = {
        "kind": wall.kind,
        "from": _point(wall.start),
        "to": _point(wall.end),
        "line": wall.line.value,
        "height": _length(wall.height),
    }
    if wall.gable:
        entry["top"] = [f"{_length(height)} at {_length(at)}" for at, height in wall.gable]
    if wall.spacing is not None:
        entry["stud spacing"] = _length(wall.spacing)
    if wall.layout_from_end:
        entry["layout from"] = "end"
    if wall.layout_offset:
        entry["first stud"] = _length(wall.layout_offset + spacing)
    return entry


def _opening(opening: TypedOpening) -> Section:
    size = f"rough {_length(opening.width)} x {_length(opening.height)}"
    going = f" going {opening.going}" if opening.going else ""
    entry: Section = {
        "wall": opening.wall,
        {"cased opening": "cased"}.get(opening.kind.value, opening.kind.value): size,
        "center" if opening.to_center else "near side": (
            f"{_length(opening.distance)} from {opening.measured_from}{going}"
        ),
        "sill": _length(opening.sill),
        "jacks": str(opening.jacks),
    }
    if opening.header_depth is not None:
        entry["header"] = _length(opening.header_depth)
    return entry


def _ceiling(ceiling: TypedCeiling) -> Section:
    entry: Section = {
        "shape": ceiling.shape.value,
        "height": _length(ceiling.height),
        "framing": ceiling.framing_runs.value,
        "spacing": _length(ceiling.spacing),
    }
    if ceiling.shape is not CeilingShape.FLAT:
        entry["rise"] = f"{_length(ceiling.rise)} per foot"
    if ceiling.low_side:
        entry["low side"] = ceiling.low_side.value
    if ceiling.ridge_runs and ceiling.ridge_at is not None:
        entry |= {"ridge runs": ceiling.ridge_runs.value, "ridge": _length(ceiling.ridge_at)}
    if ceiling.layout_at is not None:
        entry["first member"] = _length(ceiling.layout_at)
    return entry


def _box(box: TypedDrop | TypedHatch | FloorHole | TypedReserve) -> Section:
    return {
        "west side": _length(box.corner.x),
        "east-west": _length(box.east),
        "south side": _length(box.corner.y),
        "north-south": _length(box.north),
    }


def _drop(drop: TypedDrop) -> Section:
    return {"room": drop.room, **_box(drop), "bottom": _length(drop.bottom)}


def _reserve(reserve: TypedReserve) -> Section:
    heights: Section = {"bottom": _length(reserve.bottom), "top": _length(reserve.top)}
    return {"trade": reserve.trade, **_box(reserve), **heights}


def _wets(wets: tuple[TypedWet, ...]) -> Section:
    """Return the wet areas; stretches of one name and one room are written together."""
    areas: dict[str, Section] = {}
    for wet in wets:
        head: Section = {
            "room": wet.room,
            "board": wet.board,
            "bottom": _length(wet.bottom),
            "top": _length(wet.top),
        }
        name, number = wet.name, 2
        while name in areas and (_head(areas[name]) != head or wet.wall in _on(areas[name])):
            name, number = f"{wet.name} {number}", number + 1
        area = areas.setdefault(name, {**head, "on": {}})
        start = f"{_length(wet.distance)} from {wet.measured_from}"
        _on(area)[wet.wall] = f"{_length(wet.width)} starting {start}"
    return dict(areas)


def _head(area: Section) -> Section:
    return {key: value for key, value in area.items() if key != "on"}


def _on(area: Section) -> Section:
    on = area["on"]
    assert isinstance(on, dict)
    return on


def _foundation(foundation: Foundation) -> Section:
    corner: Section = {"panel corner": foundation.panel_corner} if foundation.panel_corner else {}
    return {"kind": foundation.kind, **corner}


def _change(change: FramingChange) -> str:
    if change.do == "move" and change.to is not None:
        return f"{change.member} moved from {_length(change.at)} to {_length(change.to)}"
    return f"{change.member} {_DONE[change.do]} at {_length(change.at)}"


def _boards(boards: BoardChoices) -> Section:
    entry: Section = {}
    if boards.choices:
        entry["choices"] = [
            {
                key: value
                for key, value in (
                    ("room", each.room),
                    ("on", each.on),
                    ("kind", each.kind),
                    ("thickness", _length(each.thickness) if each.thickness else ""),
                    ("layers", "" if each.layers is None else str(each.layers)),
                    ("rows", each.rows.value if each.rows else ""),
                )
                if value
            }
            for each in boards.choices
        ]
    if boards.carry_in:
        entry["carry in"] = {each.room: _length(each.longest) for each in boards.carry_in}
    if boards.days:
        entry["hanging days"] = [list(day.rooms) for day in boards.days]
    if boards.offcuts:
        entry["off-cuts"] = _OFFCUTS[boards.offcuts]
    if boards.class_factor != 1.0:
        entry["class factor"] = f"{boards.class_factor:g}"
    return entry


def _local(local: LocalRules) -> Section:
    return {
        key: {"value": value, "said by": local.reasons[key]} if key in local.reasons else value
        for key, value in local.values.items()
    }
