"""The master programme of a cutting plan, solved with HiGHS: which patterns, and how often."""

from collections.abc import Sequence
from dataclasses import dataclass

import highspy
import numpy as np

from setday.materials.sticks import Pattern, Sticks
from setday.solving import QuietHighs, Status, run_highs

__all__ = ["LinearAnswer", "Master", "whole_sticks"]

_SURE = 1e-6
_LEAST_SECONDS = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearAnswer:
    """How often each pattern is used when sticks may be bought in parts, and what a piece is then worth."""

    used: tuple[float, ...]
    worth: tuple[float, ...]


class Master:
    """The linear master programme; columns are added and demands changed in place.

    Parameters
    ----------
    sticks : Sticks
    """

    def __init__(self, sticks: Sticks) -> None:
        self.sticks = sticks
        self.patterns: list[Pattern] = []
        self._known: set[Pattern] = set()
        # New columns leave the last answer feasible, so the primal simplex goes on from it.
        self._highs = QuietHighs({"simplex_strategy": 4, "presolve": "off"})
        self._limited = _limited_rows(sticks)
        for count in sticks.counts:
            self._highs.addRow(float(count), highspy.kHighsInf, 0, _NONE, _NO_VALUES)
        for stock in self._limited:
            number = sticks.available[stock] or 0
            self._highs.addRow(-highspy.kHighsInf, float(number), 0, _NONE, _NO_VALUES)

    def add(self, pattern: Pattern) -> bool:
        """Add a pattern; return False when it is already there."""
        if pattern in self._known:
            return False
        self._known.add(pattern)
        self.patterns.append(pattern)
        rows, values = _column(pattern, self._limited)
        cost = float(self.sticks.weights[pattern.stock])
        self._highs.addCol(cost, 0.0, highspy.kHighsInf, len(rows), rows, values)
        return True

    def ask(self, counts: Sequence[int], available: Sequence[int | None]) -> None:
        """Change how many pieces are asked for and how many sticks there are."""
        for row, count in enumerate(counts):
            self._highs.changeRowBounds(row, float(count), highspy.kHighsInf)
        for stock, row in self._limited.items():
            self._highs.changeRowBounds(row, -highspy.kHighsInf, float(available[stock] or 0))

    def solve(self) -> LinearAnswer | None:
        """Solve the linear programme; None when the solver gives no optimal answer."""
        answer = run_highs(self._highs)
        if answer.status is not Status.OPTIMAL:
            return None
        worth = self._highs.getSolution().row_dual[: len(self.sticks.sizes)]
        return LinearAnswer(used=answer.values, worth=tuple(worth))


def whole_sticks(
    sticks: Sticks, patterns: Sequence[Pattern], *, below: int, seconds: float, seed: int
) -> tuple[list[Pattern] | None, bool]:
    """Choose whole sticks among given patterns, for less than a given total.

    Parameters
    ----------
    sticks : Sticks
    patterns : sequence of Pattern
    below : int
        Only a choice that counts for less than this is wanted.
    seconds : float
        Time limit [s].
    seed : int

    Returns
    -------
    tuple of list of Pattern or None, and bool
        The choice, if any; and whether the answer is final: the choice is the best among these patterns,
        or there is none.
    """
    if not patterns:
        return None, True
    highs = QuietHighs({"random_seed": seed, "mip_rel_gap": 0.0, "mip_abs_gap": 1.0 - _SURE})
    limited = _limited_rows(sticks)
    for count in sticks.counts:
        highs.addRow(float(count), highspy.kHighsInf, 0, _NONE, _NO_VALUES)
    for stock in limited:
        highs.addRow(-highspy.kHighsInf, float(sticks.available[stock] or 0), 0, _NONE, _NO_VALUES)
    budget = highs.getNumRow()
    highs.addRow(-highspy.kHighsInf, float(below - 1), 0, _NONE, _NO_VALUES)
    for column, pattern in enumerate(patterns):
        cost = float(sticks.weights[pattern.stock])
        rows, values = _column(pattern, limited)
        if cost:
            rows, values = np.append(rows, np.int32(budget)), np.append(values, cost)
        highs.addCol(cost, 0.0, highspy.kHighsInf, len(rows), rows, values)
        highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    answer = run_highs(highs, seconds=max(seconds, _LEAST_SECONDS))
    if answer.status is Status.NONE:
        return None, answer.final
    return [p for p, n in zip(patterns, answer.values, strict=True) for _ in range(round(n))], answer.final


def _limited_rows(sticks: Sticks) -> dict[int, int]:
    limited = [stock for stock in sticks.stocks if sticks.available[stock] is not None]
    return {stock: len(sticks.sizes) + place for place, stock in enumerate(limited)}


def _column(
    pattern: Pattern, limited: dict[int, int]
) -> tuple["np.ndarray[tuple[int], np.dtype[np.int32]]", "np.ndarray[tuple[int], np.dtype[np.float64]]"]:
    rows = [row for row, count in enumerate(pattern.counts) if count]
    values = [float(count) for count in pattern.counts if count]
    if pattern.stock in limited:
        rows.append(limited[pattern.stock])
        values.append(1.0)
    return np.array(rows, dtype=np.int32), np.array(values, dtype=np.float64)


_NONE = np.array([], dtype=np.int32)
_NO_VALUES = np.array([], dtype=np.float64)
