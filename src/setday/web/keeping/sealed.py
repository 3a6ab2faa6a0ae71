"""The records of sealed figures: what was offered to a class, handed in, and marked by the instructor."""

from django.db import models

from setday.web.keeping.people import Member, OfSchool, School, SchoolClass

__all__ = ["SealedEntry", "SealedOffer", "SlipMark"]


class SealedOffer(models.Model):
    """A figure of a house that a class, or some of it, tries before the answer is shown.

    `figure` is its key in the house file of that version, so that a later file changes nothing here.
    Until `opened_at` is set no page of a crew may show the answer or anything it follows from.
    `by_layout`: boards are laid on the drawn wall instead of figuring; then the drawing is not sealed.
    """

    school = models.ForeignKey(School, on_delete=models.PROTECT, related_name="+")
    school_class = models.ForeignKey(SchoolClass, on_delete=models.CASCADE, related_name="sealed_figures")
    version = models.ForeignKey("keeping.HouseVersion", on_delete=models.PROTECT, related_name="+")
    figure = models.CharField(max_length=300)
    members = models.ManyToManyField(Member, blank=True, related_name="sealed_figures")
    tries = models.PositiveIntegerField(default=1)
    hints = models.BooleanField(default=False)
    by_layout = models.BooleanField(default=False)
    opened_at = models.DateTimeField(null=True, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return f"{self.figure} for {self.school_class}"

    @property
    def opened(self) -> bool:
        """Whether the answer is shown."""
        return self.opened_at is not None


class SealedEntry(models.Model):
    """What a crew member handed in once; `beside` names who worked with them.

    `lines` are the rows of the sheet as typed; `boards` are those laid on the drawn wall, in 1/64 in.
    """

    offer = models.ForeignKey(SealedOffer, on_delete=models.CASCADE, related_name="entries")
    member = models.ForeignKey(Member, on_delete=models.CASCADE, related_name="sealed_entries")
    entry = models.UUIDField(unique=True)
    beside = models.JSONField(default=list)
    lines = models.JSONField(default=list)
    answer = models.CharField(max_length=60)
    worked = models.CharField(max_length=200, blank=True, default="")
    boards = models.JSONField(default=list)
    at = models.DateTimeField()
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.member}: {self.answer}"


class SlipMark(models.Model):
    """That the instructor marked a kind of slip as the right one for an entry; a class's odds count these."""

    school_class = models.ForeignKey(SchoolClass, on_delete=models.CASCADE, related_name="slip_marks")
    entry = models.OneToOneField(SealedEntry, on_delete=models.CASCADE, related_name="mark")
    kind = models.CharField(max_length=40)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.kind
