"""The printed sheets of a house's cable."""

from collections.abc import Sequence
from datetime import date

from setday.actions.cable.figured import HouseCable
from setday.materials import CoilCut
from setday.sheets import Book, book_pdf, cable_sheets

__all__ = ["cable_pages"]

_AT_THE_FOOT = (
    "Worked out from the house file as typed. Measure before you cut; pull dead, locked out and tested."
)


def cable_pages(house: str, cable: HouseCable, *, dated: date, coils: Sequence[CoilCut] = ()) -> bytes:
    """Return wiring plan, pull lists, labels, home runs and panel directory as PDF.

    Parameters
    ----------
    house : str
        Its name, in the head of every page.
    cable : HouseCable
    dated : date
    coils : sequence of CoilCut
        From which each run is cut; empty where no plan is made.
    """
    sheets = cable_sheets(cable.figure, coils=coils)
    return book_pdf(Book(house=house, dated=dated, sheets=sheets, caution=_AT_THE_FOOT))
