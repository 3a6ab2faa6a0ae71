"""A class's answers as dots over one line, with the right answer marked; and its table."""

from collections.abc import Iterator, Sequence

from setday.drawing.ink import BOLD, FINE, Svg, circle, line
from setday.drawing.lettering import SMALL, letters
from setday.drawing.paper import PHONE, Paper, finish, key_of
from setday.drawing.table import Table

__all__ = ["dot_plot", "dot_table"]

_SIDE, _TOP, _STEP, _DOT = 34.0, 44.0, 13.0, 5.0
_WIDEST = 2.5
"""Answers further than so many times the right one stand at the edge, so that the others stay apart."""

Answers = Sequence[tuple[str, float]]


def dot_plot(answers: Answers, *, right: float, unit: str, paper: Paper = PHONE, key: str = "spread") -> str:
    """Draw every answer as a dot over a line of numbers; full dots are right, hollow ones are not.

    Parameters
    ----------
    answers : sequence of (str, float)
        Whose, and the number.
    right : float
        The right answer; a heavy line.
    unit : str
    paper : Paper
        Only its width is used.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    low, high = _range([value for _, value in answers], right)
    left, width = _SIDE, paper.width - 2 * _SIDE

    def x(value: float) -> float:
        return left + width * (min(max(value, low), high) - low) / (high - low)

    stacks = _stacked([(x(value), _is_right(value, right)) for _, value in answers])
    tallest = max(n for _, n, _ in stacks) + 1
    floor = _TOP + tallest * _STEP
    body = (
        line(x1=left, y1=floor, x2=left + width, y2=floor, width=FINE),
        line(x1=x(right), y1=_TOP - 10, x2=x(right), y2=floor + 6, width=BOLD),
        letters(f"right: {_number(right)} {unit}", x=_within(x(right), paper), y=_TOP - 24, bold=True),
        *(
            circle(x=at, y=floor - 8 - n * _STEP, r=_DOT, fill="ink" if full else "paper")
            for at, n, full in stacks
        ),
        *_ends(low, high, left, width, floor),
        *_beyond([value for _, value in answers], low, high, left, width, floor),
    )
    return finish(
        body=body,
        title="The answers of the class",
        desc=_words(answers, right, unit),
        width=paper.width,
        height=floor + 44,
        key=key_of(key),
    )


def _range(values: list[float], right: float) -> tuple[float, float]:
    far = max(abs(right), 1.0) * _WIDEST
    near = [value for value in values if abs(value - right) <= far] or [right]
    low, high = min(*near, right), max(*near, right)
    pad = (high - low) * 0.08 or max(abs(right) * 0.1, 1.0)
    return low - pad, high + pad


def _is_right(value: float, right: float) -> bool:
    return abs(value - right) <= max(0.051, 0.0012 * abs(right))


def _stacked(dots: list[tuple[float, bool]]) -> list[tuple[float, int, bool]]:
    """Return the dots with how high each stands: those that would touch stand on each other."""
    placed: list[tuple[float, int, bool]] = []
    for at, full in sorted(dots):
        taken = {n for other, n, _ in placed if abs(other - at) < 2 * _DOT + 1}
        height = next(n for n in range(len(dots) + 1) if n not in taken)
        placed.append((at, height, full))
    return placed


def _ends(low: float, high: float, left: float, width: float, floor: float) -> Iterator[Svg]:
    for value, at, anchor in ((low, left, "start"), (high, left + width, "end")):
        yield line(x1=at, y1=floor - 4, x2=at, y2=floor + 4, width=FINE)
        yield letters(_number(value), x=at, y=floor + 18, size=SMALL, anchor=anchor)


def _beyond(
    values: list[float], low: float, high: float, left: float, width: float, floor: float
) -> Iterator[Svg]:
    """Yield how many answers stand further out than the line goes."""
    for count, at, anchor in (
        (sum(value < low for value in values), left, "start"),
        (sum(value > high for value in values), left + width, "end"),
    ):
        if count:
            yield letters(f"{count} further off", x=at, y=floor + 32, size=SMALL, anchor=anchor)


def _within(x: float, paper: Paper) -> float:
    return min(max(x, 90.0), paper.width - 90.0)


def _number(value: float) -> str:
    return f"{value:,.1f}".removesuffix(".0")


def _words(answers: Answers, right: float, unit: str) -> str:
    good = sum(_is_right(value, right) for _, value in answers)
    return f"{len(answers)} answers about {_number(right)} {unit}; {good} are right."


def dot_table(answers: Answers, *, right: float, unit: str) -> Table:
    """Return the answers with how far each is off.

    Parameters
    ----------
    answers : sequence of (str, float)
    right : float
    unit : str
    """
    return Table(
        caption="The answers of the class",
        head=("Who", f"Answer, {unit}", "Off by"),
        rows=tuple(
            (who, _number(value), "right" if _is_right(value, right) else _off(value - right))
            for who, value in sorted(answers, key=lambda each: (each[1], each[0]))
        ),
        figures=(False, True, True),
    )


def _off(value: float) -> str:
    return f"{'+' if value > 0 else '-'}{_number(abs(value))}"
