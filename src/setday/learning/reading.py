"""Reading what students write as an answer: a number and its unit, or a refusal that says what to do."""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from setday.errors import MeasureError
from setday.measure import parse_length

__all__ = ["Reading", "WrongUnit", "read_answer", "read_number"]

_LONGEST = 40
_NUMBER = re.compile(
    r"(?P<whole>\d{1,3}(?:,\d{3})+|\d{1,9})?(?P<decimals>\.\d{1,6})?"
    r"(?:(?P<gap>[ -]+)?(?P<num>\d{1,3})/(?P<den>\d{1,3}))?"
    r"\s*(?P<unit>[^\d\s].*)?"
)
_PER_FOOT_STEP = 1 / 192
_UNITS = {
    "ft2": ("ft2", "sqft", "sf", "squarefeet", "squarefoot", "ft^2", "feet2", "pies2", "piescuadrados"),
    "in2": ("in2", "sqin", "squareinches", "squareinch", "in^2", "pulgadas2"),
    "yd2": ("yd2", "sqyd", "squareyards", "squareyard", "yd^2"),
    "in3": ("in3", "cuin", "cubicinches", "cubicinch", "in^3"),
    "ft": ("ft", "feet", "foot", "'", "pies", "pie", "lf"),
    "in": ("in", "inch", "inches", '"', "''", "pulgadas", "pulgada"),
    "yd": ("yd", "yards", "yard"),
    "m": ("m", "meters", "metros"),
    "cm": ("cm",),
    "mm": ("mm",),
    "m2": ("m2", "m^2"),
}
_SPELLED = {spelling: unit for unit, spellings in _UNITS.items() for spelling in spellings}
_TO_INCHES = {"ft": 12.0, "in": 1.0, "yd": 36.0, "m": 10000 / 254, "cm": 100 / 254, "mm": 10 / 254}
_TO_SQIN = {"ft2": 144.0, "in2": 1.0, "yd2": 1296.0, "m2": (10000 / 254) ** 2}
_WORDS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip


class WrongUnit(MeasureError):
    """A number in another unit than was asked.

    Parameters
    ----------
    message : str
    do : str
    offer : str
        The same in the unit that was asked, ready to be handed in; "" where it cannot be turned into it.
    """

    def __init__(self, message: str, *, do: str, offer: str = "") -> None:
        super().__init__(message, do=do)
        self.offer = offer


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A number as it was written: its value, what its last digit counts, and its unit ("" for none)."""

    value: float
    step: float
    unit: str = ""


def read_number(text: str) -> Reading:
    """Read a number with or without a unit.

    Parameters
    ----------
    text : str
        ``384``, ``1,080.5 ft2``, ``14'-6"``, ``12 1/2``, ``12 boards``.

    Returns
    -------
    Reading
        A length in feet and inches comes in "in".

    Raises
    ------
    MeasureError
        Where it is not one number.
    """
    plain = re.sub(
        r"\s+", " ", unicodedata.normalize("NFKC", text).replace("″", '"').replace("′", "'")
    ).strip()
    if not plain:
        raise MeasureError("Nothing is written.", do="Write a number, in digits.")
    if len(plain) > _LONGEST:
        raise MeasureError(f"'{plain[:20]}...' is too long for a number.", do="Write one number, in digits.")
    length = _length(plain)
    if length is not None:
        return length
    found = _NUMBER.fullmatch(plain)
    if found is None or not any(found[part] for part in ("whole", "decimals", "num")):
        raise _not_a_number(plain)
    return Reading(value=_value(found, plain), step=_step(found), unit=_unit(found["unit"] or "", plain))


def _length(plain: str) -> Reading | None:
    if not re.search(r"['\"]", plain):
        return None
    return Reading(value=parse_length(plain).inches, step=1 / 16, unit="in")


def _value(found: re.Match[str], plain: str) -> float:
    value = float((found["whole"] or "0").replace(",", "")) + float(found["decimals"] or 0)
    if found["num"] is None:
        return value
    if found["whole"] is not None and not found["gap"]:
        raise _not_a_number(plain)
    if int(found["den"]) == 0 or found["decimals"]:
        raise _not_a_number(plain)
    return value + float(Fraction(int(found["num"]), int(found["den"])))


def _step(found: re.Match[str]) -> float:
    if found["num"] is not None:
        return 1 / int(found["den"])
    return float(10.0 ** -(len(found["decimals"] or ".") - 1))


def _unit(words: str, plain: str) -> str:
    key = re.sub(r"[\s.]+", "", words.lower())
    if not key:
        return ""
    if key in _SPELLED:
        return _SPELLED[key]
    if re.fullmatch(r"[^\W\d]{2,20}", key) and not key.startswith(("ish", "or", "about")):
        return key if key.endswith("s") else f"{key}s"
    raise _not_a_number(plain)


def _not_a_number(plain: str) -> MeasureError:
    named = next((n for n, word in reversed(list(enumerate(_WORDS))) if word in plain.lower()), None)
    digits = (
        f"Write it in digits: {named}." if named is not None else "Write one number, in digits, like 384.5."
    )
    return MeasureError(f"'{plain}' is not a number.", do=digits)


def read_answer(text: str, *, unit: str) -> Reading:
    r"""Read an answer that is asked in a unit.

    Parameters
    ----------
    text : str
    unit : str
        "ft2", "ft", "in", "in3", "boards" ...

    Returns
    -------
    Reading
        In that unit.

    Raises
    ------
    WrongUnit
        In another unit; the same in the right one is offered where there is one.
    MeasureError
        Where it is no number.

    Examples
    --------
    >>> read_answer("1,080 sq ft", unit="ft2").value
    1080.0
    >>> round(read_answer("14'-6\"", unit="ft").value, 3)
    14.5
    """
    read = read_number(text)
    if read.unit in {"", unit}:
        if not read.unit and unit == "in":
            parse_length(text)
        return Reading(value=read.value, step=read.step, unit=unit)
    if read.unit in _TO_INCHES and unit in {"ft", "in"}:
        times = _TO_INCHES[read.unit] / _TO_INCHES[unit]
        return Reading(value=read.value * times, step=read.step * times, unit=unit)
    raise _wrong_unit(text.strip(), read, unit)


def _wrong_unit(text: str, read: Reading, unit: str) -> WrongUnit:
    message = f"'{text}' is in {read.unit}; {unit} are asked."
    if read.unit in _TO_SQIN and unit in _TO_SQIN:
        turned = f"{read.value * _TO_SQIN[read.unit] / _TO_SQIN[unit]:.2f}".rstrip("0").rstrip(".")
        return WrongUnit(
            message, do=f"If the number is right, write {turned} {unit}.", offer=f"{turned} {unit}"
        )
    if read.unit in _TO_INCHES and unit in _TO_SQIN:
        return WrongUnit(message, do="A length is no area: multiply two of them.", offer="")
    number = f"{read.value:g}"
    return WrongUnit(
        message, do=f"If only the unit is wrong, write {number} {unit}.", offer=f"{number} {unit}"
    )
