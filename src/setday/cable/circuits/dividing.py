"""Dividing outlets over circuits: the method for each size, and what is proven of the answer."""

from setday.cable.circuits.grouping import SMALL, GroupingProblem, Groups, exact_groups, verify
from setday.cable.circuits.grouping_bound import forest_bound_ft
from setday.cable.circuits.grouping_cuts import cut_bound_ft
from setday.cable.circuits.regrouping import good_groups
from setday.solving import Limits

__all__ = ["divide", "least_circuits"]

_MODELLED = 24
"""Above so many nodes the model's bound is weaker than the linear program's [count]; measured."""
_NEAR = 1e-4
"""A division this near its bound is not worth a model, relative (our own)."""
_SECONDS = 60.0
"""Never reached: the search ends by its own count of steps, the same on every machine [s] (our own)."""


def least_circuits(problem: GroupingProblem) -> int:
    """Return how many circuits the loads need at least, whatever the way [count]."""
    total = -(-sum(problem.loads) // problem.most_va)
    halves = sum(2 * load > problem.most_va for load in problem.loads)
    return max(1, total, halves)


def divide(problem: GroupingProblem) -> Groups | None:
    """Divide outlets over circuits with as little cable as can be found.

    Up to eleven nodes every division is weighed.  Above that a search finds a good division and a linear
    program bounds it; up to 24 nodes, where these two do not meet, a model for CP-SAT betters both.

    Parameters
    ----------
    problem : GroupingProblem

    Returns
    -------
    Groups or None
        None where so many circuits cannot hold the outlets, or none was found.

    Raises
    ------
    RuntimeError
        When a division does not hold up when it is checked: a mistake of this program.
    """
    if len(problem.names) < problem.circuits or min(problem.loads) > problem.most_va:
        return None
    found = exact_groups(problem) if len(problem.names) <= SMALL else _searched(problem)
    if found is None:
        return None
    wrong = verify(problem, found)
    if wrong:
        raise RuntimeError(f"a division of circuits that does not hold: {'; '.join(wrong)}")
    return found


def _searched(problem: GroupingProblem) -> Groups | None:
    from setday.cable.circuits.cpsat import PER_FOOT, groups_of, solve_groups

    first = good_groups(problem)
    bound = max(forest_bound_ft(problem), cut_bound_ft(problem))
    if first is not None and (
        len(problem.names) > _MODELLED or _length(problem, first) - bound < _NEAR * bound
    ):
        length = _length(problem, first)
        return Groups(
            groups=first,
            cable_ft=length,
            bound_ft=min(bound, length),
            method="search, bounded by a linear program",
        )
    limits = Limits(seconds=_SECONDS, clock=lambda: 0.0, workers=1)
    answer = solve_groups(problem, hint=first, limits=limits)
    bound = max(bound, (answer.bound or 0.0) / PER_FOOT)
    options = [groups for groups in (first, groups_of(problem, answer)) if groups]
    if not options:
        return None
    lengths = [(_length(problem, groups), groups) for groups in options]
    length, groups = min(lengths)
    return Groups(
        groups=groups,
        cable_ft=length,
        bound_ft=min(bound, length),
        method="search, bettered and bounded by a solver",
    )


def _length(problem: GroupingProblem, groups: tuple[tuple[int, ...], ...]) -> float:
    trees = problem.trees
    return sum(trees.length(sum(1 << node for node in group)) for group in groups)
