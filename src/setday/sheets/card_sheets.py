"""Sign-in cards for the printer: several a page, with lines to cut along."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from importlib.resources import files

from setday.sheets.compiling import to_pdf
from setday.sheets.markup import escaped

__all__ = ["SignInCard", "card_source", "cards_pdf"]

_ACROSS = 2
_CARD = "0.95in"


@dataclass(frozen=True, slots=True, kw_only=True)
class SignInCard:
    """One card.

    Parameters
    ----------
    name : str
        Whose it is.
    code : str
        Typed to come in.
    """

    name: str
    code: str


def card_source(cards: Sequence[SignInCard], *, title: str, address: str) -> str:
    """Return the Typst source of the pages, without the look they are set in.

    Parameters
    ----------
    cards : sequence of SignInCard
        At least one.
    title : str
        On every card: the class.
    address : str
        On every card: what is typed on a tablet to reach the site; may be empty.
    """
    if not cards:
        raise ValueError("no cards to print")
    line = f"{title} · {address}" if address else title
    cells = ",\n".join(
        f"  card({escaped(each.name)}, {escaped(each.code)}, {escaped(line)})" for each in cards
    )
    columns = ", ".join(["1fr"] * _ACROSS)
    return f"#sign-in-cards(columns: ({columns}), height: {_CARD}, (\n{cells},\n))\n"


def cards_pdf(cards: Sequence[SignInCard], *, title: str, address: str, dated: date) -> bytes:
    """Return the cards as PDF.

    Parameters
    ----------
    cards : sequence of SignInCard
    title, address : str
    dated : date
        Written into the file.

    Raises
    ------
    SetdayError
        When the pages cannot be set.
    """
    folder = files("setday.sheets")
    look = folder.joinpath("look.typ").read_text(encoding="utf-8")
    shape = folder.joinpath("cards.typ").read_text(encoding="utf-8")
    source = f"{look}\n{shape}\n#show: look\n#set document(title: {escaped(title)})\n\n"
    moment = datetime.combine(dated, time(12), tzinfo=UTC)
    return to_pdf(source + card_source(cards, title=title, address=address), inputs={}, made_at=moment)
