"""What is typed about a hookup."""

from django import forms
from django.utils.translation import gettext_lazy

from setday.web.file_form import VersionForm, typed_text

__all__ = ["EnterForm", "HookupFileForm"]


class HookupFileForm(VersionForm):
    """A hookup file, picked or typed."""

    text = typed_text(label=gettext_lazy("The hookup file"), rows=24)

    usual_name = "hookup.yaml"
    too_large = gettext_lazy(
        "%(name)s is %(size)s; a hookup file over %(most)s is not read. Pick the right file."
    )
    too_long = gettext_lazy("The text is longer than any hookup file. Paste the hookup file only.")


class EnterForm(forms.Form):
    """What a crew types to come to a bench."""

    code = forms.CharField(
        label=gettext_lazy("Code of the bench"),
        max_length=20,
        widget=forms.TextInput(
            attrs={"autocomplete": "off", "autocapitalize": "characters", "spellcheck": "false"}
        ),
    )
    name = forms.CharField(
        label=gettext_lazy("Name of your crew"),
        max_length=60,
        help_text=gettext_lazy("The same name later, or on another tablet, brings back what you drew."),
    )
