"""A length that no division of outlets over circuits can beat, without a solver."""

from setday.cable.circuits.grouping import GroupingProblem

__all__ = ["forest_bound_ft"]

_HALVINGS = 40


def forest_bound_ft(problem: GroupingProblem) -> float:
    """Return the least tree over panel and nodes with exactly so many home runs as circuits [ft].

    What circuits may carry is left out, so no division over these circuits comes to less.  A price on
    every home run (found by halving) makes the least tree take the wanted number of them; with that price
    taken off again the tree's length is a bound, whatever the price (Lagrange).

    Parameters
    ----------
    problem : GroupingProblem
    """
    longest = max((*problem.from_panel, *(d for row in problem.between for d in row)), default=0.0)
    low, high = -longest - 1.0, longest + 1.0
    best = 0.0
    for _ in range(_HALVINGS):
        price = (low + high) / 2
        length, homes = _least_tree(problem, price)
        best = max(best, length - price * problem.circuits)
        if homes > problem.circuits:
            low = price
        else:
            high = price
    return best


def _least_tree(problem: GroupingProblem, price: float) -> tuple[float, int]:
    """Return the least tree when a home run costs so much more: its length, its home runs."""
    near = {n: (d + price, True) for n, d in enumerate(problem.from_panel)}
    total, homes = 0.0, 0
    while near:
        node = min(near, key=lambda n: (near[n][0], not near[n][1], n))
        length, home = near.pop(node)
        total, homes = total + length, homes + home
        for other in near:
            if problem.between[node][other] < near[other][0]:
                near[other] = (problem.between[node][other], False)
    return total, homes
