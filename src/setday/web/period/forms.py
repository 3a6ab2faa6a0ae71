"""What is typed about periods."""

from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from setday.roster.periods import MarkKind
from setday.web.keeping.models import House, School, SchoolClass
from setday.web.photos.reading import PhotoProblem, read_photo

__all__ = ["FixForm", "MarkForm", "NoteForm", "PeriodForm", "TaskForm"]

_LONGEST = 600
_MOST_CENTS = 10_000_000


class PeriodForm(forms.Form):
    """A period: which class, which house, when and how long."""

    school_class = forms.ModelChoiceField(SchoolClass.objects.none(), label=gettext_lazy("Class"))
    house = forms.ModelChoiceField(House.objects.none(), label=gettext_lazy("House"))
    begins = forms.DateTimeField(
        label=gettext_lazy("Begins"),
        widget=forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
        input_formats=["%Y-%m-%dT%H:%M", "%Y-%m-%d %H:%M"],
    )
    minutes = forms.IntegerField(
        label=gettext_lazy("How long [minutes]"), min_value=10, max_value=_LONGEST, initial=90
    )

    def __init__(self, *args: Any, school: School, **more: Any) -> None:
        super().__init__(*args, **more)
        self.fields["school_class"].queryset = SchoolClass.objects.of(school).filter(put_away=False)
        self.fields["house"].queryset = House.objects.of(school).filter(put_away=False)
        for name in ("school_class", "house"):
            self.fields[name].empty_label = None
        self.fields["begins"].initial = timezone.localtime().replace(second=0, microsecond=0)


class TaskForm(forms.Form):
    """A task that no trade figures: roof, siding, cabinets, trim, paint, floor."""

    label = forms.CharField(label=gettext_lazy("What is to be done"), max_length=200)
    trade = forms.CharField(label=gettext_lazy("Trade"), max_length=60)
    place = forms.CharField(label=gettext_lazy("Place"), max_length=100)
    quantity = forms.FloatField(
        label=gettext_lazy("How much"), min_value=0, max_value=1_000_000, required=False
    )
    unit = forms.CharField(label=gettext_lazy("Unit"), max_length=30, required=False)
    signoffs = forms.CharField(
        label=gettext_lazy("Sign-offs everybody needs"),
        max_length=200,
        required=False,
        help_text=gettext_lazy("With commas between them: ladder, power saw"),
    )
    exposures = forms.MultipleChoiceField(
        label=gettext_lazy("What it brings a student near"),
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text=gettext_lazy("The limits for minors (29 CFR 570) go by this."),
    )

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        from setday.roster import exposures

        self.fields["exposures"].choices = [(each, each) for each in exposures()]


class MarkForm(forms.Form):
    """What a crew says of its task."""

    kind = forms.ChoiceField(choices=[(kind.value, kind.value) for kind in MarkKind])
    quantity = forms.FloatField(
        label=gettext_lazy("How much was done"), min_value=0, max_value=1_000_000, required=False
    )
    why = forms.CharField(label=gettext_lazy("What blocks it"), max_length=300, required=False)


class FixForm(forms.Form):
    """A mistake that was put right."""

    what = forms.CharField(label=gettext_lazy("What was put right"), max_length=500)
    place = forms.CharField(label=gettext_lazy("Where"), max_length=200, required=False)
    noticed_by = forms.CharField(label=gettext_lazy("Who noticed"), max_length=200, required=False)
    learned = forms.CharField(label=gettext_lazy("What was learned"), max_length=500, required=False)
    minutes = forms.IntegerField(
        label=gettext_lazy("Time it took [minutes]"), min_value=0, max_value=10_000, required=False
    )
    cost = forms.DecimalField(
        label=gettext_lazy("Material it cost [$]"),
        min_value=0,
        max_value=100_000,
        decimal_places=2,
        required=False,
    )

    def facts(self) -> dict[str, Any]:
        """Return the fields of the record."""
        given = dict(self.cleaned_data)
        cents = min(round((given.pop("cost") or 0) * 100), _MOST_CENTS)
        return {**given, "minutes": given["minutes"] or 0, "cost_cents": cents}


class NoteForm(forms.Form):
    """A note of a period, or a photo, or both."""

    text = forms.CharField(
        label=gettext_lazy("Note"), max_length=4000, required=False, widget=forms.Textarea(attrs={"rows": 3})
    )
    photo = forms.FileField(
        label=gettext_lazy("A photo"),
        required=False,
        widget=forms.FileInput(attrs={"accept": "image/*"}),
        help_text=gettext_lazy("It is made smaller, and where it was taken is cut off."),
    )

    def clean(self) -> dict[str, Any]:
        """Ask for a note or a photo, and look whether the photo is one."""
        given: dict[str, Any] = super().clean() or self.cleaned_data
        try:
            given["photo"] = read_photo(given.get("photo"))
        except PhotoProblem as error:
            self.add_error("photo", str(error))
        if not given.get("text") and not given.get("photo") and not self.errors:
            self.add_error("text", _("Write a note or take a photo."))
        return given
