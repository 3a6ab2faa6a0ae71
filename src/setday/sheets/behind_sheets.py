"""The page for the owner: what is behind a surface that was closed."""

from base64 import b64encode
from collections.abc import Mapping

from setday.closein import BehindRecord
from setday.drawing import Table
from setday.sheets.blocks import Block, Note, Picture, PictureGrid, Sheet, TableBlock

__all__ = ["behind_sheets"]

_WIDE, _HIGH = 10.0, 4.6
"""Room of the drawing on a page laid on its side [in]; the tables come after it."""
_PHOTO_WIDE, _PHOTO_HIGH = 4.6, 3.2

Photo = tuple[bytes, int, int]


def behind_sheets(record: BehindRecord, *, photos: Mapping[str, Photo]) -> tuple[Sheet, ...]:
    """Return the sheets of a record: the drawing with its measures, who did and saw what, the photos.

    Parameters
    ----------
    record : BehindRecord
    photos : mapping
        Key of a photo to its JPEG file, width and height [pixels]; those that are lost are told.
    """
    title = f"Behind {record.label}"
    drawn = Sheet(
        title=title,
        blocks=(
            Picture(svg=record.drawing, widest_in=_WIDE, highest_in=_HIGH + 1.6),
            Note(text=_closed(record)),
        ),
        flipped=True,
        person_decides=True,
    )
    lists = Sheet(title=f"{title}: lists", blocks=_lists(record), person_decides=True)
    kept = [key for key in record.photos if key in photos]
    lost = len(record.photos) - len(kept)
    if not record.photos:
        return (drawn, lists)
    blocks: list[Block] = []
    if kept:
        pictures = tuple(_photo(n, photos[key]) for n, key in enumerate(kept, start=1))
        blocks.append(PictureGrid(pictures=pictures, columns=2))
    if lost:
        blocks.append(Note(text=f"{lost} photo(s) of this record could not be found."))
    return (drawn, lists, Sheet(title=f"{title}: photos", blocks=tuple(blocks), flipped=True))


def _closed(record: BehindRecord) -> str:
    said = f" {record.words}" if record.words else ""
    return f"Closed {_time(record.closed_at)} by {record.closed_by}.{said}"


def _time(iso: str) -> str:
    """Return a time as people write it, without its zone: the record keeps it."""
    return iso[:16].replace("T", " ")


def _lists(record: BehindRecord) -> tuple[Block, ...]:
    held = [each for each in record.items if each.state == "overruled"]
    asked = Table(
        caption="What was asked for",
        head=("Thing", "State", "Done by", "Seen by", "Remark"),
        rows=tuple(
            (
                each.label + (", of the other side" if each.other_side else ""),
                each.state,
                _who(each.done_by, each.done_at),
                _who(each.seen_by, each.seen_at),
                each.words,
            )
            for each in record.items
        ),
    )
    places = Table(caption="Where everything is", head=record.head, rows=record.rows)
    notes = [Note(text=f"Overruled: {each.label}. Reason: {each.words}") for each in held]
    source = Note(text=f"By version {record.version} of the house file, SHA-256 {record.digest}.")
    wide = ("2.4fr", "auto", "1fr", "1fr", "1fr")
    rows: list[Block] = [TableBlock(table=asked, widths=wide), *notes]
    if record.rows:
        rows.append(TableBlock(table=places, widths=("auto", "2fr", "1fr", "auto")))
    return (*rows, source)


def _who(name: str, at: str) -> str:
    return f"{name}, {_time(at)}" if name else ""


def _photo(number: int, photo: Photo) -> Picture:
    """Return a photo as a picture that pages can take: an SVG around its file."""
    data, width, height = photo
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}">'
        f"<title>Photo {number}</title>"
        f'<image width="{width}" height="{height}" '
        f'href="data:image/jpeg;base64,{b64encode(data).decode("ascii")}"/></svg>'
    )
    return Picture(svg=svg, widest_in=_PHOTO_WIDE, highest_in=_PHOTO_HIGH)
