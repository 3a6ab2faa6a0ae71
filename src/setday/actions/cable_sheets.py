"""The printed sheets of a house's cable."""

from datetime import date

from setday.actions.cable import HouseCable
from setday.sheets import Book, book_pdf, cable_sheets

__all__ = ["cable_pages"]

_AT_THE_FOOT = (
    "Worked out from the house file as typed. Measure before you cut; pull dead, locked out and tested."
)


def cable_pages(house: str, cable: HouseCable, *, dated: date) -> bytes:
    """Return wiring plan, pull lists, labels, home runs and panel directory as PDF.

    Parameters
    ----------
    house : str
        Its name, in the head of every page.
    cable : HouseCable
    dated : date
    """
    return book_pdf(Book(house=house, dated=dated, sheets=cable_sheets(cable.figure), caution=_AT_THE_FOOT))
