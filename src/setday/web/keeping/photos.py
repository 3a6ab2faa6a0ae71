"""The records of photos: what was taken of a house, and where its file lies."""

from pathlib import Path

from django.conf import settings
from django.db import models

__all__ = ["Photo", "photo_folder"]


def photo_folder(house: models.Model) -> Path:
    """Return the folder of a house's photos below the data folder."""
    return Path(settings.DATA_FOLDER) / "houses" / str(house.pk) / "photos"


class Photo(models.Model):
    """A photo of a house, made smaller and freed of where it was taken; its file is named by its key.

    `digest` is the SHA-256 of the file.  A reader sees it only once it is `released`.
    """

    house = models.ForeignKey("keeping.House", on_delete=models.PROTECT, related_name="photos")
    key = models.UUIDField(unique=True)
    by = models.CharField(max_length=200)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    size = models.PositiveIntegerField()
    digest = models.CharField(max_length=64)
    released = models.BooleanField(default=False)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.house}, photo {self.pk}"

    @property
    def path(self) -> Path:
        """Where its file lies."""
        return photo_folder(self.house) / f"{self.key}.jpg"
