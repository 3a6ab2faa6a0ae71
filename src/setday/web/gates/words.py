"""Words for states and kinds, in the reader's language."""

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from setday.closein import BlockingFor, GateState, ItemKind, ItemState, WhyAstray

if TYPE_CHECKING:
    from setday.closein import Astray, Item

__all__ = ["added_choices", "astray_words", "group_of", "group_word", "item_word", "state_word"]


_OF_INSPECTIONS = frozenset({ItemState.OPEN, ItemState.DONE, ItemState.CONFIRMED})


def state_word(state: GateState) -> str:
    """Return how far a surface is."""
    return {
        GateState.NOT_READY: _("not ready"),
        GateState.WAITING: _("waiting for confirmation"),
        GateState.READY: _("ready to close"),
        GateState.OVERRULED: _("overruled"),
        GateState.CLOSED: _("closed"),
    }[state]


def item_word(state: ItemState, *, kind: ItemKind) -> str:
    """Return how far a thing is."""
    if kind is ItemKind.INSPECTION and state in _OF_INSPECTIONS:
        return {
            ItemState.OPEN: _("not asked for yet"),
            ItemState.DONE: _("asked for"),
            ItemState.CONFIRMED: _("passed"),
        }[state]
    return {
        ItemState.OPEN: _("open"),
        ItemState.DONE: _("checked off, to be seen"),
        ItemState.CONFIRMED: _("confirmed"),
        ItemState.REFUSED: _("refused: do it again"),
        ItemState.OVERRULED: _("overruled"),
    }[state]


def group_of(item: "Item") -> str:
    """Return with which other things a thing is listed: boxes with boxes, holes with holes."""
    if item.kind is not ItemKind.TRADE:
        return item.kind.value
    if item.trade != "cable":
        return item.trade
    return item.key.removeprefix(f"cable/{item.surface}/").partition("/")[0]


def group_word(group: str) -> str:
    """Return what a group of things is called."""
    return {
        "box": _("boxes"),
        "run": _("runs of cable"),
        "hole": _("bored holes"),
        "plate": _("steel plates"),
        "switching": _("hookups"),
        "boards": _("backing for boards"),
        "blocking": _("blocking and braces"),
        "inspection": _("inspections"),
        "added": _("other things"),
    }.get(group, group)


def added_choices() -> list[tuple[str, str]]:
    """Return what the instructor may add, each with its words."""
    return [
        (BlockingFor.GRAB_BAR.value, _("blocking for a grab bar")),
        (BlockingFor.SCREEN.value, _("blocking for a heavy screen")),
        (BlockingFor.CABINETS.value, _("blocking for cabinets")),
        (BlockingFor.RAIL.value, _("blocking for a rail")),
        (BlockingFor.OTHER.value, _("other blocking")),
        (BlockingFor.BRACE.value, _("a brace of the framing")),
        ("inspection", _("an inspection")),
        ("added", _("anything else")),
    ]


def astray_words(astray: "Astray") -> str:
    """Say why a mark has no place now."""
    return {
        WhyAstray.GONE: _("the house file asks for it no longer"),
        WhyAstray.CHANGED: _("it is another thing now"),
        WhyAstray.NO_SURFACE: _("the house has no such surface any more"),
    }[astray.why]
