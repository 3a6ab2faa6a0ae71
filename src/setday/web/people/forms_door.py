"""What is typed at the door of crews, helpers and readers."""

from typing import Any

from django import forms
from django.contrib.auth import get_user_model
from django.contrib.auth.password_validation import validate_password
from django.utils.translation import gettext_lazy as _

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


class ChooseForm(forms.Form):
    """A one-time code, and the name and password its holder chooses."""

    code = forms.CharField(
        label=_("Your one-time code"),
        max_length=40,
        help_text=_("Nine digits, from the instructor."),
        widget=forms.TextInput(attrs={**_DIGITS, "autocomplete": "one-time-code"}),
    )
    name = forms.CharField(
        label=_("Your name"),
        max_length=150,
        help_text=_("The name you will sign in with."),
        widget=forms.TextInput(attrs={"autocomplete": "username"}),
    )
    password = forms.CharField(
        label=_("Password"),
        max_length=200,
        strip=False,
        help_text=_("At least 10 signs, and not digits alone. A short sentence is easy to keep in mind."),
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
    )
    again = forms.CharField(
        label=_("Password once more"),
        max_length=200,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
    )

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        password = entered.get("password")
        if password is None:
            return entered
        if entered.get("again") not in {None, password}:
            self.add_error("again", _("This is not the password typed above. Type both once more."))
        try:
            validate_password(password, user=get_user_model()(username=entered.get("name", "")))
        except forms.ValidationError as error:
            self.add_error("password", error)
        return entered

    def check_name(self, mine: str) -> None:
        """Refuse a name that somebody else signs in with."""
        name = self.cleaned_data["name"]
        if name.casefold() != mine.casefold() and not free_name(name):
            self.add_error("name", _("Somebody signs in under this name already. Choose another."))
