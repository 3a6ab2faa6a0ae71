"""A text file sent in: picked on the device, or typed and pasted into the page."""

from typing import Any, ClassVar

from django import forms
from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext_lazy

from setday.web.uploads import megabytes

__all__ = ["TextFileForm", "picked_file", "typed_text"]


def picked_file(*, label: str, accept: str) -> forms.FileField:
    """Return the field for a file that is picked on the device.

    Parameters
    ----------
    label : str
    accept : str
        Which files the device offers: ".csv,text/*".
    """
    return forms.FileField(
        label=label,
        required=False,
        allow_empty_file=True,
        widget=forms.FileInput(attrs={"accept": accept}),
    )


def typed_text(*, label: str, rows: int) -> forms.CharField:
    """Return the field for text that is typed or pasted, and left as it was written."""
    as_written = {"spellcheck": "false", "autocapitalize": "none", "autocomplete": "off", "wrap": "off"}
    return forms.CharField(
        label=label,
        required=False,
        strip=False,
        widget=forms.Textarea(attrs={"class": "file", **as_written, "rows": rows}),
    )


class TextFileForm(forms.Form):
    """One text file.  A form for one kind of file gives its two fields, its largest size and its words."""

    file = picked_file(label=gettext_lazy("A file from this device"), accept="text/*")
    text = typed_text(label=gettext_lazy("The text"), rows=16)
    file_name = forms.CharField(required=False, max_length=200, widget=forms.HiddenInput)

    largest: ClassVar[str]
    """Name of the setting that says how large such a file may be."""
    usual_name: ClassVar[str]
    """What a file that was only typed is called."""
    too_large: ClassVar[str]
    """May say `%(name)s`, `%(size)s` and `%(most)s`."""
    too_long: ClassVar[str]
    nothing_came: ClassVar[str]

    def clean_file(self) -> UploadedFile | None:
        file: UploadedFile | None = self.cleaned_data.get("file")
        most = getattr(settings, self.largest)
        if file is not None and (file.size or 0) > most:
            facts = {"name": file.name, "size": megabytes(file.size or 0), "most": megabytes(most)}
            raise forms.ValidationError(self.too_large % facts)
        return file

    def clean_text(self) -> str:
        text: str = self.cleaned_data.get("text") or ""
        if len(text) > getattr(settings, self.largest):
            raise forms.ValidationError(self.too_long)
        return text.replace("\r\n", "\n").replace("\r", "\n")

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        if not self.errors and entered.get("file") is None and not (entered.get("text") or "").strip():
            raise forms.ValidationError(self.nothing_came)
        return entered

    @property
    def sent(self) -> tuple[bytes | str, str]:
        """What was sent in, and its file's name: a picked file goes before typed text."""
        file = self.cleaned_data.get("file")
        if file is not None:
            file.seek(0)
            return file.read(), str(file.name)
        return self.cleaned_data["text"], self.cleaned_data.get("file_name") or self.usual_name
