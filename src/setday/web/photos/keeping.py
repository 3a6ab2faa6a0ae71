"""Keeping photos: the file in the house's folder, its record in the database."""

from hashlib import sha256
from uuid import NAMESPACE_URL, UUID, uuid5

from setday.web.keeping.models import House, Photo
from setday.web.photos.reading import PhotoRead

__all__ = ["keep_photo", "photo_key"]


def photo_key(house: House, entry: str) -> UUID:
    """Return the key of the photo sent with an entry: the same whenever the entry is sent again."""
    return uuid5(NAMESPACE_URL, f"photo|{house.pk}|{entry}")


def keep_photo(house: House, read: PhotoRead, *, key: UUID, by: str) -> Photo:
    """Keep a photo of a house under a key; one that is kept already stays as it is.

    Call it in the transaction that writes what the photo belongs to: the file is written before the record,
    so that no record is without its file.
    """
    known: Photo | None = Photo.objects.filter(key=key).first()
    if known is not None:
        return known
    photo = Photo(
        house=house,
        key=key,
        by=by[:200],
        width=read.width,
        height=read.height,
        size=len(read.data),
        digest=sha256(read.data).hexdigest(),
    )
    photo.path.parent.mkdir(parents=True, exist_ok=True)
    fresh = photo.path.with_suffix(".part")
    fresh.write_bytes(read.data)
    fresh.replace(photo.path)
    photo.save()
    return photo
