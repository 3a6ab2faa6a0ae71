"""What is asked of a board run."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from setday.errors import SetdayError
from setday.web.keeping.models import PriceList, School
from setday.web.layout.templatetags.sheet import rule_value

if TYPE_CHECKING:
    from setday.actions.houses import OpenHouse

__all__ = ["RunForm", "Way", "WhatIfForm"]

_LIMITS = [
    (15, gettext_lazy("15 seconds: a first look")),
    (60, gettext_lazy("1 minute")),
    (120, gettext_lazy("2 minutes")),
    (600, gettext_lazy("10 minutes: for the order")),
    (3600, gettext_lazy("1 hour")),
]
_OFFCUTS = [
    ("", gettext_lazy("as the house file and the rules say")),
    ("house", gettext_lazy("through the whole house")),
    ("day", gettext_lazy("within the same day")),
    ("room", gettext_lazy("within the same room")),
    ("none", gettext_lazy("not at all")),
]
_LONGEST = [
    ("", gettext_lazy("every length on the price list")),
    ("8'", gettext_lazy("boards up to 8 ft only")),
    ("10'", gettext_lazy("boards up to 10 ft")),
    ("12'", gettext_lazy("boards up to 12 ft")),
]
_WAYS = [
    ("as-chosen", gettext_lazy("as chosen")),
    ("8-ft", gettext_lazy("boards up to 8 ft only")),
    ("narrow", gettext_lazy("no boards wider than 48 in")),
    ("room", gettext_lazy("off-cuts stay in their room")),
    ("none", gettext_lazy("off-cuts are not used again")),
]
_OPTIONS: dict[str, dict[str, str]] = {
    "as-chosen": {},
    "8-ft": {"longest": "8'"},
    "narrow": {"widest": "48 in"},
    "room": {"offcuts": "room"},
    "none": {"offcuts": "none"},
}


class _PriceChoice(forms.ModelChoiceField):
    """The price lists that the school kept, the newest first, and the demo's."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(queryset=PriceList.objects.none(), required=False, **kwargs)


def _offer_prices(form: forms.Form, school: School) -> None:
    """Offer the price lists of one school, the newest as the usual one."""
    kept = PriceList.objects.of(school)
    for field in form.fields.values():
        if isinstance(field, _PriceChoice):
            field.queryset = kept
    form.fields["prices"].initial = kept.first()


class RunForm(forms.Form):
    """How long, with which boards, and how far off-cuts may go."""

    seconds = forms.TypedChoiceField(
        label=gettext_lazy("Search for"),
        choices=_LIMITS,
        coerce=int,
        initial=60,
        help_text=gettext_lazy("It can be stopped at any time."),
    )
    offcuts = forms.ChoiceField(
        label=gettext_lazy("Off-cuts may be used"), choices=_OFFCUTS, required=False, initial=""
    )
    longest = forms.ChoiceField(label=gettext_lazy("Boards"), choices=_LONGEST, required=False, initial="")
    prices = _PriceChoice(
        label=gettext_lazy("Price list"), empty_label=gettext_lazy("the demo prices, which are invented")
    )
    label = forms.CharField(
        label=gettext_lazy("A name for this run"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("To tell it from others; may stay empty."),
    )

    def __init__(self, *args: Any, school: School, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _offer_prices(self, school)

    @property
    def options(self) -> dict[str, Any]:
        """What the run is asked for."""
        return {name: self.cleaned_data[name] for name in ("seconds", "offcuts", "longest")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to lay the house out."""

    label: str
    options: dict[str, Any]
    prices: PriceList | None


class WhatIfForm(forms.Form):
    """The ways to lay the house out that are to be compared."""

    seconds = forms.TypedChoiceField(
        label=gettext_lazy("Search for, each way"), choices=_LIMITS[:4], coerce=int, initial=15
    )
    ways = forms.MultipleChoiceField(
        label=gettext_lazy("Lay it out"),
        choices=_WAYS,
        required=False,
        initial=["as-chosen", "8-ft"],
        widget=forms.CheckboxSelectMultiple,
    )
    prices = _PriceChoice(
        label=gettext_lazy("Price list"), empty_label=gettext_lazy("the demo prices, which are invented")
    )
    other_prices = _PriceChoice(
        label=gettext_lazy("and once more with another price list"), empty_label=gettext_lazy("no other")
    )
    rule = forms.ChoiceField(label=gettext_lazy("and once more with another rule"), required=False)
    value = forms.CharField(
        label=gettext_lazy("its value"),
        required=False,
        max_length=40,
        help_text=gettext_lazy('Written as in the house file: 24" or no.'),
    )

    def __init__(self, *args: Any, opened: "OpenHouse", school: School, **kwargs: Any) -> None:
        from setday.actions.boards import rules_for

        super().__init__(*args, **kwargs)
        self.opened = opened
        _offer_prices(self, school)
        known = [(rule.key, f"{rule.label} ({rule_value(rule.value)})") for rule in rules_for(opened)]
        self.fields["rule"].choices = [("", _("no other")), *known]

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        if entered.get("rule"):
            self._check_rule(entered)
        if not self.errors and len(self.runs) < 2:
            raise forms.ValidationError(_("Choose at least two ways, so that there is something to compare."))
        return entered

    def _check_rule(self, entered: dict[str, Any]) -> None:
        from setday.actions.boards import BoardWish, rules_for

        try:
            rules_for(self.opened, BoardWish(rules={entered["rule"]: entered.get("value", "")}))
        except SetdayError as error:
            self.add_error("value", f"{error.message} {error.do}")

    @property
    def runs(self) -> list[Way]:
        """The ways asked for, each with what its run needs to know."""
        asked = self.cleaned_data
        prices, words = asked.get("prices"), dict(_WAYS)
        found = [self._way(str(words[way]), prices, **_OPTIONS[way]) for way in asked.get("ways") or []]
        if asked.get("other_prices"):
            found.append(self._way(str(asked["other_prices"]), asked["other_prices"]))
        if asked.get("rule"):
            label = f"{asked['rule']} = {asked['value']}"
            found.append(self._way(label, prices, rules={asked["rule"]: asked["value"]}))
        return found

    def _way(self, label: str, prices: PriceList | None, **options: Any) -> Way:
        return Way(label=label, options={"seconds": self.cleaned_data["seconds"], **options}, prices=prices)
