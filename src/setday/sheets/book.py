"""A book of sheets: its Typst source, and its pages as PDF."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from importlib.resources import files

from setday.sheets.blocks import Sheet, write_block
from setday.sheets.compiling import to_pdf
from setday.sheets.markup import call, escaped, flag

__all__ = ["CAUTION", "PERSON_DECIDES", "Book", "book_pdf", "page_source"]

CAUTION = "Figured from the house file as typed. Measure on the wall before you cut."
PERSON_DECIDES = "Local code and the licensed person decide."


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """Sheets that are printed together.

    Parameters
    ----------
    house : str
        Name of the house, in the head of every page.
    dated : date
        Printed in the head; handed in, since nothing here reads the clock.
    sheets : tuple of Sheet
    caution : str
        At the foot of every page: what the figures rest on, and what to check.
    """

    house: str
    dated: date
    sheets: tuple[Sheet, ...]
    caution: str = CAUTION

    def __post_init__(self) -> None:
        if not self.sheets:
            raise ValueError("a book without sheets")


def page_source(book: Book) -> str:
    """Return the Typst source of a book, without the look it is set in.

    Pictures are called by name (``figure-1`` ...) and handed over beside the source.
    """
    return _written(book)[0]


def book_pdf(book: Book) -> bytes:
    """Return a book as PDF.

    Raises
    ------
    SetdayError
        When the pages cannot be set.
    """
    pages, pictures = _written(book)
    look = files("setday.sheets").joinpath("look.typ").read_text(encoding="utf-8")
    source = f"{look}\n#show: look\n#set document(title: {escaped(book.house)})\n\n{pages}"
    moment = datetime.combine(book.dated, time(12), tzinfo=UTC)
    return to_pdf(source, inputs=pictures, made_at=moment)


def _written(book: Book) -> tuple[str, dict[str, str]]:
    """Return the source of all sheets and the pictures it calls by name."""
    sheets: list[str] = []
    pictures: dict[str, str] = {}
    for sheet in book.sheets:
        head = call(
            "sheet",
            house=escaped(book.house),
            title=escaped(sheet.title),
            dated=escaped(book.dated.isoformat()),
            caution=escaped(f"{book.caution} {PERSON_DECIDES}" if sheet.person_decides else book.caution),
            flipped=flag(value=sheet.flipped),
        )
        body = "\n".join(write_block(block, pictures=pictures) for block in sheet.blocks)
        sheets.append(f"{head}[\n{body}\n]\n")
    return "\n".join(sheets), pictures
