"""Counters of a house file, as the core takes them and as they are written."""

from setday.files.house.openings import held_to, wall_named
from setday.files.house.rooms import Rooms
from setday.files.house.shape_counters import CounterPart
from setday.files.house.walls import Walls
from setday.files.written.lines import Plain
from setday.files.written.notebook import Notebook
from setday.files.written.tree import Path
from setday.house import TypedCounter
from setday.measure import Length, write_feet_inches

__all__ = ["Counters", "draft_counters"]

_USUAL = TypedCounter(name="", room="", width=Length(0))


class Counters:
    """The counters of one file."""

    def __init__(
        self, written: dict[str, CounterPart] | None, walls: Walls, rooms: Rooms, notebook: Notebook
    ) -> None:
        self.written = written or {}
        self.walls = walls
        self.rooms = rooms
        self.notebook = notebook

    def described(self) -> tuple[TypedCounter, ...]:
        """Return the counters that could be read, one for each wall they stand against."""
        found: list[TypedCounter] = []
        for name, part in self.written.items():
            path: Path = ("counters", name)
            room = self.rooms.room(part.room, (*path, "room"))
            if room is None or not self._one_of(part, path):
                continue
            found += (
                self._island(name, part, room, path)
                if part.length
                else self._on_walls(name, part, room, path)
            )
        return tuple(found)

    def _one_of(self, part: CounterPart, path: Path) -> bool:
        if (part.on is None) != (part.length is None):
            return True
        both = part.on is not None
        self.notebook.find(
            path,
            rule="file.entry",
            found="it is written both on walls and as an island."
            if both
            else "it is not written where it is.",
            expected="on, for a counter against walls; or length and depth, for an island.",
            do="Take one of them out." if both else "Write one of them.",
            at_key=True,
        )
        return False

    def _island(self, name: str, part: CounterPart, room: str, path: Path) -> list[TypedCounter]:
        assert part.length is not None
        return [
            TypedCounter(
                name=name,
                room=room,
                width=part.length,
                depth=part.depth or _USUAL.depth,
                top=part.top or _USUAL.top,
                where=self.notebook.where(path, at_key=True),
            )
        ]

    def _on_walls(self, name: str, part: CounterPart, room: str, path: Path) -> list[TypedCounter]:
        found = []
        for written, stretch in (part.on or {}).items():
            at: Path = (*path, "on", written)
            wall = wall_named(written, self.walls, at, self.notebook)
            held = held_to(stretch.start, self.walls, at, self.notebook)
            if wall and held:
                found.append(
                    TypedCounter(
                        name=name,
                        room=room,
                        wall=wall,
                        measured_from=held.end,
                        distance=held.distance,
                        width=stretch.width,
                        depth=part.depth or _USUAL.depth,
                        top=part.top or _USUAL.top,
                        where=self.notebook.where(at, at_key=True),
                    )
                )
        return found


def draft_counters(counters: tuple[TypedCounter, ...]) -> dict[str, Plain]:
    """Return counters as a house file writes them; stretches of one name on unlike walls stand together."""
    parts: dict[str, Plain] = {}
    for counter in counters:
        head: dict[str, Plain] = {
            "room": counter.room,
            "depth": _length(counter.depth),
            "top": _length(counter.top),
        }
        if not counter.wall:
            parts[_free(counter.name, parts)] = {**head, "length": _length(counter.width)}
            continue
        line = f"{_length(counter.width)} starting {_length(counter.distance)} from {counter.measured_from}"
        on = _walls_of(parts.get(counter.name), head)
        if on is not None and counter.wall not in on:
            on[counter.wall] = line
            continue
        parts[_free(counter.name, parts)] = {**head, "on": {counter.wall: line}}
    return parts


def _walls_of(part: Plain | None, head: dict[str, Plain]) -> dict[str, Plain] | None:
    """Return the walls of a counter that is written already and is like another but for its wall."""
    if not isinstance(part, dict) or {key: value for key, value in part.items() if key != "on"} != head:
        return None
    on = part.get("on")
    return on if isinstance(on, dict) else None


def _length(length: Length) -> str:
    return write_feet_inches(length, nearest=None)


def _free(name: str, parts: dict[str, Plain]) -> str:
    names = (name if n == 1 else f"{name} {n}" for n in range(1, len(parts) + 2))
    return next(each for each in names if each not in parts)
