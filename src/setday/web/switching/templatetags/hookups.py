"""Words of a hookup in the reader's language."""

from django import template
from django.utils.translation import gettext as _

from setday.switching import Want
from setday.web.switching.said import reader_words

register = template.Library()


@register.filter
def said(words: object) -> str:
    """Write what a device is, or what it does."""
    return reader_words(str(words))


@register.filter
def wish(want: Want) -> str:
    """Write what is wanted: "L1 from S1 and S2"."""
    if not want.switches:
        return _("%(load)s always") % {"load": want.load}
    joined = _(" and ").join(want.switches)
    return _("%(load)s from %(switches)s") % {"load": want.load, "switches": joined}
