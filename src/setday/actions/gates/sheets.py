"""The printed page of what is behind a closed surface."""

from collections.abc import Mapping
from datetime import date

from setday.closein import BehindRecord
from setday.sheets import Book, behind_sheets, book_pdf

__all__ = ["behind_pages"]

_AT_THE_FOOT = (
    "As it was when the surface was closed. Turn power and water off and look before you cut into it."
)


def behind_pages(
    record: BehindRecord, *, dated: date, photos: Mapping[str, tuple[bytes, int, int]] | None = None
) -> bytes:
    """Return the record of a closed surface as PDF, for the owner of the house.

    Parameters
    ----------
    record : BehindRecord
    dated : date
    photos : mapping or None
        Key of a photo to its JPEG file, width and height [pixels].
    """
    sheets = behind_sheets(record, photos=photos or {})
    return book_pdf(Book(house=record.house, dated=dated, sheets=sheets, caution=_AT_THE_FOOT))
