"""Days of birth in a column of a list: in which order day and month stand is judged by the whole column."""

import re
from collections.abc import Sequence
from datetime import date

from setday.files.delimited import Complaints
from setday.findings import Severity

__all__ = ["read_births"]

_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ].*)?")
_ORDERED = re.compile(r"(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})")
_OLDEST, _YOUNGEST = 1920, 2100


def read_births(written: Sequence[tuple[int, str]], complaints: Complaints) -> dict[int, date]:
    """Return days of birth by line; what cannot be read is told and left out.

    Parameters
    ----------
    written : sequence of (int, str)
        Line and text.
    complaints : Complaints
        Takes what is found.
    """
    month_first = _month_first(written, complaints)
    found: dict[int, date] = {}
    for line, text in written:
        day = _day(text.strip(), month_first=month_first)
        if day is not None:
            found[line] = day
        elif text.strip():
            complaints.say(
                "born",
                f"'{text[:30]}' is no day of birth.",
                line=line,
                about=f"line {line}",
                expected="a day, year first: 2010-03-09.",
                do="Correct it, or leave it empty: the student is then taken for a minor.",
                severity=Severity.ASK,
            )
    return found


def _month_first(written: Sequence[tuple[int, str]], complaints: Complaints) -> bool:
    """Return whether the month stands first; say so where nothing in the column settles it."""
    pairs = [(line, match) for line, text in written if (match := _ORDERED.fullmatch(text.strip()))]
    month = [line for line, match in pairs if int(match[2]) > 12]
    day = [line for line, match in pairs if int(match[1]) > 12]
    if not pairs:
        return True
    if month and day:
        found = f"line {month[0]} has the month first and line {day[0]} the day."
        complaints.say("born", found, line=day[0], about="days of birth", do="Write all of them year first.")
    elif not month and not day:
        line, match = pairs[0]
        found = f"nothing settles whether day or month stands first; '{match[0]}' was read month first."
        complaints.say(
            "born", found, line=line, about="days of birth", do="Check one of them.", severity=Severity.ASK
        )
    else:
        found = f"read with the {'month' if month else 'day'} first, as line {(month or day)[0]} shows."
        complaints.say("born", found, line=(month or day)[0], about="days of birth", severity=Severity.NOTE)
    return not day or bool(month)


def _day(text: str, *, month_first: bool) -> date | None:
    iso, ordered = _ISO.fullmatch(text), _ORDERED.fullmatch(text)
    try:
        if iso:
            day = date(int(iso[1]), int(iso[2]), int(iso[3]))
        elif ordered:
            one, two = int(ordered[1]), int(ordered[2])
            day = date(int(ordered[3]), *((one, two) if month_first else (two, one)))
        else:
            return None
    except ValueError:
        return None
    return day if _OLDEST <= day.year <= _YOUNGEST else None
