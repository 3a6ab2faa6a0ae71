"""What is typed about a house."""

from django import forms
from django.utils.translation import gettext_lazy

from setday.web.file_form import TextFileForm, picked_file, typed_text

__all__ = ["HouseFileForm"]


class HouseFileForm(TextFileForm):
    """A house file, picked or typed."""

    file = picked_file(label=gettext_lazy("A file from this device"), accept=".yaml,.yml,.txt,text/*")
    text = typed_text(label=gettext_lazy("The house file"), rows=24)
    note = forms.CharField(
        label=gettext_lazy("What changed"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("A few words for the list of versions; may stay empty."),
    )

    largest = "LARGEST_HOUSE_FILE"
    usual_name = "house.yaml"
    too_large = gettext_lazy(
        "%(name)s is %(size)s; a house file over %(most)s is not read. Pick the right file."
    )
    too_long = gettext_lazy("The text is longer than any house file. Paste the house file only.")
    nothing_came = gettext_lazy("Nothing came. Pick a file, or type or paste one below.")
