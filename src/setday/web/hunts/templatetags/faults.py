"""Words of faults on a page."""

from collections.abc import Iterable

from django import template

from setday.web.hunts.fault_words import fault_words

register = template.Library()


@register.filter
def fault(words: str) -> str:
    """Return a fault in the reader's language."""
    return fault_words(words)


@register.filter
def faults(group: Iterable[str]) -> str:
    """Return faults that cannot be told apart, in one line."""
    return " / ".join(fault_words(words) for words in group)
