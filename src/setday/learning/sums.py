"""The arithmetic a student sets down on a line, done again: ``14'-6" x 8' - 20``."""

import re
from collections.abc import Iterator

from setday.errors import MeasureError
from setday.measure import parse_length

__all__ = ["worked_again"]

_TOKEN = re.compile(
    r"\s*(?:(?P<length>\d+(?:\.\d+)?\s*'(?:\s*-?\s*\d+(?:\s+\d+/\d+)?(?:\.\d+)?\s*\"|-\d+)?"
    r"|\d+(?:\.\d+)?(?:\s+\d+/\d+)?\s*\")|(?P<number>\d[\d,]*(?:\.\d+)?|\.\d+)|(?P<sign>[-+*/()x×÷·]))",
    re.IGNORECASE,
)
_LONGEST = 200
_TIMES, _OVER = frozenset("*xX×·"), frozenset("/÷")
_DEEPEST = 12
_MARKS = str.maketrans("\u2033\u2032\u201d\u2019\u2212\u2013", "\"'\"'--")


class _UnreadableError(Exception):
    """Not arithmetic."""


def worked_again(text: str, *, inches: bool) -> float | None:
    r"""Return what a line of arithmetic comes to; None where it cannot be read as arithmetic.

    Parameters
    ----------
    text : str
    inches : bool
        True where the line is in inches; lengths then count in inches, otherwise in feet, but for those
        written in inches only and divided by 144.

    Examples
    --------
    >>> worked_again("14'-6\" x 8' - 20", inches=False)
    96.0
    >>> worked_again('48" x 48" / 144', inches=False)
    16.0
    """
    if not text.strip() or len(text) > _LONGEST:
        return None
    plain = text.translate(_MARKS)
    by_144 = "144" in plain
    try:
        tokens = list(_tokens(plain, inches=inches, by_144=by_144))
        value, rest = _sum(tokens, 0)
    except (_UnreadableError, MeasureError, ZeroDivisionError):
        return None
    return value if not rest else None


def _tokens(text: str, *, inches: bool, by_144: bool) -> Iterator[float | str]:
    at, text = 0, text.strip()
    while at < len(text):
        found = _TOKEN.match(text, at)
        if found is None:
            raise _UnreadableError
        at = found.end()
        if found["length"]:
            length = parse_length(found["length"])
            plain_inches = "'" not in found["length"]
            yield length.inches if inches or (plain_inches and by_144) else length.feet
        elif found["number"]:
            yield float(found["number"].replace(",", ""))
        else:
            yield found["sign"]


Tokens = list[float | str]


def _sum(tokens: Tokens, depth: int) -> tuple[float, Tokens]:
    value, rest = _product(tokens, depth)
    while rest and rest[0] in {"+", "-"}:
        sign = 1 if rest[0] == "+" else -1
        more, rest = _product(rest[1:], depth)
        value += sign * more
    return value, rest


def _product(tokens: Tokens, depth: int) -> tuple[float, Tokens]:
    value, rest = _one(tokens, depth)
    while rest and isinstance(rest[0], str) and rest[0] in _TIMES | _OVER:
        over = rest[0] in _OVER
        more, rest = _one(rest[1:], depth)
        value = value / more if over else value * more
    return value, rest


def _one(tokens: Tokens, depth: int) -> tuple[float, Tokens]:
    if not tokens or depth > _DEEPEST:
        raise _UnreadableError
    first = tokens[0]
    if isinstance(first, float):
        return first, tokens[1:]
    if first != "(":
        raise _UnreadableError
    value, rest = _sum(tokens[1:], depth + 1)
    if not rest or rest[0] != ")":
        raise _UnreadableError
    return value, rest[1:]
