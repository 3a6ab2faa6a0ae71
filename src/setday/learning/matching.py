"""Which line of the correct working each of a student's lines is: by words, by unit, by number, by order."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from setday.errors import MeasureError
from setday.learning.agreement import Written, means_the_same
from setday.learning.reading import Reading, read_answer, read_number
from setday.learning.sums import worked_again
from setday.learning.tree import Figure, Line
from setday.learning.working_out import work_out

__all__ = ["MatchedLine", "StudentLine", "matched", "read_lines"]

_LEAST = 0.62
_SHORT = {
    "n": "north", "s": "south", "e": "east", "w": "west", "ht": "height", "tot": "total", "win": "window",
    "clg": "ceiling", "ceil": "ceiling", "len": "length", "wd": "width", "long": "length", "wide": "width",
    "high": "height", "tall": "height", "sum": "total", "ns": "north south", "ew": "east west",
}  # fmt: skip
_EMPTY = frozenset({"of", "the", "to", "and", "in", "a", "for"})
_IN_FEET, _LENGTHS = frozenset({"ft", "yd", "m"}), frozenset({"in", "ft", "yd", "m", "cm", "mm"})


@dataclass(frozen=True, slots=True, kw_only=True)
class StudentLine:
    """One line as a student wrote it: what it is, the arithmetic, what came out; only the last is needed."""

    label: str = ""
    worked: str = ""
    result: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchedLine:
    """A student's line by its place on the sheet, and what it was taken for."""

    place: int
    written: Written


def read_lines(
    figure: Figure, lines: Sequence[StudentLine], answer: str, *, worked: str = ""
) -> tuple[MatchedLine, ...]:
    """Return what a student's lines say of the lines of a figure, and the answer as its last.

    Parameters
    ----------
    figure : Figure
    lines : sequence of StudentLine
        Lines that no line of the working resembles are left out.
    answer : str
    worked : str
        The arithmetic beside the answer.

    Raises
    ------
    MeasureError
        Where the answer or a line's result is not a number.
    """
    last = figure.last
    final = read_answer(answer, unit=last.unit)
    readings = [read_number(line.result) for line in lines]
    found = matched(figure, lines, readings)
    written = [
        MatchedLine(place=place, written=_written(figure.by_key[key], lines[place], readings[place]))
        for place, key in found
        if key != last.key
    ]
    end = MatchedLine(
        place=len(lines),
        written=Written(
            line=last.key,
            value=final.value,
            step=final.step,
            worked=worked_again(worked, inches=last.unit == "in"),
        ),
    )
    return (*written, end)


def _written(line: Line, student: StudentLine, read: Reading) -> Written:
    value, step = _in_unit(line, read)
    again = worked_again(student.worked, inches=line.unit == "in")
    return Written(line=line.key, value=value, step=step, worked=again)


def _in_unit(line: Line, read: Reading) -> tuple[float, float]:
    """Return a reading in the unit of a line; a bare number is in that unit, a bare measure in feet."""
    if line.unit in {"in", "ft"} and read.unit in _LENGTHS:
        try:
            turned = read_answer(f"{read.value} {read.unit}", unit=line.unit)
        except MeasureError:
            return read.value, read.step
        return turned.value, read.step * (turned.value / read.value if read.value else 1.0)
    if line.unit == "in" and not read.unit:
        return read.value * 12, read.step * 12
    return read.value, read.step


def matched(
    figure: Figure, lines: Sequence[StudentLine], readings: Sequence[Reading]
) -> tuple[tuple[int, str], ...]:
    """Return pairs of a student's line, by its place, and the key of the line it stands for.

    Parameters
    ----------
    figure : Figure
    lines : sequence of StudentLine
    readings : sequence of Reading
        Of their results.
    """
    if not lines:
        return ()
    from scipy.optimize import linear_sum_assignment  # heavy, and only here

    right = work_out(figure)
    score = np.array(
        [
            [
                _likeness(student, read, line, right[line.key], abs(n / len(lines) - m / len(figure.lines)))
                for m, line in enumerate(figure.lines)
            ]
            for n, (student, read) in enumerate(zip(lines, readings, strict=True))
        ]
    )
    rows, columns = linear_sum_assignment(score, maximize=True)
    return tuple(
        (int(row), figure.lines[column].key)
        for row, column in zip(rows, columns, strict=True)
        if score[row, column] >= _LEAST
    )


def _likeness(student: StudentLine, read: Reading, line: Line, right: float, apart: float) -> float:
    if not _fits_unit(read, line):
        return -1.0
    value, step = _in_unit(line, read)
    same = means_the_same(Written(line=line.key, value=value, step=step), right, line)
    words = _words_alike(student.label, line.label)
    return words + (0.6 if same else 0.0) + 0.15 * (read.unit == line.unit) - 0.2 * apart


def _fits_unit(read: Reading, line: Line) -> bool:
    if not read.unit:
        return True
    return read.unit == line.unit or (read.unit in _LENGTHS and line.unit in {"in", "ft"})


def _words_alike(one: str, other: str) -> float:
    a, b = _words(one), _words(other)
    if not a or not b:
        return 0.0
    both = sum(any(x == y or (len(x) > 3 and y.startswith(x)) for y in b) for x in a)
    return 2 * both / (len(a) + len(b))


def _words(label: str) -> set[str]:
    found = re.findall(r"[a-z0-9]+", label.lower())
    spelled = " ".join(_SHORT.get(word, word) for word in found).split()
    return {word for word in spelled if word not in _EMPTY}
