"""Sentences about slips in the reader's language; the core says them in English."""

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

if TYPE_CHECKING:
    from setday.learning import Slip

__all__ = ["hint_words", "kind_words", "slip_words"]


def slip_words(slip: "Slip") -> str:
    """Return what a teacher would say to a slip."""
    from setday.learning import SENTENCES

    said = _(SENTENCES[slip.kind]) % {"line": f"'{slip.label}'", "about": slip.about or _("it")}
    return said[0].upper() + said[1:]


def hint_words(hint: str) -> str:
    """Return a hint in the reader's language."""
    return _(hint)


def kind_words(kind: str) -> str:
    """Return the name of a kind of slip: its sentence without the place."""
    from setday.learning import UNKNOWN, SlipKind

    names = {
        SlipKind.PART_FORGOTTEN: _("a part forgotten"),
        SlipKind.PART_TWICE: _("a part counted twice"),
        SlipKind.OPENING_FORGOTTEN: _("an opening not taken off"),
        SlipKind.OPENING_ADDED: _("an opening added instead of taken off"),
        SlipKind.CEILING_FORGOTTEN: _("the ceiling forgotten"),
        SlipKind.ONE_FACE: _("one side of a partition only"),
        SlipKind.FACES_TWICE: _("both sides counted twice"),
        SlipKind.DECIMAL_FEET: _("feet and inches read as a decimal"),
        SlipKind.INCHES_AS_FEET: _("inches used as feet"),
        SlipKind.TAPE_FOOT: _("the tape read a foot off"),
        SlipKind.BY_TWELVE: _("square inches divided by 12"),
        SlipKind.WRONG_UNIT: _("another unit than was asked"),
        SlipKind.OTHER_MEASURE: _("another measure taken"),
        SlipKind.CORNER_TWICE: _("a corner counted twice"),
        SlipKind.ROUNDED_DOWN: _("rounded down"),
        SlipKind.UNROUNDED: _("not rounded up"),
        SlipKind.WASTE_FORGOTTEN: _("waste forgotten"),
        SlipKind.WASTE_TWICE: _("waste added twice"),
        SlipKind.ALLOWANCE_FORGOTTEN: _("an allowance forgotten"),
        SlipKind.ALLOWANCE_TWICE: _("an allowance added twice"),
        SlipKind.END_FORGOTTEN: _("the one at the end forgotten"),
        SlipKind.END_TWICE: _("one too many at the end"),
        SlipKind.HALF_FORGOTTEN: _("a triangle not halved"),
        SlipKind.DIGITS_SWAPPED: _("two digits in each other's place"),
        SlipKind.ARITHMETIC: _("arithmetic"),
        UNKNOWN: _("none of these"),
    }
    return names.get(kind, kind)
