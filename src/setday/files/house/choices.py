"""Board choices and local rules of a house file, as the core takes them."""

from setday.boards import BoardChoice, BoardChoices, CarryIn, HangDay, OffcutUse, Rows
from setday.files.house.rooms import Rooms
from setday.files.house.shape_boards import BoardsPart, ChoicePart, LocalPart
from setday.files.written.notebook import Notebook
from setday.files.written.tree import Path
from setday.rules import LocalRules

__all__ = ["describe_boards", "describe_local"]

_OFFCUTS = {
    "none": OffcutUse.NONE,
    "same room": OffcutUse.ROOM,
    "same day": OffcutUse.DAY,
    "whole house": OffcutUse.HOUSE,
}


def describe_boards(part: BoardsPart | None, rooms: Rooms, notebook: Notebook) -> BoardChoices:
    """Return what was chosen about boards.

    Parameters
    ----------
    part : BoardsPart or None
    rooms : Rooms
    notebook : Notebook
    """
    if part is None:
        return BoardChoices()
    return BoardChoices(
        choices=tuple(_choice(each, n, rooms, notebook) for n, each in enumerate(part.choices or [])),
        carry_in=_carry_in(part, rooms, notebook),
        days=tuple(_day(names, n, rooms, notebook) for n, names in enumerate(part.hanging_days or [])),
        offcuts=_OFFCUTS[part.offcuts] if part.offcuts else None,
        class_factor=part.class_factor or 1.0,
    )


def _choice(part: ChoicePart, number: int, rooms: Rooms, notebook: Notebook) -> BoardChoice:
    path: Path = ("boards", "choices", number)
    room = rooms.room(part.room, (*path, "room")) if part.room else ""
    on = part.on or ""
    if on and on.lower() in ("walls", "ceilings"):
        on = on.lower()
    elif on and "/" in on:
        rooms.room(on.split("/", maxsplit=1)[0], (*path, "on"))
    elif on:
        notebook.find(
            (*path, "on"),
            rule="file.entry",
            found=f"'{on}' is no surface.",
            expected="walls, ceilings, or one surface as the plan names it, like bath/north.",
            do="Choose one of them, and name the room with room.",
        )
    return BoardChoice(
        room=room or "",
        on=on,
        kind=(part.kind or "").lower(),
        thickness=part.thickness,
        layers=part.layers,
        rows=Rows(part.rows) if part.rows else None,
        where=notebook.where(path),
    )


def _carry_in(part: BoardsPart, rooms: Rooms, notebook: Notebook) -> tuple[CarryIn, ...]:
    found = []
    for written, longest in (part.carry_in or {}).items():
        path: Path = ("boards", "carry in", written)
        room = rooms.room(written, path, at_key=True)
        if room:
            found.append(CarryIn(room=room, longest=longest, where=notebook.where(path, at_key=True)))
    return tuple(found)


def _day(names: list[str], number: int, rooms: Rooms, notebook: Notebook) -> HangDay:
    path: Path = ("boards", "hanging days", number)
    known = [rooms.room(name, (*path, n)) for n, name in enumerate(names)]
    return HangDay(rooms=tuple(name for name in known if name), where=notebook.where(path))


def describe_local(parts: dict[str, LocalPart] | None) -> LocalRules:
    """Return the local rules, values as typed.

    Parameters
    ----------
    parts : dict or None
    """
    rules = parts or {}
    return LocalRules(
        values={key: part.value for key, part in rules.items()},
        reasons={key: part.said_by for key, part in rules.items() if part.said_by},
    )
