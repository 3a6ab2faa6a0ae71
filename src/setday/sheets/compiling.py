"""Typst source to PDF; what Typst finds wrong is said once, in our words."""

from collections.abc import Mapping
from datetime import datetime

from setday.errors import SetdayError

__all__ = ["to_pdf"]


def to_pdf(source: str, *, inputs: Mapping[str, str], made_at: datetime) -> bytes:
    """Set pages.

    Parameters
    ----------
    source : str
        Typst source.
    inputs : mapping
        Texts the source calls by name: the drawings.
    made_at : datetime
        Written into the file, so that the same book gives the same bytes.

    Raises
    ------
    SetdayError
        When the source cannot be set.
    """
    import typst

    try:
        made = typst.compile(
            source.encode(),
            sys_inputs=dict(inputs),
            ignore_system_fonts=True,
            timestamp=int(made_at.timestamp()),
        )
    except typst.TypstError as error:
        raise SetdayError(
            "The pages could not be set for printing.",
            do="Print the screen instead, and tell the instructor's helper what was on this sheet.",
            where=_first_line(str(error)),
        ) from error
    if not isinstance(made, bytes):
        raise SetdayError("The pages could not be set for printing.", do="Print the screen instead.")
    return made


def _first_line(text: str) -> str:
    return text.strip().splitlines()[0][:200] if text.strip() else "no reason given"
