"""What is typed about a timetable."""

from typing import ClassVar

from django import forms
from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext_lazy

from setday.web.file_form import VersionForm, picked_file, typed_text
from setday.web.uploads import megabytes

__all__ = ["ClassFileForm", "SchoolCalendarForm", "SearchForm"]

LARGEST_CALENDAR = 2_000_000
"""Bytes of a school's calendar that are taken; our own."""


class ClassFileForm(VersionForm):
    """A class file, picked or typed."""

    text = typed_text(label=gettext_lazy("The class file"), rows=24)

    usual_name = "class.yaml"
    too_large = gettext_lazy(
        "%(name)s is %(size)s; a class file over %(most)s is not read. Pick the right file."
    )
    too_long = gettext_lazy("The text is longer than any class file. Paste the class file only.")


class SchoolCalendarForm(forms.Form):
    """A school's calendar file."""

    file = picked_file(label=gettext_lazy("The school's calendar (.ics)"), accept=".ics,text/calendar")

    largest: ClassVar[int] = LARGEST_CALENDAR

    def clean_file(self) -> UploadedFile:
        file: UploadedFile | None = self.cleaned_data.get("file")
        if file is None:
            raise forms.ValidationError(gettext_lazy("Nothing came. Pick a calendar file."))
        if (file.size or 0) > min(self.largest, settings.LARGEST_REQUEST):
            raise forms.ValidationError(
                gettext_lazy("%(name)s is %(size)s; a calendar over %(most)s is not read."),
                params={
                    "name": file.name,
                    "size": megabytes(file.size or 0),
                    "most": megabytes(self.largest),
                },
            )
        return file


class SearchForm(forms.Form):
    """How long to search."""

    seconds = forms.TypedChoiceField(
        label=gettext_lazy("How long to search"),
        coerce=float,
        choices=[
            ("5", gettext_lazy("5 seconds")),
            ("15", gettext_lazy("15 seconds")),
            ("30", gettext_lazy("30 seconds")),
            ("120", gettext_lazy("2 minutes")),
            ("600", gettext_lazy("10 minutes")),
        ],
        initial="15",
    )
