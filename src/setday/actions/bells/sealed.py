"""What bell sheets must not tell while figures of the house are sealed for a class."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from setday.house import House, Span, Surface, SurfaceKind

__all__ = ["NOTHING", "Withheld", "is_about", "withheld_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Withheld:
    """What may not be drawn or counted for a class.

    Parameters
    ----------
    anything : bool
        Some figure of the house is sealed: no quantity of the house and no drawing of all of it.
    everything : bool
        Nothing at all may be drawn with measures.
    wiring : bool
        Nothing of cables and boxes.
    sketched : frozenset of str
        Surfaces drawn without measures.
    bare : frozenset of str
        Surfaces drawn with measures but without boards.
    boards : bool
        A count of boards is sealed: boards are numbered on each surface by itself.
    """

    anything: bool = False
    everything: bool = False
    wiring: bool = False
    sketched: frozenset[str] = field(default_factory=frozenset)
    bare: frozenset[str] = field(default_factory=frozenset)
    boards: bool = False

    def sketches(self, surface: Surface) -> bool:
        """Return whether a surface is drawn without its measures."""
        return self.everything or surface.id in self.sketched


NOTHING = Withheld()
"""No figure is sealed."""


def withheld_of(sealed: Iterable[tuple[str, bool]], house: House) -> Withheld:
    """Return what some sealed figures keep off the sheets of a class.

    Parameters
    ----------
    sealed : iterable of (str, bool)
        Keys of figures (`setday.learning.Figure.key`), and whether each is tried by laying boards on the
        drawn wall, so that the wall's measures are no secret.
    house : House
        As it is drawn.

    Notes
    -----
    A figure of a room withholds the measures of all its surfaces, of what lies behind its walls, and of
    the ceilings next to it, which show how long a shared wall is.  A figure this house does not know
    withholds everything.
    """
    rooms: set[str] = set()
    walls: set[str] = set()
    bare: set[str] = set()
    everything = wiring = boards = False
    listed = list(sealed)
    for key, by_layout in listed:
        what, name = _parted(key)
        found = _surface(house, name) if what == "surface" else None
        boards = boards or key.endswith(("/boards", "/run")) or what == "house"
        if found is not None and by_layout:
            bare.add(found.id)
        elif found is not None:
            rooms.add(found.room)
        elif what == "room" and any(room.name == name for room in house.rooms):
            rooms.add(name)
        elif what == "wall" and any(wall.name == name for wall in house.walls):
            walls.add(name)
        elif what == "cable":
            wiring = True
        else:
            everything = True
    return Withheld(
        anything=bool(listed),
        everything=everything,
        wiring=wiring or everything,
        sketched=frozenset(_touched(house, rooms, walls)),
        bare=frozenset(bare),
        boards=boards,
    )


def is_about(key: str, house: House, *, rooms: tuple[str, ...], trade: str) -> bool:
    """Return whether a figure is about some rooms or about a trade's own work, by its key."""
    what, name = _parted(key)
    if what == "cable":
        return trade == "cable"
    if what == "room":
        return name in rooms
    if what == "surface":
        found = _surface(house, name)
        return found is not None and found.room in rooms
    if what == "wall":
        return any(s.room in rooms and any(span.wall == name for span in s.spans) for s in house.surfaces)
    return not rooms


def _parted(key: str) -> tuple[str, str]:
    """Return what a key is about and its name: "surface/bath/north/run" is about surface "bath/north"."""
    what, _slash, rest = key.partition("/")
    return what, rest.rpartition("/")[0]


def _surface(house: House, name: str) -> Surface | None:
    return next((surface for surface in house.surfaces if surface.id == name), None)


def _touched(house: House, rooms: set[str], walls: set[str]) -> Iterator[str]:
    """Yield the surfaces whose measures tell those of some rooms and walls."""
    held = [span for surface in house.surfaces if surface.room in rooms for span in surface.spans]
    beside: set[str] = set()
    for surface in house.surfaces:
        along = any(span.wall in walls or _behind(span, held) for span in surface.spans)
        if surface.room in rooms or along:
            beside.add(surface.room)
            yield surface.id
    for surface in house.surfaces:
        if surface.kind is SurfaceKind.CEILING and surface.room in beside - rooms:
            yield surface.id


def _behind(span: Span, others: Iterable[Span]) -> bool:
    """Return whether a stretch of wall has one of the others at its back."""
    low, high = _ends(span)
    for other in others:
        first, last = _ends(other)
        if other.wall == span.wall and low < last and first < high:
            return True
    return False


def _ends(span: Span) -> tuple[int, int]:
    at, wide = span.along.sixtyfourths, span.width.sixtyfourths
    return (at, at + wide) if span.forward else (at - wide, at)
