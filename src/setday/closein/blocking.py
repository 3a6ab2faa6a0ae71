"""Wood that the instructor marks in a wall: behind a heavy screen, grab bars, cabinets, rails; braces."""

from dataclasses import dataclass
from enum import StrEnum

from setday.closein.item import Item, ItemKind, Spot
from setday.closein.refusal import GateRefusal
from setday.house import Surface, SurfaceKind
from setday.measure import ZERO, Length
from setday.rules import RuleBook

__all__ = ["BlockingFor", "added_item", "blocking_item", "check_spot", "usual_spot"]

_LONGEST = 200
"""Letters the words of an added item may have; ours."""


class BlockingFor(StrEnum):
    """What the wood is for."""

    SCREEN = "screen"
    GRAB_BAR = "grab bar"
    CABINETS = "cabinets"
    RAIL = "rail"
    BRACE = "brace"
    OTHER = "other"

    @property
    def label(self) -> str:
        """What must be in the wall, in words."""
        if self is BlockingFor.BRACE:
            return "brace of the framing"
        if self is BlockingFor.OTHER:
            return "blocking"
        return f"blocking for {'a heavy ' if self is BlockingFor.SCREEN else ''}{self.value}"


_RULES = {
    BlockingFor.SCREEN: "screen",
    BlockingFor.GRAB_BAR: "grab_bar",
    BlockingFor.CABINETS: "cabinet",
    BlockingFor.RAIL: "rail",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Edge:
    words: str
    at: Length
    least: Length
    most: Length


def usual_spot(what: BlockingFor, surface: Surface, *, rules: RuleBook) -> Spot | None:
    """Return where blocking for something usually goes: the whole width of a surface, at the usual height.

    Parameters
    ----------
    what : BlockingFor
    surface : Surface
    rules : RuleBook
        From `gate_rules`.

    Returns
    -------
    Spot or None
        None where no height is usual, and on ceilings.
    """
    name = _RULES.get(what)
    if name is None or surface.kind is SurfaceKind.CEILING:
        return None
    low, high = rules.length(f"closein.{name}_low"), rules.length(f"closein.{name}_high")
    high = min(high, surface.height)
    return Spot(x=ZERO, y=low, w=surface.width, h=high - low) if high > low else None


def blocking_item(surface: str, what: BlockingFor, *, key: str, spot: Spot | None, note: str = "") -> Item:
    """Return blocking at a place of a surface as an item of its gate.

    Parameters
    ----------
    surface : str
        Its id.
    what : BlockingFor
    key : str
        Its own among everything that was added.
    spot : Spot or None
        From the left as seen from inside, and up from the floor; None for a brace somewhere.
    note : str
        What hangs there: "water heater", "60 in screen".

    """
    label = what.label + (f" ({_short(note)})" if note.strip() else "") + (f": {spot}" if spot else "")
    return Item(
        surface=surface,
        key=f"blocking/{key}",
        label=label,
        kind=ItemKind.BLOCKING,
        thing=f"blocking/{key}",
        spot=spot,
    )


def added_item(
    surface: str, *, key: str, words: str, kind: ItemKind = ItemKind.ADDED, notice_days: int = 0
) -> Item:
    """Return anything else the instructor asks for: a further inspection, a strap.

    Parameters
    ----------
    surface : str
        Id of the surface.
    key : str
    words : str
        What must be in, or be done before.
    kind : ItemKind
        `ADDED` or `INSPECTION`.
    notice_days : int
        Working days ahead it must be asked for [days].
    """
    return Item(surface=surface, key=f"added/{key}", label=_short(words), kind=kind, notice_days=notice_days)


def _short(words: str) -> str:
    return " ".join(words.split())[:_LONGEST]


def check_spot(surface: Surface, spot: Spot) -> None:
    """Refuse a place that is not on a surface, or in one of its openings.

    Parameters
    ----------
    surface : Surface
    spot : Spot

    Raises
    ------
    GateRefusal
    """
    wide, high = spot.w or ZERO, spot.h or ZERO
    if spot.w is not None and (wide <= ZERO or high <= ZERO):
        raise GateRefusal(
            f"Blocking of {wide} by {high} is nothing.", do="Give a width and a height above nothing."
        )
    edges = (
        _Edge(words="its left end, from the left", at=spot.x, least=ZERO, most=surface.width),
        _Edge(words="its right end, from the left", at=spot.x + wide, least=ZERO, most=surface.width),
        _Edge(words="its lower edge, from the floor", at=spot.y, least=ZERO, most=surface.height),
        _Edge(words="its upper edge, from the floor", at=spot.y + high, least=ZERO, most=surface.height),
    )
    for edge in edges:
        if not edge.least <= edge.at <= edge.most:
            raise GateRefusal(
                f"{surface.label} ends before that: {edge.words} is {edge.at}.",
                do=f"Give a place from {edge.least} to {edge.most}.",
                where=surface.label,
            )
    for opening in surface.openings:
        if (
            opening.x <= spot.x
            and opening.y <= spot.y
            and spot.x + wide <= opening.x + opening.w
            and spot.y + high <= opening.y + opening.h
        ):
            raise GateRefusal(
                f"That place is in the opening '{opening.name}', where there is no wall.",
                do="Give a place beside it.",
                where=surface.label,
            )
