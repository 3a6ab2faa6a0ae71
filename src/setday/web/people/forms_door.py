"""What is typed at the door of crews, helpers and readers."""

from django import forms
from django.utils.translation import gettext_lazy as _

from setday.web.desk.passwords import NewPasswordForm
from setday.web.people.accounts import free_name

__all__ = ["CardForm", "ChooseForm", "DeviceCodeForm"]

_DIGITS = {"autocomplete": "off", "inputmode": "numeric", "spellcheck": "false", "class": "digits"}


class CardForm(forms.Form):
    """The code of a sign-in card."""

    code = forms.CharField(
        label=_("The digits on your card"), max_length=40, widget=forms.TextInput(attrs=_DIGITS)
    )


class DeviceCodeForm(forms.Form):
    """The one-time code of a device."""

    code = forms.CharField(label=_("Device code"), max_length=40, widget=forms.TextInput(attrs=_DIGITS))


class ChooseForm(NewPasswordForm):
    """A one-time code, and the name and password its holder chooses."""

    code = forms.CharField(
        label=_("Your one-time code"),
        max_length=40,
        help_text=_("Nine digits, from the instructor."),
        widget=forms.TextInput(attrs={**_DIGITS, "autocomplete": "one-time-code"}),
    )

    def check_name(self, mine: str) -> None:
        """Refuse a name that somebody else signs in with."""
        name = self.cleaned_data["name"]
        if name.casefold() != mine.casefold() and not free_name(name):
            self.add_error("name", _("Somebody signs in under this name already. Choose another."))
