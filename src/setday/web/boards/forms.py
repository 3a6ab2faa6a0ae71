"""What is asked of a board run."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from setday.web.keeping.models import PriceList

__all__ = ["RunForm"]

_LIMITS = [
    (15, _("15 seconds: a first look")),
    (60, _("1 minute")),
    (120, _("2 minutes")),
    (600, _("10 minutes: for the order")),
    (3600, _("1 hour")),
]
_OFFCUTS = [
    ("", _("as the house file and the rules say")),
    ("house", _("through the whole house")),
    ("day", _("within the same day")),
    ("room", _("within the same room")),
    ("none", _("not at all")),
]
_LONGEST = [
    ("", _("every length on the price list")),
    ("8'", _("boards up to 8 ft only")),
    ("10'", _("boards up to 10 ft")),
    ("12'", _("boards up to 12 ft")),
]


class RunForm(forms.Form):
    """How long, with which boards, and how far off-cuts may go."""

    seconds = forms.TypedChoiceField(
        label=_("Search for"),
        choices=_LIMITS,
        coerce=int,
        initial=60,
        help_text=_("It can be stopped at any time."),
    )
    offcuts = forms.ChoiceField(label=_("Off-cuts may be used"), choices=_OFFCUTS, required=False, initial="")
    longest = forms.ChoiceField(label=_("Boards"), choices=_LONGEST, required=False, initial="")
    prices = forms.ModelChoiceField(
        label=_("Price list"),
        queryset=PriceList.objects.none(),
        required=False,
        empty_label=_("the demo prices, which are invented"),
    )
    label = forms.CharField(
        label=_("A name for this run"),
        required=False,
        max_length=200,
        help_text=_("To tell it from others; may stay empty."),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        lists = PriceList.objects.all()
        self.fields["prices"].queryset = lists
        self.fields["prices"].initial = lists.first()
