"""The records."""

from django.db import models

from setday.web.keeping.gates import ClosedSurface, GateAdded, GateMark, GateSettings
from setday.web.keeping.people import (
    Card,
    Device,
    Member,
    MemberRole,
    MemberSignOff,
    OfSchool,
    PresenceTick,
    School,
    SchoolClass,
)
from setday.web.keeping.periods import (
    Attendance,
    AttendanceState,
    ClassPeriod,
    CrewSeat,
    CrewWork,
    HouseTask,
    PeriodCrew,
    PeriodFix,
    PeriodMark,
    PeriodNote,
)
from setday.web.keeping.photos import Photo
from setday.web.keeping.records import FileVersion, ListInForce, RunState, VersionedRecord
from setday.web.keeping.sealed import SealedEntry, SealedOffer, SlipMark
from setday.web.keeping.timetables import ClassFileVersion, TimetableKind, TimetableRun

__all__ = [
    "Attendance",
    "AttendanceState",
    "BoardRun",
    "Card",
    "ClassFileVersion",
    "ClassPeriod",
    "ClosedSurface",
    "CrewSeat",
    "CrewWork",
    "Device",
    "FaultSearch",
    "FirstCode",
    "GateAdded",
    "GateMark",
    "GateSettings",
    "HookupDrawing",
    "HookupVersion",
    "House",
    "HouseTask",
    "HouseVersion",
    "Hunt",
    "HuntCrew",
    "KeptHookup",
    "Member",
    "MemberRole",
    "MemberSignOff",
    "PeriodCrew",
    "PeriodFix",
    "PeriodMark",
    "PeriodNote",
    "Photo",
    "PresenceTick",
    "PriceList",
    "PulledRun",
    "RunState",
    "School",
    "SchoolClass",
    "SealedEntry",
    "SealedOffer",
    "SlipMark",
    "StockCount",
    "TimetableKind",
    "TimetableRun",
    "WrongTry",
]


class House(VersionedRecord):
    """A house the class builds: its versions hang on it."""

    @property
    def newest(self) -> "HouseVersion":
        """The version in force."""
        found: HouseVersion = self.versions.order_by("-number")[0]
        return found


class HouseVersion(FileVersion):
    """A house file as it was entered."""

    house = models.ForeignKey(House, on_delete=models.CASCADE, related_name="versions")

    class Meta(FileVersion.Meta):
        constraints = [models.UniqueConstraint(fields=["house", "number"], name="one_version_a_number")]

    def __str__(self) -> str:
        return f"{self.house}, version {self.number}"


class PriceList(ListInForce):
    """A price list as it was entered."""


class StockCount(ListInForce):
    """What is in the yard, as it was entered."""


class BoardRun(models.Model):
    """One search for a board layout: what was asked, how far it is, the best layout."""

    version = models.ForeignKey(HouseVersion, on_delete=models.CASCADE, related_name="runs")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=12, choices=RunState.choices, default=RunState.WAITING)
    label = models.CharField(max_length=200, blank=True, default="")
    options = models.JSONField(default=dict)
    prices = models.ForeignKey(PriceList, null=True, on_delete=models.PROTECT, related_name="runs")
    made_at = models.DateTimeField(auto_now_add=True)
    ended_at = models.DateTimeField(null=True)
    stop_asked = models.BooleanField(default=False)
    cost_cents = models.BigIntegerField(null=True)
    bound_cents = models.FloatField(null=True)
    seconds = models.FloatField(default=0)
    stage = models.CharField(max_length=200, blank=True, default="")
    reports = models.JSONField(default=list)
    outcome = models.JSONField(null=True)
    kept_layouts = models.PositiveIntegerField(default=0)
    group = models.PositiveIntegerField(default=0)
    message = models.TextField(blank=True, default="")

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return f"{self.version}, run {self.number}"

    @property
    def at_work(self) -> bool:
        """Whether the run is still going or waiting its turn."""
        return self.state in {RunState.WAITING, RunState.RUNNING}

    @property
    def gap(self) -> float | None:
        """Best cost over proven bound, less one; None before both are known."""
        if self.cost_cents is None or not self.bound_cents:
            return None
        return self.cost_cents / self.bound_cents - 1


class KeptHookup(VersionedRecord):
    """A hookup the class works on: its versions hang on it; it belongs to a house or to none.

    Its own joins and the plan worked out from it are the answer; while `plan_opened` is False no page
    of a crew may show them or let them be derived.  `bench_code` lets crews in to draw; empty: nobody.
    `house_group` names the switched group of the house it was taken from, `house_version` the version of
    the house file; empty and None where it was brought in otherwise.
    """

    house = models.ForeignKey(House, null=True, blank=True, on_delete=models.SET_NULL, related_name="hookups")
    plan_opened = models.BooleanField(default=False)
    bench_code = models.CharField(max_length=12, blank=True, default="")
    house_group = models.CharField(max_length=200, blank=True, default="")
    house_version = models.PositiveIntegerField(null=True, blank=True)

    @property
    def newest(self) -> "HookupVersion":
        """The version in force."""
        found: HookupVersion = self.versions.order_by("-number")[0]
        return found

    @property
    def newer_house(self) -> int | None:
        """The number of the house file in force, where this was taken from an older one."""
        if self.house is None or self.house_version is None:
            return None
        number: int = self.house.newest.number
        return number if number > self.house_version else None


class HookupVersion(FileVersion):
    """A hookup file as it was entered."""

    hookup = models.ForeignKey(KeptHookup, on_delete=models.CASCADE, related_name="versions")

    class Meta(FileVersion.Meta):
        constraints = [
            models.UniqueConstraint(fields=["hookup", "number"], name="one_hookup_version_a_number")
        ]

    def __str__(self) -> str:
        return f"{self.hookup}, version {self.number}"


class HookupDrawing(models.Model):
    """What somebody drew by hand on the boxes, cables and devices of a hookup, step by step.

    `by` names who draws: empty for the instructor, else a name that tells one crew from another.
    `steps` are those of `setday.switching.drawn`; the first `at` of them are in force, the rest undone.
    `picked` is the end that waits for another.
    """

    hookup = models.ForeignKey(KeptHookup, on_delete=models.CASCADE, related_name="drawings")
    by = models.CharField(max_length=100, blank=True, default="")
    steps = models.JSONField(default=list)
    at = models.PositiveIntegerField(default=0)
    picked = models.CharField(max_length=500, blank=True, default="")
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["hookup", "by"], name="one_drawing_each")]

    def __str__(self) -> str:
        return f"{self.hookup}, drawn by {self.by or 'the instructor'}"


class Hunt(models.Model):
    """A fault planted in a correct plan for crews to find.

    `planted` is the answer, in the words of the plan's list of faults.  Until `opened` no page of a crew
    may show it or anything worked out from it, except what the circuit answers to a flip or a reading.
    `likely` sets likelihoods of kinds of faults for this hunt; `best` is what the shortest hunts take.
    """

    school = models.ForeignKey(School, on_delete=models.PROTECT, related_name="+")
    code = models.CharField(max_length=12, unique=True)
    name = models.CharField(max_length=200)
    file_name = models.CharField(max_length=200)
    text = models.TextField()
    likely = models.JSONField(default=dict)
    planted = models.CharField(max_length=500)
    drawn = models.JSONField(default=dict)
    best = models.JSONField(null=True)
    plan_shown = models.BooleanField(default=False)
    opened = models.BooleanField(default=False)
    closed = models.BooleanField(default=False)
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return f"{self.name}, hunt {self.pk}"


class HuntCrew(models.Model):
    """One crew of a hunt: where its handles stand, which boxes are open, what it saw and named."""

    hunt = models.ForeignKey(Hunt, on_delete=models.CASCADE, related_name="crews")
    key = models.CharField(max_length=12)
    name = models.CharField(max_length=60)
    position = models.JSONField(default=list)
    opened = models.JSONField(default=list)
    lines = models.JSONField(default=list)
    named = models.JSONField(null=True)
    made_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["hunt", "name"], name="one_crew_a_name"),
            models.UniqueConstraint(fields=["hunt", "key"], name="one_crew_a_key"),
        ]

    def __str__(self) -> str:
        return f"{self.name} in {self.hunt}"


class FaultSearch(models.Model):
    """What was observed on a hookup that was planned right and built wrong, and the search for two faults."""

    school = models.ForeignKey(School, on_delete=models.PROTECT, related_name="+")
    name = models.CharField(max_length=200)
    file_name = models.CharField(max_length=200)
    text = models.TextField()
    lines = models.JSONField(default=list)
    likely = models.JSONField(default=dict)
    state = models.CharField(max_length=12, choices=RunState.choices, blank=True, default="")
    stop_asked = models.BooleanField(default=False)
    share = models.FloatField(default=0)
    pairs = models.JSONField(null=True)
    message = models.TextField(blank=True, default="")
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return f"{self.name}, search {self.pk}"

    @property
    def at_work(self) -> bool:
        """Whether the search for two faults is still going or waiting its turn."""
        return self.state in {RunState.WAITING, RunState.RUNNING}


class PulledRun(models.Model):
    """A run of cable that was pulled: by whom, and how long it was by the tape.

    `number` and `ends` say which run it was when it was ticked; a later version of the house may number
    its runs anew, and then the ends tell that it is another run.  `measured` is in 1/64 in, None where
    nobody measured.  `coil` is the coil it was cut from, 0 for the one of the plan.
    """

    house = models.ForeignKey(House, on_delete=models.CASCADE, related_name="pulled_runs")
    number = models.CharField(max_length=20)
    ends = models.CharField(max_length=300)
    measured = models.PositiveIntegerField(null=True)
    coil = models.PositiveIntegerField(default=0)
    by = models.CharField(max_length=100, blank=True, default="")
    at = models.DateTimeField(auto_now=True)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["house", "number"], name="one_tick_a_run")]

    def __str__(self) -> str:
        return f"{self.house}, run {self.number}"


class FirstCode(models.Model):
    """The first-start code in force; only its digest is kept."""

    digest = models.CharField(max_length=64)
    made_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return f"first-start code of {self.made_at}"


class WrongTry(models.Model):
    """A wrong password or code: what was tried, whose, and from where."""

    what = models.CharField(max_length=12, default="password")
    who = models.CharField(max_length=150)
    address = models.CharField(max_length=64)
    at = models.DateTimeField(db_index=True)

    def __str__(self) -> str:
        return f"{self.who} from {self.address}"
