"""The records of schools and their people: classes, members, cards, sign-offs, chosen devices."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

__all__ = [
    "Card",
    "Device",
    "Member",
    "MemberRole",
    "MemberSignOff",
    "OfSchool",
    "PresenceTick",
    "School",
    "SchoolClass",
    "first_school",
]

IDLE_MINUTES = 15
"""After how long a tablet that nobody touches is signed out, unless the school says otherwise; our own."""


class School(models.Model):
    """One school of the installation: its houses, people and lists are seen by nobody of another.

    `only_devices` closes the site to all but the devices chosen; `idle_minutes` signs a crew's tablet out.
    """

    key = models.SlugField(max_length=60, unique=True)
    name = models.CharField(max_length=200)
    only_devices = models.BooleanField(default=False)
    idle_minutes = models.PositiveIntegerField(default=IDLE_MINUTES)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name


class OfSchool(models.QuerySet):
    """Rows that belong to a school."""

    def of(self, school: School) -> "OfSchool":
        """Return those of one school: every page asks through this."""
        rows: OfSchool = self.filter(school=school)
        return rows


def first_school() -> School:
    """Return the school that was there first; an installation without one gets it now."""
    found: School | None = School.objects.order_by("pk").first()
    return found or School.objects.get_or_create(key="school", defaults={"name": str(_("Our school"))})[0]


class SchoolClass(models.Model):
    """A class of a school: the morning's, the afternoon's."""

    school = models.ForeignKey(School, on_delete=models.PROTECT, related_name="classes")
    key = models.SlugField(max_length=60)
    name = models.CharField(max_length=200)
    put_away = models.BooleanField(default=False)
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        ordering = ["name", "pk"]
        constraints = [models.UniqueConstraint(fields=["school", "key"], name="one_class_a_key")]

    def __str__(self) -> str:
        return self.name


class MemberRole(models.TextChoices):
    """What somebody is to a school."""

    INSTRUCTOR = "instructor", _("instructor")
    HELPER = "helper", _("helper")
    CREW = "crew member", _("crew member")
    READER = "reader", _("reader")


class Member(models.Model):
    """A person of a school; a crew member stands in a class, the others need none.

    `shown_as` is what crews and the wall screen read: a first name and a letter, no more.
    `number` is the school's own for this person, from a roster file; it may be empty.
    `born` may be unknown; then every limit for minors holds.
    """

    school = models.ForeignKey(School, on_delete=models.PROTECT, related_name="members")
    school_class = models.ForeignKey(
        SchoolClass, null=True, blank=True, on_delete=models.PROTECT, related_name="members"
    )
    key = models.SlugField(max_length=60)
    name = models.CharField(max_length=200)
    shown_as = models.CharField(max_length=60)
    number = models.CharField(max_length=100, blank=True, default="")
    role = models.CharField(max_length=12, choices=MemberRole.choices, default=MemberRole.CREW)
    user = models.OneToOneField(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.SET_NULL, related_name="member"
    )
    born = models.DateField(null=True, blank=True)
    student_learner = models.BooleanField(default=False)
    active = models.BooleanField(default=True)
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        ordering = ["name", "pk"]
        constraints = [models.UniqueConstraint(fields=["school", "key"], name="one_member_a_key")]

    def __str__(self) -> str:
        return self.name


class MemberSignOff(models.Model):
    """That somebody passed a safety test or showed a skill: what, when, and who saw it."""

    member = models.ForeignKey(Member, on_delete=models.CASCADE, related_name="signoffs")
    what = models.CharField(max_length=200)
    on = models.DateField()
    by = models.CharField(max_length=150)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["what", "-on", "pk"]
        constraints = [models.UniqueConstraint(fields=["member", "what", "on"], name="one_signoff_a_day")]

    def __str__(self) -> str:
        return f"{self.member}: {self.what}, {self.on}"


class Card(models.Model):
    """The code somebody comes in by: an open part that finds the card, and a digest of the secret part.

    A crew member's card serves until it is made anew.  A helper's or reader's serves once, to choose a
    password, and `ends_at` says until when.
    """

    member = models.OneToOneField(Member, on_delete=models.CASCADE, related_name="card")
    lookup = models.CharField(max_length=12, unique=True)
    secret = models.CharField(max_length=128)
    ends_at = models.DateTimeField(null=True, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"card of {self.member}"


class Device(models.Model):
    """A device chosen by the instructor.

    Until it has taken its one-time code, `code` holds the code's digest and `digest` is empty; from then
    on `digest` is that of what the device's browser keeps.
    """

    school = models.ForeignKey(School, on_delete=models.CASCADE, related_name="devices")
    name = models.CharField(max_length=100)
    digest = models.CharField(max_length=64, blank=True, default="", db_index=True)
    code = models.CharField(max_length=64, blank=True, default="")
    code_ends_at = models.DateTimeField(null=True, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)

    objects = OfSchool.as_manager()

    class Meta:
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name


class PresenceTick(models.Model):
    """That somebody signed in on a tablet ticked a classmate as being there too, or took the tick off."""

    signed_in = models.ForeignKey(Member, on_delete=models.CASCADE, related_name="ticks_made")
    member = models.ForeignKey(Member, on_delete=models.CASCADE, related_name="ticks")
    device = models.CharField(max_length=200, blank=True, default="")
    here = models.BooleanField()
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.member}, ticked by {self.signed_in}"
