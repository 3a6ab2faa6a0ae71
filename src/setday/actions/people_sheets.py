"""What is printed for people: their sign-in cards."""

from collections.abc import Sequence
from datetime import date

from setday.sheets import SignInCard, cards_pdf

__all__ = ["card_pages"]


def card_pages(made: Sequence[tuple[str, str]], *, school_class: str, address: str, dated: date) -> bytes:
    """Return sign-in cards as PDF, several a page, with lines to cut along.

    Parameters
    ----------
    made : sequence of (str, str)
        Names with their codes.
    school_class : str
        On every card.
    address : str
        What is typed on a tablet; may be empty.
    dated : date
        Written into the file.
    """
    cards = [SignInCard(name=name, code=code) for name, code in made]
    return cards_pdf(cards, title=school_class, address=address, dated=dated)
