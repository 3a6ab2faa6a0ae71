"""Small pieces of text and drawing that every sheet uses."""

import re
from datetime import datetime
from fractions import Fraction
from typing import Any

from django import template
from django.utils import timezone
from django.utils.formats import date_format, number_format
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from setday.drawing import Table
from setday.findings import Severity
from setday.materials import write_quantity
from setday.web.clock import on_site
from setday.web.layout.borrowed import in_the_readers_words

register = template.Library()

_VIEW_BOX = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


@register.simple_tag
def today() -> str:
    """Return today's date where the machine stands."""
    return str(date_format(on_site(timezone.now()), "DATE_FORMAT"))


@register.filter
def moment(value: datetime | None) -> str:
    """Write a moment as date and time of day."""
    if value is None:
        return ""
    return str(date_format(on_site(value), "DATETIME_FORMAT"))


@register.filter
def money(cents: float | None) -> str:
    """Write cents as dollars: ``$1,234.50``."""
    if cents is None:
        return "–"
    return f"${cents / 100:,.2f}"


@register.filter
def percent(share: float | None) -> str:
    """Write a share as a percentage with one decimal."""
    if share is None:
        return "–"
    return f"{100 * share:.1f} %"


@register.filter
def figure(value: Any) -> str:
    """Write a number to the nearest tenth, in the reader's way; Django by itself would cut it off."""
    if value is None:
        return "–"
    if isinstance(value, int) or float(value).is_integer():
        return str(number_format(int(value), use_l10n=True, force_grouping=True))
    rounded = f"{float(value):.1f}"
    return str(number_format(rounded, decimal_pos=1, use_l10n=True, force_grouping=True))


@register.filter
def drawn(svg: str) -> SafeString:
    """Let a drawing of `setday.drawing` stand in the page; it escapes all text itself.

    It is given its size on paper, so that it prints at the scale it names.
    """
    size = _VIEW_BOX.search(svg)
    if size and 'class="thumbnail"' not in svg:
        svg = svg.replace("<svg ", f'<svg width="{size[1]}" height="{size[2]}" ', 1)
    return mark_safe(svg)  # noqa: S308


@register.filter
def heads(table: Table) -> list[tuple[str, bool]]:
    """Return the words over the columns, each with whether figures stand below."""
    words = [in_the_readers_words(word) for word in table.head]
    return list(zip(words, _figures(table), strict=True))


@register.filter
def lines(table: Table) -> list[list[tuple[str, bool, str]]]:
    """Return the rows: each cell with whether it is a figure, and the word over its column."""
    numbers = _figures(table)
    words = [in_the_readers_words(word) for word in table.head]
    return [list(zip(row, numbers, words, strict=True)) for row in table.rows]


@register.filter
def caption(table: Table) -> str:
    """Return the words over a table."""
    return in_the_readers_words(table.caption)


def _figures(table: Table) -> tuple[bool, ...]:
    return table.figures or (False,) * len(table.head)


@register.filter
def severity_word(severity: Severity) -> str:
    """Return the word that stands before a finding."""
    return {Severity.PROBLEM: _("Problem"), Severity.ASK: _("Ask"), Severity.NOTE: _("Note")}[severity]


@register.filter
def of(key: str, words: dict[str, str]) -> str:
    """Return what a key stands for."""
    return words.get(key, key)


@register.filter
def rule_value(value: object) -> str:
    """Write the value of a rule: a length as on the tape, yes or no, a number without spare decimals."""
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    return f"{value:g}" if isinstance(value, float) else str(value)


@register.filter
def quantity(value: Fraction, unit: str) -> str:
    """Write a quantity with its unit."""
    return write_quantity(value, unit)
