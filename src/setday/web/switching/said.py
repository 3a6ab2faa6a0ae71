"""What circuits do, in the reader's language."""

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

if TYPE_CHECKING:
    from setday.switching import Device, LoadSeen, PositionTried, Trial

__all__ = ["breaker_words", "handle_words", "kind_words", "look_words", "position_said", "reader_words"]

_KNOWN = frozenset(
    (
        gettext_noop("up"),
        gettext_noop("down"),
        gettext_noop("on"),
        gettext_noop("off"),
        gettext_noop("full"),
        gettext_noop("dim"),
        gettext_noop("single-pole switch"),
        gettext_noop("three-way switch"),
        gettext_noop("four-way switch"),
        gettext_noop("lamp"),
        gettext_noop("receptacle"),
        gettext_noop("holds"),
        gettext_noop("opens: dead short to the neutral"),
        gettext_noop("opens: ground fault"),
        gettext_noop("opens after a while: overload"),
    )
)


def reader_words(words: str) -> str:
    """Return words of a circuit in the reader's language, where they are known."""
    return _(words) if words in _KNOWN else words


def handle_words(switch: "Device") -> tuple[str, str]:
    """Return where the handle of a switch can be, down first."""
    from setday.switching import position_words

    down, up = position_words(switch.kind)
    return reader_words(down), reader_words(up)


def kind_words(device: "Device") -> str:
    """Return what a device is."""
    return reader_words(device.kind.value)


def look_words(seen: "LoadSeen") -> str:
    """Return what a lamp does; of a dim one, with its share of the supply."""
    words = reader_words(seen.look.value)
    return f"{words} {seen.share:.0%}" if seen.look.value == "dim" else words


def breaker_words(tried: "PositionTried") -> str:
    """Return what the breaker does, and at which current where it opens."""
    words = reader_words(tried.breaker.value)
    return f"{words} ({tried.breaker_a:,.0f} A)" if tried.breaker.opens else words


def position_said(trial: "Trial", tried: "PositionTried") -> str:
    """Return one position in a sentence: the handles, the lamps, the breaker."""
    switches = zip(trial.hookup.switches, tried.position, strict=True)
    handles = ", ".join(f"{switch.name} {handle_words(switch)[state]}" for switch, state in switches)
    lamps = ", ".join(f"{seen.load} {look_words(seen)}" for seen in tried.loads)
    breaker = _("Breaker %(does)s") % {"does": breaker_words(tried)}
    return ". ".join(part for part in (handles, lamps, breaker) if part) + "."
