"""The shortest chain through many boxes, as a model for CP-SAT."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil

import numpy as np
from numpy.typing import NDArray
from ortools.sat.python import cp_model

from setday.errors import NoAnswer
from setday.solving import Limits, Status, run_cpsat

__all__ = ["shortest_chain"]

_PLAY = 1e-6
_STEPS = 20.0
"""Deterministic time of the search: the same on every machine (our own)."""


def shortest_chain(
    table: NDArray[np.int64], known: Sequence[int], limits: Limits
) -> tuple[list[int], int, str]:
    """Return the shortest chain from place 0 through all others, what no chain beats, and how it was found.

    Parameters
    ----------
    table : array of int
        Length from place to place [1/64 in]; the same both ways.
    known : sequence of int
        A good chain, without place 0: where the search begins, and the answer where it finds none better.
    limits : Limits

    Raises
    ------
    NoAnswer
        When the chain found does not pass its own check.
    """
    count = len(table)
    model = cp_model.CpModel()
    arcs = {(i, j): model.new_bool_var(f"{i}-{j}") for i in range(count) for j in range(count) if i != j}
    model.add_circuit([(i, j, taken) for (i, j), taken in arcs.items()])
    model.minimize(sum(int(table[i, j]) * taken for (i, j), taken in arcs.items() if j))
    steps = set(pairwise([0, *known, 0]))
    for arc, taken in arcs.items():
        model.add_hint(taken, arc in steps)
    answer = run_cpsat(model, limits=limits, options={"max_deterministic_time": _STEPS})
    chain = list(known)
    if answer.status is not Status.NONE:
        chain = _followed({i: j for (i, j), taken in arcs.items() if answer.values[taken.index] > 0.5})
    if sorted(chain) != list(range(1, count)):
        raise NoAnswer("The order of boxes did not pass its own check and is not shown.")
    bound = max(0, ceil((answer.bound or 0.0) - _PLAY))
    method = "constraint programming, proven" if answer.final else "constraint programming, time ran out"
    return chain, bound, method


def _followed(onward: dict[int, int]) -> list[int]:
    chain, at = [], onward[0]
    while at:
        chain.append(at)
        at = onward[at]
    return chain
