"""Reading a photo that somebody sent: only what is a photo, no larger than a page needs, without its place.

For every group of screens that takes photos in::

    read = read_photo(request.FILES.get("photo"))  # PhotoProblem says what is wrong with it
    with transaction.atomic():
        ...  # write what the photo belongs to
        keep_photo(house, read, key=key, by=name)  # setday.web.photos.keeping
"""

import warnings
from dataclasses import dataclass
from io import BytesIO
from typing import IO

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from PIL import Image, ImageOps, UnidentifiedImageError

from setday.errors import SetdayError
from setday.web.uploads import megabytes

__all__ = ["PhotoProblem", "PhotoRead", "read_photo"]

_FORMATS = ("JPEG", "PNG", "WEBP")
_LONGEST = 1600
"""Longer side of a photo that is kept [pixels]; our own."""
_MOST_PIXELS = 80_000_000
"""More than any phone takes; a small file may claim to hold far more [pixels]; our own."""
_QUALITY = 82
_HEIC = (b"ftypheic", b"ftypheix", b"ftypmif1", b"ftyphevc", b"ftypavif")


class PhotoProblem(SetdayError):
    """A photo that cannot be taken in; the message says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoRead:
    """A photo as it is kept: JPEG without anything but its picture, and its size [pixels]."""

    data: bytes
    width: int
    height: int


def read_photo(sent: UploadedFile | None) -> PhotoRead | None:
    """Return what is kept of a photo; None where none was sent.

    Raises
    ------
    PhotoProblem
        When it is no photo, of a kind that cannot be opened, damaged, or huge.
    """
    if sent is None:
        return None
    name = str(sent.name or _("the photo"))
    if not sent.size:
        raise PhotoProblem(_("%(name)s is empty.") % {"name": name}, do=_("Take the photo again."))
    if sent.size > settings.LARGEST_PHOTO:
        raise PhotoProblem(
            _("%(name)s is %(size)s; a photo may have %(most)s at most.")
            % {"name": name, "size": megabytes(sent.size), "most": megabytes(settings.LARGEST_PHOTO)},
            do=_("Set the camera to a smaller picture, or send a part of it."),
        )
    return _opened(sent, name)


def _opened(sent: IO[bytes], name: str) -> PhotoRead:
    head = sent.read(32)
    sent.seek(0)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # how large it claims to be is asked below
            with Image.open(sent, formats=_FORMATS) as image:
                if image.width * image.height > _MOST_PIXELS:
                    raise _huge(name, image.width, image.height)
                return _kept(image)
    except UnidentifiedImageError as error:
        raise _no_photo(name, head) from error
    except Image.DecompressionBombError as error:
        raise PhotoProblem(
            _("%(name)s is a far larger picture than any camera takes.") % {"name": name},
            do=_("Send a smaller one."),
        ) from error
    except (OSError, ValueError, SyntaxError, EOFError) as error:
        raise PhotoProblem(
            _("%(name)s is damaged and cannot be opened.") % {"name": name}, do=_("Take the photo again.")
        ) from error


def _kept(image: Image.Image) -> PhotoRead:
    """Turn a photo upright, make it smaller, and write nothing but its picture."""
    image.draft("RGB", (_LONGEST, _LONGEST))
    upright = ImageOps.exif_transpose(image)
    plain = Image.new("RGB", upright.size, "white")
    if upright.mode in {"RGBA", "LA", "P", "PA"}:
        layered = upright.convert("RGBA")
        plain.paste(layered, mask=layered.getchannel("A"))
    else:
        plain.paste(upright.convert("RGB"))
    plain.thumbnail((_LONGEST, _LONGEST))
    written = BytesIO()
    plain.save(written, "JPEG", quality=_QUALITY, optimize=True)
    return PhotoRead(data=written.getvalue(), width=plain.width, height=plain.height)


def _huge(name: str, width: int, height: int) -> PhotoProblem:
    return PhotoProblem(
        _("%(name)s is %(width)d by %(height)d pixels, far larger than any camera takes.")
        % {"name": name, "width": width, "height": height},
        do=_("Send a smaller one."),
    )


def _no_photo(name: str, head: bytes) -> PhotoProblem:
    if any(mark in head for mark in _HEIC):
        return PhotoProblem(
            _("%(name)s is a photo of a kind (HEIC or AVIF) that cannot be opened here.") % {"name": name},
            do=_("Set the camera to save JPEG pictures, and take it again."),
        )
    return PhotoProblem(
        _("%(name)s is not a photo.") % {"name": name}, do=_("Send a JPEG, PNG or WebP picture.")
    )
