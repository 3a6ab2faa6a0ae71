"""A roster typed, pasted, or picked as one file or several."""

from typing import Any

from django import forms
from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext_lazy as _

from setday.web.file_form import typed_text
from setday.web.uploads import megabytes

__all__ = ["RosterForm"]


class _Files(forms.FileInput):
    allow_multiple_selected = True


class _FilesField(forms.FileField):
    """Any number of files."""

    def clean(self, data: Any, initial: Any = None) -> list[UploadedFile]:
        given = data if isinstance(data, list | tuple) else [data]
        return [super(_FilesField, self).clean(each, initial) for each in given if each]


class RosterForm(forms.Form):
    """Names typed one a line, a CSV file, a OneRoster archive or its files."""

    text = typed_text(label=_("The roster"), rows=12)
    file = _FilesField(
        label=_("Or a file from this device"),
        required=False,
        allow_empty_file=True,
        help_text=_("A CSV file, or OneRoster: the whole archive, or its CSV files picked together."),
        widget=_Files(attrs={"accept": ".csv,.zip,.txt,text/*", "multiple": True}),
    )

    def clean_file(self) -> list[UploadedFile]:
        files: list[UploadedFile] = self.cleaned_data.get("file") or []
        most = settings.LARGEST_PRICE_LIST
        size = sum(each.size or 0 for each in files)
        if size > most:
            words = _("These files are %(size)s; a roster over %(most)s is not read. Pick the right ones.")
            raise forms.ValidationError(words % {"size": megabytes(size), "most": megabytes(most)})
        return files

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        if not self.errors and not entered.get("file") and not (entered.get("text") or "").strip():
            raise forms.ValidationError(_("Nothing came. Type one name on each line, or pick a file."))
        return entered
