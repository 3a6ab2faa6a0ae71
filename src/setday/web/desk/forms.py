"""What is typed at the door."""

from django import forms
from django.utils.translation import gettext_lazy as _

from setday.web.desk.passwords import NewPasswordForm

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


class BeginForm(NewPasswordForm):
    """The code printed at the first start, and the name and password the instructor chooses."""

    code = forms.CharField(
        label=_("First-start code"),
        max_length=100,
        help_text=_("Printed where Setday was started: three words and four digits."),
        widget=forms.TextInput(
            attrs={"autocomplete": "one-time-code", "autocapitalize": "none", "spellcheck": "false"}
        ),
    )
