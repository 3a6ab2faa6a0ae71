"""What is typed about a hookup."""

from django import forms
from django.utils.translation import gettext_lazy

from setday.web.file_form import TextFileForm, picked_file, typed_text

__all__ = ["EnterForm", "HookupFileForm"]


class HookupFileForm(TextFileForm):
    """A hookup file, picked or typed."""

    file = picked_file(label=gettext_lazy("A file from this device"), accept=".yaml,.yml,.txt,text/*")
    text = typed_text(label=gettext_lazy("The hookup file"), rows=24)
    note = forms.CharField(
        label=gettext_lazy("What changed"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("A few words for the list of versions; may stay empty."),
    )

    largest = "LARGEST_HOUSE_FILE"
    usual_name = "hookup.yaml"
    too_large = gettext_lazy(
        "%(name)s is %(size)s; a hookup file over %(most)s is not read. Pick the right file."
    )
    too_long = gettext_lazy("The text is longer than any hookup file. Paste the hookup file only.")
    nothing_came = gettext_lazy("Nothing came. Pick a file, or type or paste one below.")


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
