"""The records of timetables: class files of a house, searches for a timetable, what came of them."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from setday.web.keeping.records import FileVersion, RunState

__all__ = ["ClassFileVersion", "TimetableKind", "TimetableRun"]


class ClassFileVersion(FileVersion):
    """The class file of a house as it was entered; the newest is in force."""

    house = models.ForeignKey("keeping.House", on_delete=models.CASCADE, related_name="class_files")

    class Meta(FileVersion.Meta):
        constraints = [models.UniqueConstraint(fields=["house", "number"], name="one_class_file_a_number")]

    def __str__(self) -> str:
        return f"{self.house}, class file {self.number}"


class TimetableKind(models.TextChoices):
    """How a timetable came about; odds are played on one, reasons sought for one, and make none."""

    SOLVED = "solved", _("solved")
    REPAIRED = "repaired", _("repaired")
    BY_HAND = "by hand", _("changed by hand")
    ODDS = "odds", _("odds")
    REASONS = "reasons", _("reasons")


class TimetableRun(models.Model):
    """One search, repair or change by hand: what it began from, how far it is, the timetable.

    `document` is the timetable as it is saved, or the odds; `before` the timetable it was made from.
    `put_back` is True once it was undone.  `told` holds what moved, what it breaks, or why there is none.
    """

    house = models.ForeignKey("keeping.House", on_delete=models.CASCADE, related_name="timetables")
    version = models.ForeignKey("keeping.HouseVersion", on_delete=models.CASCADE, related_name="+")
    class_file = models.ForeignKey(ClassFileVersion, on_delete=models.CASCADE, related_name="+")
    before = models.ForeignKey("self", null=True, blank=True, on_delete=models.SET_NULL, related_name="+")
    number = models.PositiveIntegerField()
    kind = models.CharField(max_length=8, choices=TimetableKind.choices, default=TimetableKind.SOLVED)
    state = models.CharField(max_length=12, choices=RunState.choices, default=RunState.WAITING)
    options = models.JSONField(default=dict)
    stop_asked = models.BooleanField(default=False)
    seconds = models.FloatField(default=0)
    finish = models.PositiveIntegerField(null=True)
    bound = models.PositiveIntegerField(null=True)
    ready = models.DateField(null=True)
    earliest = models.DateField(null=True)
    share = models.FloatField(default=0)
    document = models.JSONField(null=True)
    told = models.JSONField(default=dict)
    message = models.TextField(blank=True, default="")
    put_back = models.BooleanField(default=False)
    made_at = models.DateTimeField(auto_now_add=True)
    ended_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-number"]
        constraints = [models.UniqueConstraint(fields=["house", "number"], name="one_timetable_a_number")]

    def __str__(self) -> str:
        return f"{self.house}, timetable {self.number}"

    @property
    def at_work(self) -> bool:
        """Whether it is still going or waiting its turn."""
        return self.state in {RunState.WAITING, RunState.RUNNING}

    @property
    def is_timetable(self) -> bool:
        """Whether what it keeps is a timetable."""
        return self.document is not None and self.kind not in {TimetableKind.ODDS, TimetableKind.REASONS}

    @property
    def gap(self) -> int | None:
        """Periods between the best finish and the proven bound; None before both are known."""
        if self.finish is None or not self.bound:
            return None
        return max(0, self.finish - self.bound)
