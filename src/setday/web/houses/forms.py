"""What is typed about a house."""

from typing import Any

from django import forms
from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from setday.web.uploads import megabytes

__all__ = ["HouseFileForm"]

_DEFAULT_NAME = "house.yaml"


class HouseFileForm(forms.Form):
    """A house file, picked or typed."""

    file = forms.FileField(
        label=gettext_lazy("A file from this device"),
        required=False,
        allow_empty_file=True,
        widget=forms.FileInput(attrs={"accept": ".yaml,.yml,.txt,text/*"}),
    )
    text = forms.CharField(
        label=gettext_lazy("The house file"),
        required=False,
        strip=False,
        widget=forms.Textarea(
            attrs={
                "class": "file",
                "spellcheck": "false",
                "autocapitalize": "none",
                "autocomplete": "off",
                "wrap": "off",
                "rows": 24,
            }
        ),
    )
    file_name = forms.CharField(required=False, max_length=200, widget=forms.HiddenInput)
    note = forms.CharField(
        label=gettext_lazy("What changed"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("A few words for the list of versions; may stay empty."),
    )

    def clean_file(self) -> UploadedFile | None:
        file: UploadedFile | None = self.cleaned_data.get("file")
        if file is not None and (file.size or 0) > settings.LARGEST_HOUSE_FILE:
            raise forms.ValidationError(
                _("%(name)s is %(size)s; a house file over %(most)s is not read. Pick the right file.")
                % {
                    "name": file.name,
                    "size": megabytes(file.size or 0),
                    "most": megabytes(settings.LARGEST_HOUSE_FILE),
                }
            )
        return file

    def clean_text(self) -> str:
        text: str = self.cleaned_data.get("text") or ""
        if len(text) > settings.LARGEST_HOUSE_FILE:
            raise forms.ValidationError(
                _("The text is longer than any house file. Paste the house file only.")
            )
        return text.replace("\r\n", "\n").replace("\r", "\n")

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        if self.errors:
            return entered
        if entered.get("file") is None and not (entered.get("text") or "").strip():
            raise forms.ValidationError(_("Nothing came. Pick a file, or type or paste one below."))
        return entered

    @property
    def sent(self) -> tuple[bytes | str, str]:
        """What was sent in, and its file's name: a picked file goes before typed text."""
        file = self.cleaned_data.get("file")
        if file is not None:
            file.seek(0)
            return file.read(), str(file.name)
        return self.cleaned_data["text"], self.cleaned_data.get("file_name") or _DEFAULT_NAME
