"""What is typed of prices and stock."""

from typing import Any

from django import forms
from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from setday.web.uploads import megabytes

__all__ = ["TableForm"]


class TableForm(forms.Form):
    """A table saved as CSV, picked or typed."""

    file = forms.FileField(
        label=gettext_lazy("A CSV file from this device"),
        required=False,
        allow_empty_file=True,
        widget=forms.FileInput(attrs={"accept": ".csv,.txt,text/*"}),
    )
    text = forms.CharField(
        label=gettext_lazy("The list as text"),
        required=False,
        strip=False,
        widget=forms.Textarea(
            attrs={
                "class": "file",
                "spellcheck": "false",
                "autocapitalize": "none",
                "autocomplete": "off",
                "wrap": "off",
                "rows": 16,
            }
        ),
    )
    file_name = forms.CharField(required=False, max_length=200, widget=forms.HiddenInput)

    def clean_file(self) -> UploadedFile | None:
        file: UploadedFile | None = self.cleaned_data.get("file")
        if file is not None and (file.size or 0) > settings.LARGEST_PRICE_LIST:
            facts = {"size": megabytes(file.size or 0), "most": megabytes(settings.LARGEST_PRICE_LIST)}
            raise forms.ValidationError(
                _("This file is %(size)s; a list over %(most)s is not read. Pick the right file.") % facts
            )
        return file

    def clean_text(self) -> str:
        text: str = self.cleaned_data.get("text") or ""
        return text.replace("\r\n", "\n").replace("\r", "\n")

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        if not self.errors and entered.get("file") is None and not (entered.get("text") or "").strip():
            raise forms.ValidationError(_("Nothing came. Pick a file, or type or paste the list."))
        return entered

    def sent(self, *, usual_name: str) -> tuple[bytes | str, str]:
        """Return what was sent in, and its file's name: a picked file goes before typed text."""
        file = self.cleaned_data.get("file")
        if file is not None:
            file.seek(0)
            return file.read(), str(file.name)
        return self.cleaned_data["text"], self.cleaned_data.get("file_name") or usual_name
