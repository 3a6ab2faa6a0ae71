"""What the trades hand on to the rest: material, work, and what must be inside a surface."""

from dataclasses import dataclass

from setday.measure import Length
from setday.working import Working

__all__ = ["GateItem", "Need", "WorkItem"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """Material a trade needs at a place.

    Parameters
    ----------
    trade : str
        "boards", "cable" ...
    item : str
        Key of the item in the price list: "board-regular-1/2-48x96", "screw-coarse-1-1/4".
    label : str
        The item in words.
    quantity : float
        In `unit`, before rounding to sold units; whole pieces for counted things.
    unit : str
        "pieces", "lb", "ft", "rolls", "gal", "screws".
    place : str
        Where it is used: a room's or a surface's name, or "house".
    phase : str
        When it is used: "hang", "finish", "rough" ...
    waste_included : bool
        True when `quantity` already covers waste, so that nobody adds it twice.
    working : Working or None
        How the quantity was come by.
    """

    trade: str
    item: str
    label: str
    quantity: float
    unit: str
    place: str
    phase: str
    waste_included: bool
    working: Working | None = None

    def __post_init__(self) -> None:
        if self.quantity < 0:
            raise ValueError(f"a need of {self.item} below nothing: {self.quantity}")


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkItem:
    """A piece of work a trade hands to the timetable.

    Parameters
    ----------
    key, label : str
        Stable key and words.
    trade, skill : str
        Who can do it.
    place : str
        Room, surface or yard.
    quantity : float
        In `unit` ("ft2", "boards").
    unit : str
    student_hours : float
        Hours of one person's work [h]; the class factor already applied.
    crew_least, crew_most : int
        Useful crew sizes.
    after : tuple of str
        Keys of work that must be done before.
    working : Working or None
        How the hours were come by.
    """

    key: str
    label: str
    trade: str
    skill: str
    place: str
    quantity: float
    unit: str
    student_hours: float
    crew_least: int
    crew_most: int
    after: tuple[str, ...] = ()
    working: Working | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GateItem:
    """One thing that must be inside a surface, done and seen, before it may be closed in.

    Parameters
    ----------
    surface : str
        Id of the surface.
    trade : str
        "boards", "cable" ...
    key : str
        Its own among all things of the house, and the same as long as it is the same thing.
    label : str
        What it is and what must be true of it, in words.
    thing : str
        Names the physical thing where it stands in the wall itself, so that both sides of the wall ask
        for one and the same; empty for what belongs to one side alone.
    x, y : Length or None
        Its place on the surface, where it has one: from the left as seen from inside, and up.
    """

    surface: str
    trade: str
    key: str
    label: str
    thing: str = ""
    x: Length | None = None
    y: Length | None = None
