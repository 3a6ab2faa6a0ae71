"""A text file sent in, picked on the device or typed into the page; and handed out as it was kept."""

from typing import Any, ClassVar, Self

from django import forms
from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpResponse
from django.utils.http import content_disposition_header
from django.utils.translation import gettext_lazy

from setday.web.uploads import megabytes

__all__ = ["TextFileForm", "VersionForm", "as_text", "handed_out", "picked_file", "typed_text"]


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


class VersionForm(TextFileForm):
    """A text file that is kept as a version of something, with a few words on what changed."""

    file = picked_file(label=gettext_lazy("A file from this device"), accept=".yaml,.yml,.txt,text/*")
    note = forms.CharField(
        label=gettext_lazy("What changed"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("A few words for the list of versions; may stay empty."),
    )

    largest = "LARGEST_HOUSE_FILE"
    nothing_came = gettext_lazy("Nothing came. Pick a file, or type or paste one below.")

    def again(self, text: str) -> Self:
        """Return the form with everything that was typed; a file that was picked is laid open in it.

        Parameters
        ----------
        text : str
            Of the file that was picked, or what was typed; empty where no text could be read.
        """
        _, name = self.sent
        text = text or self.cleaned_data["text"]
        return type(self)(initial={"text": text, "file_name": name, "note": self.cleaned_data["note"]})


def as_text(data: bytes | str) -> str:
    """Return what was sent in as text; nothing where it is none."""
    if isinstance(data, str):
        return data
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return ""
    return "" if "\0" in text else text.replace("\r\n", "\n").replace("\r", "\n")


def handed_out(text: str, *, name: str, kind: str) -> HttpResponse:
    """Return a kept text as a file for the device, to the letter.

    Parameters
    ----------
    text : str
    name : str
        What the file is called: "shed.yaml".
    kind : str
        Its media type: "text/csv".
    """
    response = HttpResponse(text, content_type=f"{kind}; charset=utf-8")
    response.headers["Content-Disposition"] = content_disposition_header(True, name)
    return response
