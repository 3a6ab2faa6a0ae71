"""The name and the password that somebody chooses, the first time and with a one-time code."""

from typing import Any

from django import forms
from django.contrib.auth import get_user_model
from django.contrib.auth.password_validation import validate_password
from django.utils.translation import gettext_lazy as _

__all__ = ["NewPasswordForm"]


class NewPasswordForm(forms.Form):
    """A name, and a password typed twice; whoever adds a code asks for it first."""

    field_order = ("code",)

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
