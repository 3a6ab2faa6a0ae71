"""Photos of a test, made here."""

from io import BytesIO

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image, TiffImagePlugin

__all__ = ["jpeg", "sent", "taken_somewhere"]


def sent(data, name="wall.jpg"):
    return SimpleUploadedFile(name, data, content_type="image/jpeg")


def jpeg(width=64, height=48, *, kind="JPEG", color="gray", **more):
    written = BytesIO()
    Image.new("RGB", (width, height), color).save(written, kind, **more)
    return written.getvalue()


def taken_somewhere(*, turned=1):
    """Return a photo that says where it was taken, with what, and which way it must be turned."""
    exif = Image.Exif()
    exif[0x0112] = turned
    exif[0x010F] = "Invented camera"
    place = exif.get_ifd(0x8825)
    place[1], place[2] = "N", tuple(TiffImagePlugin.IFDRational(n) for n in (44, 30, 15))
    place[3], place[4] = "W", tuple(TiffImagePlugin.IFDRational(n) for n in (92, 15, 45))
    return jpeg(exif=exif)
