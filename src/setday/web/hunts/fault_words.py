"""Faults in the reader's language: the core says them in English, one sentence for each shape of fault."""

import re

from django.utils.translation import gettext, gettext_noop

__all__ = ["SHAPES", "fault_words"]

_BOX = r"Box '(?P<box>.+?)': "

SHAPES = (
    (
        _BOX + r"what belongs on (?P<a>.+) and on (?P<b>.+) is swapped\.",
        gettext_noop("Box '%(box)s': what belongs on %(a)s and on %(b)s is swapped."),
    ),
    (
        _BOX + r"(?P<a>.+) and (?P<b>.+) are swapped\.",
        gettext_noop("Box '%(box)s': %(a)s and %(b)s are swapped."),
    ),
    (
        _BOX + r"(?P<a>.+) is not joined to (?P<b>.+)\.",
        gettext_noop("Box '%(box)s': %(a)s is not joined to %(b)s."),
    ),
    (
        _BOX + r"(?P<a>.+) is joined to (?P<b>.+) instead of (?P<c>.+)\.",
        gettext_noop("Box '%(box)s': %(a)s is joined to %(b)s instead of %(c)s."),
    ),
    (_BOX + r"(?P<a>.+) touches (?P<b>.+)\.", gettext_noop("Box '%(box)s': %(a)s touches %(b)s.")),
    (
        _BOX + r"the brass tab of (?P<a>.+) was not broken off\.",
        gettext_noop("Box '%(box)s': the brass tab of %(a)s was not broken off."),
    ),
    (
        _BOX + r"the brass tab of (?P<a>.+) is broken off\.",
        gettext_noop("Box '%(box)s': the brass tab of %(a)s is broken off."),
    ),
    (
        r"The lamp in (?P<a>.+) is burnt out, or not screwed in\.",
        gettext_noop("The lamp in %(a)s is burnt out, or not screwed in."),
    ),
    (r"Switch (?P<a>.+) is dead: it never closes\.", gettext_noop("Switch %(a)s is dead: it never closes.")),
    (r"Switch (?P<a>.+) is stuck as if up\.", gettext_noop("Switch %(a)s is stuck as if up.")),
    (r"Switch (?P<a>.+) is stuck as if down\.", gettext_noop("Switch %(a)s is stuck as if down.")),
    (r"Switch (?P<a>.+) is stuck as if on\.", gettext_noop("Switch %(a)s is stuck as if on.")),
    (r"Switch (?P<a>.+) is stuck as if off\.", gettext_noop("Switch %(a)s is stuck as if off.")),
    (
        r"(?P<a>.+) is a single-pole switch, between the common and (?P<b>.+)\.",
        gettext_noop("%(a)s is a single-pole switch, between the common and %(b)s."),
    ),
    (
        r"(?P<a>.+) is a three-way switch with its common on (?P<b>.+); (?P<c>.+) is loose\.",
        gettext_noop("%(a)s is a three-way switch with its common on %(b)s; %(c)s is loose."),
    ),
    (
        r"The (?P<c>.+) of (?P<a>.+) is broken from the panel\.",
        gettext_noop("The %(c)s of %(a)s is broken from the panel."),
    ),
    (
        r"The (?P<c>.+) of (?P<a>.+) is broken between '(?P<box>.+)' and '(?P<b>.+)'\.",
        gettext_noop("The %(c)s of %(a)s is broken between '%(box)s' and '%(b)s'."),
    ),
)
"""Shapes of the core's sentences, and the sentences to be translated."""

_AND_ALSO = " And also: "


def fault_words(words: str) -> str:
    """Return a fault, or two, in the reader's language; words of no known shape stay as they are."""
    if _AND_ALSO in words:
        first, _and, second = words.partition(_AND_ALSO)
        both = gettext("%(first)s And also: %(second)s")
        return both % {"first": fault_words(first), "second": fault_words(second)}
    for shape, sentence in SHAPES:
        if found := re.fullmatch(shape, words):
            return gettext(sentence) % found.groupdict()
    return words
