"""Field types of the class file: text as typed in, values of the roster out."""

from datetime import date, time
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema, core_schema

from setday.files.class_file import phrases
from setday.files.written.fields import count_of, read_by
from setday.roster import After, Bell, EarlyDismissal, Stretch

__all__ = [
    "AfterText",
    "BellText",
    "ClockText",
    "CrewText",
    "DayText",
    "DaysText",
    "EarlyText",
    "FactorText",
    "Holds",
    "HoursText",
    "OneOrMore",
    "QuantityText",
    "RateText",
    "ShareText",
    "TenthsText",
    "WeekdaysText",
    "nothing_is_empty",
]


def _schema(description: str, *examples: str, number: bool = False) -> WithJsonSchema:
    kinds: str | list[str] = ["string", "number"] if number else "string"
    return WithJsonSchema({"type": kinds, "description": description, "examples": list(examples)})


class _OneOrMore:
    """A list that may be written as its only entry."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_before_validator_function(_several, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        listed = handler(schema)
        return {"anyOf": [listed["items"], listed]}


def _several(value: Any) -> Any:
    """Take one line of text for a list of one."""
    return [value] if isinstance(value, str) else value


def nothing_is_empty(value: Any) -> Any:
    """Take a name with nothing after it for an entry that says nothing more.

    Parameters
    ----------
    value : object
    """
    return {} if value is None else value


OneOrMore = _OneOrMore()

DayText = Annotated[
    date, read_by(phrases.read_day), _schema("A day: year-month-day.", "2027-05-12", "12 May 2027")
]
DaysText = Annotated[
    tuple[Stretch, str],
    read_by(phrases.read_days),
    _schema(
        "A day, or the first and the last of several; why in round brackets.",
        "2026-11-25 to 2026-11-27 (fall break)",
    ),
]
ClockText = Annotated[time, read_by(phrases.read_clock), _schema("A time of day.", "8:05", "1:30 pm")]
WeekdaysText = Annotated[
    tuple[int, ...], read_by(phrases.read_weekdays), _schema("Days of the week.", "Tue Thu", "Mon to Fri")
]
BellText = Annotated[
    Bell,
    read_by(phrases.read_bell),
    _schema(
        "Weekdays, bell time and minutes.",
        "Mon to Thu at 8:05 for 100 minutes",
        "Fri at 8:05 for 50 minutes, every 2 weeks from week 2",
    ),
]
EarlyText = Annotated[
    EarlyDismissal,
    read_by(phrases.read_early),
    _schema("When the day ends, or how long each period is.", "ends at 11:30", "45 minutes each"),
]
AfterText = Annotated[
    After,
    read_by(phrases.read_after),
    _schema("A task, and time from its end on.", "roof felt", "first coat + 24 hours"),
]
CrewText = Annotated[
    tuple[int, int],
    read_by(phrases.read_crew),
    _schema("Smallest and largest useful crew.", "3", "2 to 4", number=True),
]
HoursText = Annotated[
    float, read_by(phrases.read_hours), _schema("Student-hours.", "24", "45 minutes", number=True)
]
QuantityText = Annotated[
    tuple[float, str], read_by(phrases.read_quantity), _schema("A number and its unit.", "620 ft2")
]
RateText = Annotated[
    tuple[float, str, str],
    read_by(phrases.read_rate),
    _schema("Student-hours for a unit; who says so in round brackets.", "0.12 hours per ft2 (our log)"),
]
TenthsText = Annotated[
    int,
    read_by(phrases.read_tenths),
    _schema("Tenths of one instructor.", "3 tenths", "all", number=True),
]
ShareText = Annotated[float, read_by(phrases.read_share), _schema("A share.", "20 %", "0.2", number=True)]
FactorText = Annotated[
    float, read_by(phrases.read_number), _schema("How many times the usual.", "1.5", number=True)
]
_HOLDS = count_of(1, 999)
Holds = Annotated[int, _HOLDS[0], _HOLDS[1]]
