"""Field types of the house file: text as typed in, values of the core out."""

import re
from collections.abc import Callable
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, PlainValidator, WithJsonSchema

from setday.files.house import phrases
from setday.files.house.phrases import AsBuilt, FromEnd, Size, Spot, Stretch, Tape, TopPoint
from setday.files.written.fields import Misread, collapsed, count_of, misread, one_line, read_by
from setday.measure import Length

__all__ = [
    "AlongWall",
    "Change",
    "Compass",
    "Corner",
    "Depth",
    "Factor",
    "FoundationWord",
    "Height",
    "Jacks",
    "Layers",
    "LegText",
    "OffcutWord",
    "OpeningSize",
    "PlanPlace",
    "PlanPoint",
    "Plates",
    "Rise",
    "RowsWord",
    "Shape",
    "StretchOfWall",
    "TapeLength",
    "Top",
    "WalkedLine",
    "WallEnd",
    "WallLineWord",
    "Way",
    "plan_spot",
]


def _schema(description: str, *examples: str, **more: Any) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": description, "examples": list(examples), **more})


_MARK = "['\"′″’”]"
_HAS_UNIT = rf"({_MARK}|[0-9] *(ft|feet|foot|in|inch|inches|mm|cm|m)\b)"
LENGTH_TEXT = "A length with its unit."


def _positive(text: str) -> Length:
    length = phrases.typed_length(text)
    if length.sixtyfourths <= 0:
        raise Misread(f"'{text}' is nothing or less.", "a length above 0.", "Check the number.")
    return length


def _up_to(limit: Length, read: Callable[[str], Length]) -> Callable[[str], Length]:
    def within(text: str) -> Length:
        length = read(text)
        if length > limit:
            raise Misread(
                f"{text} is far more than any house has.",
                f"at most {limit}.",
                "Check the number and its unit.",
            )
        return length

    return within


_HIGHEST = Length.of(feet=60)
_STEEPEST = Length.of(inches=36)
_DEEPEST = Length.of(inches=24)

TapeLength = Annotated[
    Length, read_by(phrases.typed_length), _schema(LENGTH_TEXT, "12'-6 1/2\"", '150"', pattern=_HAS_UNIT)
]
Height = Annotated[
    Length,
    read_by(_up_to(_HIGHEST, _positive)),
    _schema(LENGTH_TEXT, "8'-1 1/8\"", '97 1/8"', pattern=_HAS_UNIT),
]
Depth = Annotated[
    Length,
    read_by(_up_to(_DEEPEST, phrases.read_depth)),
    _schema("A nominal size or a length.", "2x4", "2x6", '3 1/2"'),
]
Rise = Annotated[
    Length,
    read_by(_up_to(_STEEPEST, phrases.read_rise)),
    _schema("Inches of rise for each foot of run.", '4" per foot', "4/12"),
]
PlanPlace = Annotated[
    Tape,
    read_by(phrases.read_tape),
    _schema(
        "How far east or north of zero, or from which wall the tape was held and which way it ran.",
        "12'-4\"",
        "12'-4\" north of south wall",
        "3' east of the center of hall wall",
        "at hall wall",
    ),
]
OpeningSize = Annotated[
    Size,
    read_by(phrases.read_size),
    _schema("Width x height.", "3'-0\" x 6'-8\"", "rough 3'-2\" x 6'-10 1/2\"", "3068"),
]
AlongWall = Annotated[
    FromEnd,
    read_by(phrases.read_from_end),
    _schema(
        "How far along the wall, from which end of it or from which wall that meets it.",
        "4'-2\" from west end",
        "5'-3\" from bath wall",
        "5'-3\" from bath wall going east",
    ),
]
StretchOfWall = Annotated[
    Stretch,
    read_by(phrases.read_stretch),
    _schema("How wide, and where it begins.", '30" from north end', "5' starting 4\" from hall wall"),
]
Top = Annotated[
    TopPoint,
    read_by(phrases.read_top),
    _schema(
        "A height and how far from the wall's start.",
        "12'-1\" at 14'-3\"",
        "8'-1 1/8\" at end",
        "12'-1\" in the middle",
    ),
]
Change = Annotated[
    AsBuilt,
    read_by(phrases.read_as_built),
    _schema(
        "What was built otherwise; the centre of the member, from the wall's start.",
        "stud added at 4'-2\"",
        "stud removed at 9'-4\"",
        "stud moved from 6'-8\" to 6'-9 1/4\"",
    ),
]
LegText = Annotated[
    phrases.Leg,
    read_by(phrases.read_leg),
    _schema(
        "A direction and a length, or the point it goes to.",
        "east 14'-6\"",
        "to 24' east, 0' north",
        "back to start",
    ),
]


def plan_spot(value: Any) -> Any:
    """Read a point of the plan, in words or as two places."""
    if isinstance(value, list):
        if len(value) != 2:
            raise misread(
                f"a point of {len(value)} numbers.",
                "two places: east, then north.",
                "Write it like [6', 4'].",
            )
        return _pair([one_line(part) for part in value])
    try:
        return phrases.read_spot(one_line(value))
    except Misread as error:
        raise misread(error.found, error.expected, error.do) from error


def _pair(parts: list[str]) -> Spot:
    try:
        return Spot(x=phrases.read_tape(parts[0]), y=phrases.read_tape(parts[1]))
    except Misread as error:
        raise misread(error.found, error.expected, error.do) from error


_PAIR = {"type": "array", "items": {"type": "string"}, "minItems": 2, "maxItems": 2}
PlanPoint = Annotated[
    Spot,
    PlainValidator(plan_spot),
    WithJsonSchema(
        {
            "description": "A point of the plan: how far east, how far north.",
            "anyOf": [{"type": "string", "examples": ["6' east, 4' north"]}, _PAIR],
        }
    ),
]


def _wall_end(value: Any) -> Any:
    if isinstance(value, list):
        return plan_spot(value)
    try:
        return phrases.read_wall_end(one_line(value))
    except Misread as error:
        raise misread(error.found, error.expected, error.do) from error


WallEnd = Annotated[
    Tape | Spot,
    PlainValidator(_wall_end),
    WithJsonSchema(
        {
            "description": "The wall it meets, a place by tape, or a point of the plan.",
            "anyOf": [{"type": "string", "examples": ["hall wall", "3' east of west wall"]}, _PAIR],
        }
    ),
]


_UP_TO_SIX, _UP_TO_FOUR, _UP_TO_TWO = count_of(0, 6), count_of(1, 4), count_of(0, 2)
Jacks = Annotated[int, _UP_TO_SIX[0], _UP_TO_SIX[1]]
Plates = Annotated[int, _UP_TO_FOUR[0], _UP_TO_FOUR[1]]
Layers = Annotated[int, _UP_TO_TWO[0], _UP_TO_TWO[1]]


def _factor(text: str) -> float:
    if not re.fullmatch(r"[0-9]{1,2}(\.[0-9]{1,4})?", text) or not 1 <= float(text) <= 20:
        raise Misread(f"'{text[:30]}' is not a number from 1 to 20.", "1 to 20.", "Write a number, like 2.5.")
    return float(text)


Factor = Annotated[
    float,
    read_by(_factor),
    WithJsonSchema({"anyOf": [{"type": "number", "minimum": 1, "maximum": 20}, {"type": "string"}]}),
]


def _lower(value: Any) -> str:
    return collapsed(one_line(value)).lower()


Compass = Annotated[Literal["north", "south", "east", "west"], BeforeValidator(_lower)]
Way = Annotated[Literal["north-south", "east-west"], BeforeValidator(_lower)]
WalkedLine = Annotated[Literal["outside face", "center", "inside face"], BeforeValidator(_lower)]
WallLineWord = Annotated[Literal["center", "left face", "right face"], BeforeValidator(_lower)]
Shape = Annotated[Literal["flat", "slope", "vault", "scissors"], BeforeValidator(_lower)]
FoundationWord = Annotated[Literal["basement", "crawl space", "slab"], BeforeValidator(_lower)]
Corner = Annotated[Literal["northeast", "northwest", "southeast", "southwest"], BeforeValidator(_lower)]
RowsWord = Annotated[Literal["along", "across"], BeforeValidator(_lower)]
OffcutWord = Annotated[Literal["none", "same room", "same day", "whole house"], BeforeValidator(_lower)]
