"""The short phrases of a class file, read into values.

Each reader takes the text as typed and returns a value, or raises `Misread` with what was found, what
was expected and what to do.
"""

import re
from datetime import date, time

from setday.files.written.fields import Misread
from setday.roster import WEEKDAYS, After, Bell, EarlyDismissal, Stretch, minute_of_day

__all__ = [
    "MONTHS",
    "read_after",
    "read_bell",
    "read_clock",
    "read_crew",
    "read_day",
    "read_days",
    "read_early",
    "read_hours",
    "read_month",
    "read_number",
    "read_quantity",
    "read_rate",
    "read_share",
    "read_tenths",
    "read_weekdays",
]

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_MONTH_FIRST = re.compile(r"([A-Za-z]{3,9})\.? (\d{1,2}),? (\d{4})")
_DAY_FIRST = re.compile(r"(\d{1,2})\.? ([A-Za-z]{3,9})\.? (\d{4})")
_SLASHES = re.compile(r"(\d{1,2})[/.](\d{1,2})[/.](\d{2}|\d{4})")
_NUMBER = r"\d{1,6}(?:\.\d{1,4})?"
_UNITS = {"h": 1.0, "hour": 1.0, "hours": 1.0, "min": 1 / 60, "minute": 1 / 60, "minutes": 1 / 60}
_DAY_LIKE = "a day, like 2027-05-12 or 12 May 2027."
_NIGHT_ENDS, _NIGHT_BEGINS = 5 * 60, 22 * 60


def read_day(text: str) -> date:
    """Read a day: 2027-05-12, May 12 2027, 12 May 2027.

    Parameters
    ----------
    text : str
    """
    text = " ".join(text.split())
    if found := _ISO.fullmatch(text):
        return _day(text, int(found[1]), int(found[2]), int(found[3]))
    if found := _MONTH_FIRST.fullmatch(text):
        return _day(text, int(found[3]), read_month(found[1]), int(found[2]))
    if found := _DAY_FIRST.fullmatch(text):
        return _day(text, int(found[3]), read_month(found[2]), int(found[1]))
    if found := _SLASHES.fullmatch(text):
        raise Misread(
            f"'{text}' is read month first by some and day first by others.",
            _DAY_LIKE,
            "Write the year first: year-month-day.",
        )
    raise Misread(f"'{text[:40]}' is no day.", _DAY_LIKE, "Write year-month-day.")


def _day(text: str, year: int, month: int, day: int) -> date:
    try:
        made = date(year, month, day)
    except ValueError as error:
        raise Misread(f"'{text}' is not in the calendar.", _DAY_LIKE, "Check day and month.") from error
    if not 1900 <= year <= 2200:
        raise Misread(f"'{text}' is in the year {year}.", "a year from 1900 to 2200.", "Check the year.")
    return made


def read_month(text: str) -> int:
    """Read the name of a month; three letters are enough.

    Parameters
    ----------
    text : str
    """
    fitting = [
        n for n, name in enumerate(MONTHS, start=1) if len(text) > 2 and name.lower().startswith(text.lower())
    ]
    if len(fitting) != 1:
        raise Misread(f"'{text[:20]}' is no month.", f"one of: {', '.join(MONTHS)}.", "Write its name.")
    return fitting[0]


def read_days(text: str) -> tuple[Stretch, str]:
    """Read a day, or days from one to another, and what is said in round brackets after them.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(r"(.*?)(?:\s*\((.*)\))?", text.strip())
    assert found is not None
    parts = re.split(r"\s+(?:to|until|through)\s+", found[1])
    if len(parts) > 2:
        raise Misread(f"'{text[:60]}' names more than two days.", f"{_DAY_LIKE[:-1]}, or two with 'to'.", "")
    first, last = read_day(parts[0]), read_day(parts[-1])
    if last < first:
        raise Misread(
            f"'{found[1]}' ends before it begins.", "the first day, 'to', the last day.", "Swap them."
        )
    return Stretch(first=first, last=last), (found[2] or "").strip()


def read_clock(text: str) -> time:
    """Read a time of day: 8:05, 13:30, 1:30 pm; a time at night is refused as a slip.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(r"(\d{1,2}):(\d{2})\s*([ap])?\.?(?:m\.?)?", text.strip(), re.IGNORECASE)
    if not found or int(found[1]) > 23 or int(found[2]) > 59 or (found[3] and not 1 <= int(found[1]) <= 12):
        raise Misread(
            f"'{text[:30]}' is no time of day.", "a time, like 8:05 or 1:30 pm.", "Write hours:minutes."
        )
    hour = int(found[1])
    if found[3]:
        hour = hour % 12 + (12 if found[3].lower() == "p" else 0)
    clock = time(hour, int(found[2]))
    if not _NIGHT_ENDS <= minute_of_day(clock) < _NIGHT_BEGINS:
        raise Misread(
            f"{text.strip()} is at night.", "a time of the school day.", f"Write {text.strip()} pm if meant."
        )
    return clock


def read_weekdays(text: str) -> tuple[int, ...]:
    """Read days of the week: Mon Tue Thu; Mon to Fri; Monday, Wednesday.

    Parameters
    ----------
    text : str
    """
    days: list[int] = []
    for part in re.split(r"[,\s]+and\s+|\s*,\s*|\s+(?!to\b|-)(?<!to )(?<!-\s)", text.strip()):
        ends = [_weekday(word) for word in re.split(r"\s+to\s+|\s*[-–]\s*", part)]
        if len(ends) > 2 or ends[-1] < ends[0]:
            raise Misread(
                f"'{part}' is no stretch of a week.", "like Mon to Fri.", "Name the days one by one."
            )
        days += range(ends[0], ends[-1] + 1)
    return tuple(sorted(set(days)))


def _weekday(word: str) -> int:
    low = word.lower().rstrip(".")
    for number, name in enumerate(WEEKDAYS):
        if len(low) > 2 and name.lower().startswith(low.removesuffix("s") if len(low) > 6 else low):
            return number
    raise Misread(
        f"'{word[:20]}' is no day of the week.",
        "like Mon Wed Fri, or Mon to Fri.",
        "Write three letters of each.",
    )


def read_bell(text: str) -> Bell:
    """Read a period of the week: Mon Tue Thu at 8:05 for 100 minutes, every 2 weeks from week 1.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(
        r"(.+?)\s+(?:at|from)\s+(\d{1,2}:\d{2}(?:\s*[ap]\.?m\.?)?)"
        r"(?:(?:,|\s+for)\s*(\d{1,3})\s*min(?:ute)?s?|\s+(?:to|until)\s+(\d{1,2}:\d{2}(?:\s*[ap]\.?m\.?)?))"
        r"(?:,?\s+every (\d) weeks?(?: from week (\d))?)?",
        text.strip(),
        re.IGNORECASE,
    )
    if not found:
        raise Misread(
            f"'{text[:60]}' is no period.",
            "like Mon Tue Thu at 8:05 for 100 minutes.",
            "Write weekdays, 'at', the bell time, 'for', the minutes.",
        )
    begin = read_clock(found[2])
    minutes = int(found[3]) if found[3] else minute_of_day(read_clock(found[4])) - minute_of_day(begin)
    every, week = int(found[5] or 1), int(found[6] or 1)
    if not 10 <= minutes <= 600:
        raise Misread(f"a period of {minutes} minutes.", "10 to 600 minutes.", "Check the bell times.")
    if not 1 <= week <= every:
        raise Misread(f"week {week} of every {every}.", f"a week from 1 to {every}.", "Correct it.")
    return Bell(
        weekdays=read_weekdays(found[1]), begin=begin, minutes=minutes, every_weeks=every, week=week - 1
    )


def read_early(text: str) -> EarlyDismissal:
    """Read how a day is short: ends at 11:30, or 45 minutes each; with why in round brackets.

    The day itself is not in the text; the first of all days stands for it.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(r"(.*?)(?:\s*\((.*)\))?", text.strip())
    assert found is not None
    said, why = found[1].strip(), (found[2] or "").strip()
    if ends := re.fullmatch(r"ends? at (.+)", said, re.IGNORECASE):
        return EarlyDismissal(day=date.min, ends=read_clock(ends[1]), why=why)
    if (each := re.fullmatch(r"(\d{1,3}) min(?:ute)?s?(?: each)?", said, re.IGNORECASE)) and int(each[1]):
        return EarlyDismissal(day=date.min, minutes=int(each[1]), why=why)
    raise Misread(
        f"'{text[:40]}' does not say how the day is short.",
        "ends at 11:30, or 45 minutes each.",
        "Write one.",
    )


def read_after(text: str) -> After:
    """Read what a task waits for: felt; felt + 2 days; first coat + 24 hours.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(r"(.+?)(?:\s*\+\s*(\d{1,4})\s*(days?|d|hours?|h))?", text.strip(), re.IGNORECASE)
    if not found or "+" in found[1]:
        raise Misread(
            f"'{text[:60]}' is no wait.", "a task, perhaps '+ 2 days' or '+ 24 hours'.", "Write it like that."
        )
    lag = int(found[2] or 0)
    in_days = (found[3] or "d").lower().startswith("d")
    return After(task=found[1], days=lag if in_days else 0, hours=0 if in_days else lag)


def read_crew(text: str) -> tuple[int, int]:
    """Read least and most of a crew: 3; 2 to 4.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(r"(\d{1,2})(?:\s*(?:to|-|–)\s*(\d{1,2}))?", text.strip())
    if not found or not 1 <= int(found[1]) <= int(found[2] or found[1]) <= 40:
        raise Misread(f"'{text[:30]}' is no crew.", "like 3, or 2 to 4.", "Write the least and the most.")
    return int(found[1]), int(found[2] or found[1])


def read_number(text: str) -> float:
    """Read a plain number that is not below nothing.

    Parameters
    ----------
    text : str
    """
    bare = text.strip().replace(",", "")
    if not re.fullmatch(_NUMBER, bare):
        raise Misread(f"'{text[:30]}' is no number.", "a number, like 12 or 7.5.", "Write figures only.")
    return float(bare)


def read_hours(text: str) -> float:
    """Read hours: 12; 7.5 h; 45 minutes.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(rf"({_NUMBER})\s*([a-z]*)", text.strip(), re.IGNORECASE)
    if not found or (found[2] and found[2].lower() not in _UNITS):
        raise Misread(f"'{text[:30]}' is no time of work.", "hours, like 12 or 45 minutes.", "Write hours.")
    return float(found[1]) * _UNITS.get(found[2].lower(), 1.0)


def read_quantity(text: str) -> tuple[float, str]:
    """Read a quantity and its unit: 620 ft2; 14 pieces.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(rf"({_NUMBER})\s*([^\d\s].{{0,19}})", text.strip().replace(",", ""))
    if not found:
        raise Misread(f"'{text[:30]}' is no quantity.", "a number and a unit, like 620 ft2.", "Write both.")
    return float(found[1]), found[2].strip()


def read_rate(text: str) -> tuple[float, str, str]:
    """Read a rate: 0.12 hours per ft2 (our log); return hours, unit, and who says so.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(
        rf"({_NUMBER}\s*[a-z]+)\s*(?:per|for each|/)\s*(?:({_NUMBER})\s+)?([^()]{{1,20}}?)(?:\s*\((.*)\))?",
        text.strip(),
        re.IGNORECASE,
    )
    if not found or (found[2] and not float(found[2])):
        raise Misread(
            f"'{text[:40]}' is no rate.",
            "like 0.12 hours per ft2, or 33 h per 1000 ft2.",
            "Write it like that.",
        )
    return read_hours(found[1]) / float(found[2] or 1), found[3].strip(), (found[4] or "").strip()


def read_tenths(text: str) -> int:
    """Read how much of an instructor: 3 tenths; all.

    Parameters
    ----------
    text : str
    """
    low = text.strip().lower()
    if low in ("all", "whole", "one"):
        return 10
    found = re.fullmatch(r"(\d{1,2})\s*(?:tenths?)?", low)
    if not found or int(found[1]) > 40:
        raise Misread(f"'{text[:30]}' is no share of attention.", "like 3 tenths, or all.", "Write tenths.")
    return int(found[1])


def read_share(text: str) -> float:
    """Read a share: 20 %; 0.2.

    Parameters
    ----------
    text : str
    """
    found = re.fullmatch(rf"({_NUMBER})\s*(%)?", text.strip())
    share = float(found[1]) / (100 if found[2] else 1) if found else 2.0
    if share > 1:
        raise Misread(f"'{text[:30]}' is no share.", "like 20 %, or 0.2.", "Write per cent.")
    return share
