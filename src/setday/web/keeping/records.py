"""What records have in common: kept files with their versions, lists in force, where long work stands."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from setday.web.keeping.people import OfSchool, School

__all__ = ["FileVersion", "ListInForce", "RunState", "VersionedRecord"]


class VersionedRecord(models.Model):
    """What versions of a file hang on: it has a name and an address, and leaves the list when put away."""

    school = models.ForeignKey(School, on_delete=models.PROTECT, related_name="+")
    key = models.SlugField(max_length=60)
    name = models.CharField(max_length=200)
    put_away = models.BooleanField(default=False)
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        abstract = True
        ordering = ["name", "pk"]
        constraints = [models.UniqueConstraint(fields=["school", "key"], name="one_%(class)s_a_key")]

    def __str__(self) -> str:
        return self.name


class FileVersion(models.Model):
    """A file as it was entered, to the letter; its number counts within what it is a version of."""

    number = models.PositiveIntegerField()
    file_name = models.CharField(max_length=200)
    text = models.TextField()
    note = models.CharField(max_length=200, blank=True, default="")
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        abstract = True
        ordering = ["-number"]


class ListInForce(models.Model):
    """A list as it was entered; the newest is in force."""

    school = models.ForeignKey(School, on_delete=models.PROTECT, related_name="+")
    number = models.PositiveIntegerField()
    file_name = models.CharField(max_length=200)
    text = models.TextField()
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        abstract = True
        ordering = ["-number"]
        constraints = [models.UniqueConstraint(fields=["school", "number"], name="one_%(class)s_a_number")]

    def __str__(self) -> str:
        return f"{self.file_name}, {self.number}"


class RunState(models.TextChoices):
    """Where long work stands."""

    WAITING = "waiting", _("waiting")
    RUNNING = "running", _("running")
    DONE = "done", _("done")
    STOPPED = "stopped", _("stopped")
    INTERRUPTED = "interrupted", _("interrupted")
    FAILED = "failed", _("without an answer")
