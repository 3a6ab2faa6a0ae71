"""Words for states and kinds, in the reader's language."""

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from setday.closein import BlockingFor, GateState, ItemState, WhyAstray

if TYPE_CHECKING:
    from setday.closein import Astray

__all__ = ["added_choices", "astray_words", "item_word", "state_word"]


def state_word(state: GateState) -> str:
    """Return how far a surface is."""
    return {
        GateState.NOT_READY: _("not ready"),
        GateState.WAITING: _("waiting for confirmation"),
        GateState.READY: _("ready to close"),
        GateState.OVERRULED: _("overruled"),
        GateState.CLOSED: _("closed"),
    }[state]


def item_word(state: ItemState) -> str:
    """Return how far a thing is."""
    return {
        ItemState.OPEN: _("open"),
        ItemState.DONE: _("checked off, to be seen"),
        ItemState.CONFIRMED: _("confirmed"),
        ItemState.REFUSED: _("refused: do it again"),
        ItemState.OVERRULED: _("overruled"),
    }[state]


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
