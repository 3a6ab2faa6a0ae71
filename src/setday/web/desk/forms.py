"""What is typed at the door."""

from typing import Any

from django import forms
from django.contrib.auth import get_user_model
from django.contrib.auth.password_validation import validate_password
from django.utils.translation import gettext_lazy as _

__all__ = ["BeginForm", "SignInForm"]


class SignInForm(forms.Form):
    """A name and a password."""

    name = forms.CharField(
        label=_("Your name"), max_length=150, widget=forms.TextInput(attrs={"autocomplete": "username"})
    )
    password = forms.CharField(
        label=_("Password"),
        max_length=200,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
    )


class BeginForm(forms.Form):
    """The code printed at the first start, and the name and password the instructor chooses."""

    code = forms.CharField(
        label=_("First-start code"),
        max_length=100,
        help_text=_("Printed where Setday was started: three words and four digits."),
        widget=forms.TextInput(
            attrs={"autocomplete": "one-time-code", "autocapitalize": "none", "spellcheck": "false"}
        ),
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
