"""The next test: the one that tells most for the effort, and how a whole hunt would go."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from setday.rules import RuleBook
from setday.switching.answers import Answers, Codes
from setday.switching.observation import Flip, Meter, Test

__all__ = ["Ballot", "ballot", "best_column", "efforts", "groups_of", "hunt_lengths"]

Floats = npt.NDArray[np.float64]
_FEW = 2
"""Readings have three answers, numbered 0 to 2; flips have more."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Ballot:
    """The answers of groups that can be told apart, with equal tests put together.

    Parameters
    ----------
    codes : int array
        A row for each group, a column for each different way the tests divide them; small numbers.
    columns : tuple of tuples of int
        For each of these columns the tests (places in the catalog) that divide so.
    """

    codes: Codes
    columns: tuple[tuple[int, ...], ...]


def groups_of(answers: Answers) -> tuple[tuple[int, ...], ...]:
    """Return the rows of answers that no test tells apart, together."""
    groups: dict[bytes, list[int]] = {}
    for row, codes in enumerate(np.ascontiguousarray(answers.codes)):
        groups.setdefault(codes.tobytes(), []).append(row)
    return tuple(tuple(rows) for rows in groups.values())


def ballot(codes: Codes) -> Ballot:
    """Rename answers to small numbers, put tests that divide alike together, drop those that do not."""
    same: dict[bytes, list[int]] = {}
    kept: dict[bytes, Codes] = {}
    for column in range(codes.shape[1]):
        small = _small(codes[:, column])
        if small.max(initial=0) == 0:
            continue
        key = small.tobytes()
        same.setdefault(key, []).append(column)
        kept[key] = small
    if not kept:
        return Ballot(codes=np.zeros((len(codes), 0), dtype=np.int32), columns=())
    return Ballot(
        codes=np.stack(list(kept.values()), axis=1), columns=tuple(tuple(each) for each in same.values())
    )


def _small(column: Codes) -> Codes:
    """Number answers in the order in which they first appear."""
    _, first, inverse = np.unique(column, return_index=True, return_inverse=True)
    order = np.empty(len(first), dtype=np.int32)
    order[np.argsort(first)] = np.arange(len(first), dtype=np.int32)
    return np.asarray(order[inverse.ravel()], dtype=np.int16)


def efforts(tests: tuple[Test, ...], rules: RuleBook, *, opened: frozenset[str] = frozenset()) -> Floats:
    """Return the effort of each test; a reading in a box not opened yet includes opening it."""
    flip = rules.number("switching.effort_flip")
    opening = rules.number("switching.effort_open")
    reading = {
        Meter.DEAD: rules.number("switching.effort_continuity"),
        Meter.LIVE: rules.number("switching.effort_voltage"),
    }
    return np.array(
        [
            flip
            if isinstance(test, Flip)
            else reading[test.meter] + (0.0 if test.first.box in opened else opening)
            for test in tests
        ]
    )


def best_column(codes: Codes, weights: Floats, effort: Floats) -> int | None:
    """Return the column that tells most bits for its effort; None when no column divides the rows.

    Parameters
    ----------
    codes : int array
        Of the rows' answers.
    weights : float array
        Of the rows.
    effort : float array
        Of the columns.
    """
    if codes.shape[1] == 0 or len(codes) < 2:
        return None
    columns = _cheapest(codes, effort)
    bits = _bits(codes[:, columns], weights / weights.sum())
    best = int(np.argmax(np.round(bits / effort[columns], 12)))
    return int(columns[best]) if bits[best] > 1e-12 else None


def _cheapest(codes: Codes, effort: Floats) -> npt.NDArray[np.int64]:
    """Return, of columns that are equal, the cheapest each; equal ones are known by a sum that mixes rows."""
    mixed = np.random.default_rng(1).integers(1, 2**30, size=(2, len(codes))).astype(np.float64)
    keys = mixed @ codes.astype(np.float64)  # whole numbers below 2**53, so exact
    order = np.lexsort((np.arange(keys.shape[1]), effort, keys[1], keys[0]))
    sorted_keys = keys[:, order]
    firsts = np.append(True, (sorted_keys[:, 1:] != sorted_keys[:, :-1]).any(axis=0))
    return np.sort(order[firsts])


def _bits(codes: Codes, share: Floats) -> Floats:
    """Return what each column tells about the rows [bits]."""
    bits = np.zeros(codes.shape[1])
    few = codes.max(axis=0) <= _FEW
    small = codes[:, few]
    for answer in range(_FEW + 1):
        bits[few] += _surprise(share @ (small == answer))
    for column in np.flatnonzero(~few):
        _, inverse = np.unique(codes[:, column], return_inverse=True)
        bits[column] = _surprise(
            np.asarray(np.bincount(inverse.ravel(), weights=share), dtype=np.float64)
        ).sum()
    return bits


def _surprise(part: Floats) -> Floats:
    return np.asarray(np.where(part > 0, -part * np.log2(np.where(part > 0, part, 1.0)), 0.0))


def hunt_lengths(codes: Codes, weights: Floats, effort: Floats) -> tuple[Floats, Floats]:
    """Return for each row how many tests, and how much effort, until nothing else is left.

    Parameters
    ----------
    codes : int array
        Of rows that can all be told apart.
    weights, effort : float arrays
        Of rows and of columns.
    """
    count, spent = np.zeros(len(codes)), np.zeros(len(codes))
    waiting = [np.arange(len(codes))]
    while waiting:
        rows = waiting.pop()
        column = best_column(codes[rows], weights[rows], effort)
        if column is None:
            continue
        count[rows] += 1
        spent[rows] += effort[column]
        at = codes[rows, column]
        waiting += [rows[at == answer] for answer in np.unique(at)]
    return count, spent
