"""The records of gates: marks that are written once, what was added, and what closed surfaces hold."""

from django.db import models

__all__ = ["ClosedSurface", "GateAdded", "GateMark", "GateSettings"]


class SignedRecord(models.Model):
    """Something that somebody did at a gate of a house; who it was is written down as it was then."""

    house = models.ForeignKey("keeping.House", on_delete=models.CASCADE, related_name="+")
    entry = models.CharField(max_length=64)
    surface = models.CharField(max_length=200, blank=True, default="")
    by_key = models.CharField(max_length=64)
    by_name = models.CharField(max_length=200)
    by_role = models.CharField(max_length=12)
    at = models.DateTimeField()
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        abstract = True
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["house", "entry"], name="one_%(class)s_an_entry")]


class GateMark(SignedRecord):
    """One check-off, confirmation, refusal, overruling, closing; never changed.

    `surface` is empty for an inspection that passed everywhere, `item` for a mark on the surface itself.
    `version` is the house file that was in force; `signed_in_*` and `device` tell under whose sign-in it was
    made, which may name a classmate as having done it.
    """

    item = models.CharField(max_length=400, blank=True, default="")
    label = models.TextField()
    kind = models.CharField(max_length=12)
    words = models.CharField(max_length=1000, blank=True, default="")
    photo = models.CharField(max_length=64, blank=True, default="")
    version = models.PositiveIntegerField()
    signed_in_key = models.CharField(max_length=64, blank=True, default="")
    signed_in_name = models.CharField(max_length=200, blank=True, default="")
    device = models.CharField(max_length=200, blank=True, default="")

    class Meta(SignedRecord.Meta):
        indexes = [models.Index(fields=["house", "surface"], name="marks_of_a_surface")]

    def __str__(self) -> str:
        return f"{self.surface or 'every surface'}: {self.label}, {self.kind}"


class GateAdded(SignedRecord):
    """Something the instructor asks for at a gate; lengths are in 1/64 in.

    `struck` says why it is asked for no longer.
    """

    kind = models.CharField(max_length=12)
    what = models.CharField(max_length=12, blank=True, default="")
    words = models.CharField(max_length=1000, blank=True, default="")
    x = models.IntegerField(null=True, blank=True)
    y = models.IntegerField(null=True, blank=True)
    w = models.IntegerField(null=True, blank=True)
    h = models.IntegerField(null=True, blank=True)
    notice_days = models.PositiveIntegerField(default=0)
    struck = models.CharField(max_length=1000, blank=True, default="")

    def __str__(self) -> str:
        return f"{self.surface or 'every surface'}: {self.words or self.what}"


class ClosedSurface(models.Model):
    """What was inside a surface when the mark of an entry closed it; never changed.

    `record` is as `setday.closein.record_document` writes it, `digest` the SHA-256 of its JSON.
    """

    house = models.ForeignKey("keeping.House", on_delete=models.CASCADE, related_name="closed_surfaces")
    entry = models.CharField(max_length=64)
    surface = models.CharField(max_length=200)
    record = models.JSONField()
    digest = models.CharField(max_length=64)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["house", "entry"], name="one_record_a_closing")]

    def __str__(self) -> str:
        return f"{self.house}, behind {self.surface}"


class GateSettings(models.Model):
    """How the gates of one house are kept."""

    house = models.OneToOneField("keeping.House", on_delete=models.CASCADE, related_name="gate_settings")
    helper_confirms = models.BooleanField(default=False)

    def __str__(self) -> str:
        return f"gates of {self.house}"
