"""Reading lengths as people write them on plans and call them from a tape."""

import re
import unicodedata
from fractions import Fraction

from setday.errors import MeasureError
from setday.measure.length import PER_FOOT, PER_INCH, Length, round_half_up

__all__ = ["LONGEST", "parse_length"]

LONGEST = Length(10_000 * PER_FOOT)
"""Nothing on a house lot is longer; a longer reading is a slip of the pen (our own bound)."""

_LONGEST_TEXT = 60

_FEET = r"(?:'|ft\.?|feet|foot)"
_INCH = r'(?:"|\'\'|in\.?|inch(?:es)?)'
_NUMBER = r"\d{1,7}(?:\.\d{0,9})?|\.\d{1,9}"
_WHOLE = rf"(?P<whole>{_NUMBER})(?:[ -]+(?P<num>\d{{1,3}})/(?P<den>\d{{1,3}}))?"
_INCHES = rf"(?:{_WHOLE}|(?P<lnum>\d{{1,3}})/(?P<lden>\d{{1,3}}))"
_FEET_INCHES = re.compile(
    rf"(?P<sign>-)?(?P<feet>{_NUMBER})\s*{_FEET}(?:\s*-?\s*{_INCHES}\s*{_INCH}?)?", re.IGNORECASE
)
_ONLY_INCHES = re.compile(rf"(?P<sign>-)?{_INCHES}\s*{_INCH}", re.IGNORECASE)
_METRIC = re.compile(rf"(?P<sign>-)?(?P<number>{_NUMBER})\s*(?P<unit>mm|cm|m)", re.IGNORECASE)
_BARE = re.compile(rf"-?(?:{_NUMBER})(?:[ -]+\d+/\d+)?")
_PER_METRIC = {"mm": Fraction(10, 254), "cm": Fraction(100, 254), "m": Fraction(10_000, 254)}
_MARKS = str.maketrans(
    {
        "′": "'",
        "’": "'",
        "‘": "'",
        "`": "'",
        "´": "'",
        "″": '"',
        "”": '"',
        "“": '"',
        "–": "-",
        "—": "-",
        "−": "-",
        "⁄": "/",
        "\u00a0": " ",
    }
)


def parse_length(text: str) -> Length:
    r"""Read a length as written on site.

    Parameters
    ----------
    text : str
        ``12'-6 1/2"``, ``12' 6.5"``, ``150"``, ``12.5 ft``, ``7/16"``, ``3.81 m``, ``12 mm``.
        Curly quotes and one-character fractions are read as their plain forms.

    Returns
    -------
    Length
        Exact where the text stands on a sixty-fourth; otherwise the nearest one.

    Raises
    ------
    MeasureError
        When the text is not a length, lacks its unit, or is past any house.

    Examples
    --------
    >>> parse_length("12'-6 1/2\"")
    Length(sixtyfourths=9632)
    >>> parse_length("3.81 m").inches
    150.0
    """
    plain = _plain(text)
    inches = _feet_inches(plain, text)
    if inches is None:
        inches = _metric(plain)
    if inches is None:
        raise _unreadable(plain, text)
    if abs(inches) * PER_INCH > LONGEST.sixtyfourths:
        raise MeasureError(f"{text.strip()!r} is longer than any house.", do="Check the number and its unit.")
    return Length(round_half_up(inches * PER_INCH))


def _plain(text: str) -> str:
    if len(text) > _LONGEST_TEXT:
        raise MeasureError(
            f"{text[:20]!r}... is too long to be a length.", do="Write one length, like 12'-6 1/2\"."
        )
    spaced = re.sub(r"(\d)([\u00bc-\u00be\u2150-\u215e])", r"\1 \2", text.translate(_MARKS))
    folded = unicodedata.normalize("NFKC", spaced).translate(_MARKS)
    return re.sub(r"\s+", " ", folded).strip()


def _feet_inches(plain: str, text: str) -> Fraction | None:
    match = _FEET_INCHES.fullmatch(plain)
    feet = Fraction(0)
    if match:
        feet = Fraction(match["feet"])
    else:
        match = _ONLY_INCHES.fullmatch(plain)
        if not match:
            return None
    inches = _inches_part(match, text)
    if feet and inches >= 12:
        raise MeasureError(
            f"{text.strip()!r} has {float(inches):g} inches after the feet; a foot has 12.",
            do="Carry the extra feet, or drop the feet and write inches only.",
        )
    total = feet * 12 + inches
    return -total if match["sign"] else total


def _inches_part(match: re.Match[str], text: str) -> Fraction:
    num, den = match["num"] or match["lnum"], match["den"] or match["lden"]
    inches = Fraction(match["whole"] or 0)
    if num is None:
        return inches
    if "." in (match["whole"] or ""):
        raise MeasureError(f"{text.strip()!r} mixes a decimal and a fraction.", do="Write one or the other.")
    if int(den) == 0 or int(num) >= int(den):
        raise MeasureError(
            f"{num}/{den} in {text.strip()!r} is not a part of an inch.",
            do="Write a fraction smaller than one inch, like 7/16.",
        )
    return inches + Fraction(int(num), int(den))


def _metric(plain: str) -> Fraction | None:
    match = _METRIC.fullmatch(plain)
    if not match:
        return None
    inches = Fraction(match["number"]) * _PER_METRIC[match["unit"].lower()]
    return -inches if match["sign"] else inches


def _unreadable(plain: str, text: str) -> MeasureError:
    if not plain:
        return MeasureError("The length is empty.", do="Write it like 12'-6 1/2\".")
    if _BARE.fullmatch(plain):
        return MeasureError(
            f"{text.strip()!r} has no unit.",
            do=f"Write {plain}' for feet or {plain}\" for inches{_decimal_hint(plain)}.",
        )
    return MeasureError(
        f"{text.strip()!r} is not a length.", do='Write it like 12\'-6 1/2", 150", 12.5 ft or 3.81 m.'
    )


def _decimal_hint(plain: str) -> str:
    match = re.fullmatch(r"(\d+)\.(\d{1,2})", plain)
    if not match or int(match[2]) > 11:
        return ""
    return f"; if {match[1]} feet {int(match[2])} inches was meant, write {match[1]}'-{int(match[2])}\""
