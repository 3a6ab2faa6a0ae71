"""What the instructor types about people."""

from datetime import date
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from setday.web.clock import on_site
from setday.web.keeping.models import Member, MemberRole, SchoolClass

__all__ = [
    "AccountForm",
    "ClassForm",
    "DeviceForm",
    "MemberForm",
    "SchoolForm",
    "SettingsForm",
    "SignOffForm",
]

_OLDEST = 100


def _today() -> date:
    return on_site(timezone.now()).date()


class _NameForm(forms.Form):
    """A name, its spaces put in order."""

    name = forms.CharField(label=_("Name"), max_length=200)

    def clean_name(self) -> str:
        return " ".join(self.cleaned_data["name"].split())


class ClassForm(_NameForm):
    """A class."""

    name = forms.CharField(
        label=_("Name of the class"), max_length=200, help_text=_("As you speak of it: morning, afternoon.")
    )


class MemberForm(_NameForm):
    """A crew member, as in the roster."""

    shown_as = forms.CharField(
        label=_("As crews read it"),
        max_length=60,
        required=False,
        help_text=_(
            "On the wall screen and beside a tick: Ana R. It is made from the name where this is empty."
        ),
    )
    number = forms.CharField(
        label=_("The school's own number"), max_length=100, required=False, help_text=_("May stay empty.")
    )
    born = forms.DateField(
        label=_("Born"),
        required=False,
        help_text=_("May stay empty: every limit for minors then holds."),
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
    )
    student_learner = forms.BooleanField(
        label=_("A written student-learner agreement is on file (29 CFR 570.50(c))"), required=False
    )

    def __init__(
        self, *args: Any, school_class: SchoolClass, mine: Member | None = None, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.school_class, self.mine = school_class, mine

    def clean_born(self) -> date | None:
        born: date | None = self.cleaned_data["born"]
        if born is None:
            return None
        if not 0 <= _today().year - born.year <= _OLDEST or born > _today():
            raise forms.ValidationError(_("This is no day somebody in a class was born on."))
        return born

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        others = Member.objects.filter(school_class=self.school_class, active=True, role=MemberRole.CREW)
        others = others.exclude(pk=self.mine.pk) if self.mine else others
        number = entered.get("number", "")
        if number and others.filter(number__iexact=number).exists():
            self.add_error("number", _("Another member of this class has this number."))
        if not number and others.filter(name__iexact=entered.get("name", "")).exists():
            self.add_error(
                "name", _("This name is in the class already. Give both a number, or write one otherwise.")
            )
        return entered


class SignOffForm(forms.Form):
    """What somebody passed or showed, and when."""

    what = forms.CharField(
        label=_("Safety test or skill"),
        max_length=200,
        widget=forms.TextInput(attrs={"list": "known-signoffs", "autocomplete": "off"}),
    )
    on = forms.DateField(label=_("On"), widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"))

    def clean_what(self) -> str:
        return " ".join(self.cleaned_data["what"].split())

    def clean_on(self) -> date:
        on: date = self.cleaned_data["on"]
        if on > _today():
            raise forms.ValidationError(_("This day has not come yet. Sign off what was seen."))
        return on

    @classmethod
    def fresh(cls) -> "SignOffForm":
        """Return the form with today's date in it."""
        return cls(initial={"on": _today()})


class AccountForm(_NameForm):
    """A helper, a reader, another instructor."""

    role = forms.ChoiceField(
        label=_("Comes in as"),
        choices=[
            ("helper", _("helper: works with the class; changes no houses, lists or people")),
            ("reader", _("reader: looks, and changes nothing")),
            ("instructor", _("instructor: sees and does everything in this school")),
        ],
        widget=forms.RadioSelect,
    )


class DeviceForm(_NameForm):
    """A device that is to be chosen."""

    name = forms.CharField(
        label=_("What you call the device"), max_length=100, help_text=_("As written on it: tablet 3.")
    )


class SettingsForm(forms.Form):
    """After how long a crew's tablet is signed out."""

    idle_minutes = forms.IntegerField(
        label=_("Sign a crew's tablet out after this many minutes untouched"), min_value=1, max_value=600
    )


class SchoolForm(_NameForm):
    """Another school in this installation, and who teaches there."""

    name = forms.CharField(label=_("Name of the school"), max_length=200)
    instructor = forms.CharField(label=_("Its instructor's name"), max_length=200)
