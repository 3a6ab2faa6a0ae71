"""What is typed about a timetable."""

from typing import TYPE_CHECKING, Any, ClassVar

from django import forms
from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext_lazy

from setday.errors import SetdayError
from setday.web.file_form import VersionForm, picked_file, typed_text
from setday.web.uploads import megabytes

if TYPE_CHECKING:
    from setday.actions.timetable.problem import ClassDay

__all__ = ["ClassFileForm", "PinForm", "SchoolCalendarForm", "SearchForm"]

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


class PinForm(SearchForm):
    """What a repair holds fast: some students on a task on a day; all empty holds nothing."""

    task = forms.ChoiceField(label=gettext_lazy("Task to hold fast"), required=False)
    on = forms.DateField(
        label=gettext_lazy("On the day"),
        required=False,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
    )
    students = forms.CharField(
        label=gettext_lazy("With these students"),
        required=False,
        max_length=400,
        help_text=gettext_lazy("Names with commas between them; empty leaves open who."),
    )

    def __init__(self, *args: Any, day: "ClassDay", **more: Any) -> None:
        super().__init__(*args, **more)
        self.day = day
        self.pins: tuple[str, ...] = ()
        works = [(work.key, work.label) for work in day.work.works if not work.filler]
        self.fields["task"].choices = [("", gettext_lazy("nothing")), *works]

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        task, on, students = (entered.get(name) for name in ("task", "on", "students"))
        if self.errors or not (task or on or students):
            return entered
        if not task or not on:
            raise forms.ValidationError(gettext_lazy("Say both the task to hold fast and its day."))
        text = f"{task} on {on.isoformat()}" + (f" with {students.strip()}" if students else "")
        from setday.actions.timetable.repair import pin_from

        try:
            pin_from(text, self.day)
        except SetdayError as error:
            raise forms.ValidationError(str(error)) from error
        self.pins = (text,)
        return entered
