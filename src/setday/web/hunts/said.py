"""What was asked and seen, and kinds of faults, in the reader's language."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, gettext_noop, ngettext

from setday.switching import (
    CAUTIONS,
    ChangeKind,
    Flip,
    Hookup,
    Measured,
    Meter,
    Observation,
    Test,
    position_words,
)

if TYPE_CHECKING:
    from setday.actions.switching.faults import Explained
    from setday.actions.switching.naming import Named

__all__ = [
    "KINDS",
    "LEVELS",
    "Line",
    "asked_words",
    "cautions",
    "front_word",
    "handles",
    "line_of",
    "named_words",
    "result_words",
    "verdict_words",
]

KINDS = {
    "swapped_terminals": gettext_lazy("Two conductors swapped at a device"),
    "swapped_ends": gettext_lazy("Two conductors swapped between splices"),
    "moved": gettext_lazy("A conductor in the wrong splice or on the wrong terminal"),
    "missing": gettext_lazy("A join left out or come loose"),
    "extra": gettext_lazy("Two joins that touch"),
    "broken": gettext_lazy("A conductor broken inside its cable"),
    "dead_switch": gettext_lazy("A switch that never closes"),
    "stuck_switch": gettext_lazy("A switch stuck in one position"),
    "burnt_lamp": gettext_lazy("A burnt-out lamp"),
    "wrong_kind": gettext_lazy("A switch of the wrong kind"),
    "tab": gettext_lazy("A receptacle's tab left in or broken off wrongly"),
    "with_ground": gettext_lazy("Factor for faults that bring the equipment ground in"),
}
"""Kinds of faults, as in the table of likelihoods, to words."""

LEVELS = {"easy": gettext_lazy("easy"), "medium": gettext_lazy("medium"), "hard": gettext_lazy("hard")}
"""How long a fault takes to find, to words."""

_WORDS = frozenset(
    (
        gettext_noop("up"),
        gettext_noop("down"),
        gettext_noop("on"),
        gettext_noop("off"),
        gettext_noop("full"),
        gettext_noop("dim"),
        gettext_noop("joined"),
        gettext_noop("through a lamp"),
        gettext_noop("open"),
        gettext_noop("part"),
        gettext_noop("none"),
        gettext_noop("cover on"),
        gettext_noop("cover off"),
        gettext_noop("breaker on"),
        gettext_noop("breaker opened"),
        gettext_noop("breaker locked off"),
        gettext_noop("The room as it stands"),
    )
)
"""Words that circuits and drawings use."""

_CAUTIONS = frozenset(
    (
        gettext_noop("A lamp that is OFF does not mean dead wires: loops and travelers stay live."),
        gettext_noop(
            "Hookups are made and opened dead: breaker off, locked, tested dead. "
            "Only the instructor energizes."
        ),
        gettext_noop(
            "Nothing is covered before it is inspected. Local code and the licensed electrician decide."
        ),
    )
)
"""What the core says on every sheet of switching."""


def cautions() -> list[str]:
    """Return what every sheet of switching says, in the reader's language."""
    return [_(caution) if caution in _CAUTIONS else caution for caution in CAUTIONS]


def front_word(word: str) -> str:
    """Return a word of a circuit or drawing in the reader's language."""
    return _(word) if word in _WORDS else word


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a log: where the handles stood, what was asked, what was seen."""

    handles: str
    asked: str
    seen: str


def handles(hookup: Hookup, position: tuple[int, ...]) -> str:
    """Return where the handles stand: "S1 up, S2 down"."""
    said = (
        f"{switch.name} {front_word(position_words(switch.kind)[state])}"
        for switch, state in zip(hookup.switches, position, strict=True)
    )
    return ", ".join(said) or _("no switches")


def line_of(observation: Observation, hookup: Hookup) -> Line:
    """Return an observation as a line of a log."""
    if isinstance(observation, Measured):
        test = observation.test
        words = {
            Meter.DEAD: _("Box %(box)s, dead: continuity from %(a)s to %(b)s"),
            Meter.LIVE: _("Box %(box)s: the instructor reads voltage from %(a)s to %(b)s"),
        }[test.meter]
        asked = words % {"box": test.first.box, "a": test.first, "b": test.second}
        return Line(handles=handles(hookup, test.position), asked=asked, seen=result_words(observation))
    return Line(
        handles=handles(hookup, observation.position), asked=_("lamps"), seen=result_words(observation)
    )


def asked_words(test: Test, hookup: Hookup) -> str:
    """Return what is to be done, as it is said to a person."""
    said: dict[str, object] = {"handles": handles(hookup, test.position)}
    if isinstance(test, Flip):
        return _("Set %(handles)s and look at the lamps.") % said
    said |= {"box": test.first.box, "a": test.first, "b": test.second}
    words = {
        Meter.DEAD: _(
            "Breaker locked off and tested dead: open box %(box)s, set %(handles)s, "
            "and read continuity from %(a)s to %(b)s."
        ),
        Meter.LIVE: _("Box %(box)s, %(handles)s: the instructor reads voltage from %(a)s to %(b)s."),
    }
    return words[test.meter] % said


def result_words(observation: Observation) -> str:
    """Return what was seen, in a few words."""
    if isinstance(observation, Measured):
        return front_word(observation.reading.value)
    if observation.breaker_opens:
        return front_word("breaker opened")
    return ", ".join(f"{load} {front_word(look.value)}" for load, look in observation.looks)


def verdict_words(told: "Explained") -> str:
    """Return where a search stands, in a sentence."""
    begun = _("All that was observed is as planned.") + " " if told.as_planned else ""
    if not told.suspects and told.faults > 1 and not told.stopped:
        return _(
            "No two faults at once explain it either. Check the observations: one may be misread, "
            "or there are more than two faults."
        )
    if not told.suspects:
        return begun + _(
            "No suspect explains all that was observed. Check the observations, or look for more faults."
        )
    if told.faults == 1:
        words = ngettext("%(n)d single fault explains it.", "%(n)d single faults explain it.", told.suspects)
    else:
        words = ngettext(
            "%(n)d pair of faults explains it.", "%(n)d pairs of faults explain it.", told.suspects
        )
    found = begun + words % {"n": told.suspects}
    if told.next is None and told.suspects > 1:
        return f"{found} {_('No flip or reading tells them apart: open the box and look.')}"
    return found


def named_words(named: "Named") -> str:
    """Return a fault as a crew named it."""
    where = named.first if not named.second else f"{named.first}; {named.second}"
    return f"{KINDS[ChangeKind(named.kind).value]}: {where}"
