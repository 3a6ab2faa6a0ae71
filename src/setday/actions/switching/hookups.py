"""What a user does with hookups: open a file, take an example, print the pages."""

from datetime import date
from importlib.resources import files

from setday.errors import FileProblem
from setday.files import HookupFile, read_hookup
from setday.sheets import Book, book_pdf, hookup_sheets
from setday.switching import Hookup

__all__ = ["example_names", "example_text", "hookup_pages", "open_hookup"]

_EXAMPLES = files("setday") / "demo" / "hookups"

_AT_THE_FOOT = (
    "Worked out from the hookup file as typed. Dead, locked out and tested before a hand is in a box;"
    " only the instructor energizes."
)


def open_hookup(data: bytes | str, *, name: str) -> HookupFile:
    """Return a hookup file as read, with everything found in it."""
    return read_hookup(data, name=name)


def example_names() -> tuple[str, ...]:
    """Return the names of the example circuits."""
    return tuple(sorted(entry.name.removesuffix(".yaml") for entry in _EXAMPLES.iterdir()))


def example_text(name: str) -> str:
    """Return an example circuit as a hookup file.

    Raises
    ------
    FileProblem
        For a name that is none of them.
    """
    if name not in example_names():
        raise FileProblem(
            f"There is no example '{name}'.", do=f"The examples are: {', '.join(example_names())}."
        )
    return (_EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")


def hookup_pages(hookups: tuple[Hookup, ...], *, dated: date) -> bytes:
    """Return the pages of hookups as PDF, one page a circuit for the diagram.

    Parameters
    ----------
    hookups : tuple of Hookup
    dated : date
        Printed in the head of every page.
    """
    title = hookups[0].name if len(hookups) == 1 else "Hookups"
    sheets = tuple(sheet for hookup in hookups for sheet in hookup_sheets(hookup))
    return book_pdf(Book(house=title, dated=dated, sheets=sheets, caution=_AT_THE_FOOT))
