"""The records of periods: tasks of a house, who was here, crews, what they said, fixes and notes."""

from datetime import datetime, timedelta

from django.db import models
from django.utils.translation import gettext_lazy as _

from setday.web.keeping.people import Member, OfSchool, School, SchoolClass

__all__ = [
    "Attendance",
    "AttendanceState",
    "ClassPeriod",
    "CrewSeat",
    "CrewWork",
    "HouseTask",
    "PeriodCrew",
    "PeriodFix",
    "PeriodMark",
    "PeriodNote",
]


class HouseTask(models.Model):
    """A task of a house: taken from the house and the class file, or typed by the instructor.

    `after` lists keys of tasks before it, `parts` those of the work it is made of.  `gone` is True where the
    house or the class file no longer has it; what was said of it stays.
    """

    house = models.ForeignKey("keeping.House", on_delete=models.CASCADE, related_name="tasks")
    key = models.CharField(max_length=300)
    label = models.CharField(max_length=300)
    trade = models.CharField(max_length=100)
    skill = models.CharField(max_length=100, blank=True, default="")
    place = models.CharField(max_length=200)
    quantity = models.FloatField(default=0)
    unit = models.CharField(max_length=40, blank=True, default="")
    minutes = models.PositiveIntegerField(default=0)
    crew_least = models.PositiveIntegerField(default=1)
    crew_most = models.PositiveIntegerField(default=4)
    after = models.JSONField(default=list)
    parts = models.JSONField(default=list)
    signoffs = models.JSONField(default=list)
    exposures = models.JSONField(default=list)
    on_site = models.BooleanField(default=True)
    filler = models.BooleanField(default=False)
    by_hand = models.BooleanField(default=False)
    gone = models.BooleanField(default=False)
    order = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["order", "pk"]
        constraints = [models.UniqueConstraint(fields=["house", "key"], name="one_task_a_key")]

    def __str__(self) -> str:
        return self.label


class ClassPeriod(models.Model):
    """One meeting of a class at a house, as it was."""

    school = models.ForeignKey(School, on_delete=models.PROTECT, related_name="+")
    school_class = models.ForeignKey(SchoolClass, on_delete=models.PROTECT, related_name="periods")
    house = models.ForeignKey("keeping.House", on_delete=models.PROTECT, related_name="periods")
    begins = models.DateTimeField()
    minutes = models.PositiveIntegerField()
    closed_at = models.DateTimeField(null=True, blank=True)
    words = models.TextField(blank=True, default="")
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        ordering = ["-begins", "pk"]
        constraints = [models.UniqueConstraint(fields=["school_class", "begins"], name="one_period_a_bell")]

    def __str__(self) -> str:
        return f"{self.school_class}, {self.begins:%Y-%m-%d %H:%M}"

    @property
    def ends(self) -> datetime:
        """When its bell rings."""
        end: datetime = self.begins + timedelta(minutes=self.minutes)
        return end

    @property
    def closed(self) -> bool:
        """Whether the instructor closed it; then nothing more is entered."""
        return self.closed_at is not None


class AttendanceState(models.TextChoices):
    """Whether somebody was here."""

    HERE = "here", _("here")
    LATE = "late", _("late")
    AWAY = "away", _("away")


class Attendance(models.Model):
    """Whether a member was here in a period; no row: nobody looked yet."""

    period = models.ForeignKey(ClassPeriod, on_delete=models.CASCADE, related_name="attendance")
    member = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="attendance")
    state = models.CharField(max_length=4, choices=AttendanceState.choices)
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["period", "member"], name="here_or_away_once")]

    def __str__(self) -> str:
        return f"{self.member}: {self.state}"


class PeriodCrew(models.Model):
    """A crew of a period; its number is its name."""

    period = models.ForeignKey(ClassPeriod, on_delete=models.CASCADE, related_name="crews")
    number = models.PositiveIntegerField()

    class Meta:
        ordering = ["number"]
        constraints = [models.UniqueConstraint(fields=["period", "number"], name="one_crew_a_number")]

    def __str__(self) -> str:
        return str(self.number)


class CrewSeat(models.Model):
    """A member in a crew; the records themselves keep anybody out of two crews of one period."""

    period = models.ForeignKey(ClassPeriod, on_delete=models.CASCADE, related_name="seats")
    crew = models.ForeignKey(PeriodCrew, on_delete=models.CASCADE, related_name="seats")
    member = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="seats")

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["period", "member"], name="one_crew_a_member")]

    def __str__(self) -> str:
        return f"{self.member} in crew {self.crew}"


class CrewWork(models.Model):
    """A task that a crew is to do in a period, in order."""

    crew = models.ForeignKey(PeriodCrew, on_delete=models.CASCADE, related_name="works")
    task = models.ForeignKey(HouseTask, on_delete=models.PROTECT, related_name="works")
    order = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["order", "pk"]
        constraints = [models.UniqueConstraint(fields=["crew", "task"], name="one_task_a_crew")]

    def __str__(self) -> str:
        return f"crew {self.crew}: {self.task}"


class Entered(models.Model):
    """Something entered on a tablet; `entry` is made there, so that what is sent twice is kept once.

    `by` is who was signed in, `device` the chosen device it was entered at.
    """

    entry = models.UUIDField(unique=True)
    by = models.CharField(max_length=200)
    device = models.CharField(max_length=200, blank=True, default="")
    at = models.DateTimeField()
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        abstract = True
        ordering = ["at", "pk"]


class PeriodMark(Entered):
    """What a crew said of its task; `members` holds the keys of those who were at it."""

    period = models.ForeignKey(ClassPeriod, on_delete=models.CASCADE, related_name="marks")
    crew = models.ForeignKey(PeriodCrew, on_delete=models.PROTECT, related_name="marks")
    task = models.ForeignKey(HouseTask, on_delete=models.PROTECT, related_name="marks")
    kind = models.CharField(max_length=12)
    quantity = models.FloatField(null=True, blank=True)
    why = models.CharField(max_length=300, blank=True, default="")
    members = models.JSONField(default=list)
    taken_back = models.BooleanField(default=False)

    def __str__(self) -> str:
        return f"{self.task}: {self.kind}"


class PeriodFix(Entered):
    """A mistake that was put right: what, where, who noticed, what it cost, what was learned."""

    period = models.ForeignKey(ClassPeriod, on_delete=models.CASCADE, related_name="fixes")
    task = models.ForeignKey(HouseTask, null=True, blank=True, on_delete=models.PROTECT, related_name="fixes")
    what = models.CharField(max_length=500)
    place = models.CharField(max_length=200, blank=True, default="")
    noticed_by = models.CharField(max_length=200, blank=True, default="")
    learned = models.CharField(max_length=500, blank=True, default="")
    minutes = models.PositiveIntegerField(default=0)
    cost_cents = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return self.what


class PeriodNote(Entered):
    """A note of a period."""

    period = models.ForeignKey(ClassPeriod, on_delete=models.CASCADE, related_name="notes")
    crew = models.ForeignKey(
        PeriodCrew, null=True, blank=True, on_delete=models.SET_NULL, related_name="notes"
    )
    text = models.TextField()
    photo = models.ForeignKey(
        "keeping.Photo", null=True, blank=True, on_delete=models.PROTECT, related_name="notes"
    )

    def __str__(self) -> str:
        return self.text[:60]
