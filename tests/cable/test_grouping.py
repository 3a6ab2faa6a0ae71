"""Outlets divided over circuits, against brute force and against laws."""

from itertools import product

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.cable.circuits.dividing import divide, least_circuits
from setday.cable.circuits.grouping import GroupingProblem, Groups, exact_groups, verify
from setday.cable.circuits.grouping_bound import forest_bound_ft
from setday.cable.circuits.grouping_cuts import cut_bound_ft
from setday.cable.circuits.regrouping import good_groups
from setday.cable.circuits.trees import Trees


@st.composite
def problems(draw, least=1, most=7):
    """Outlets on whole feet of a plan, cable along its two directions."""
    count = draw(st.integers(least, most))
    spots = draw(st.lists(st.tuples(st.integers(0, 44), st.integers(0, 26)), min_size=count, max_size=count))
    loads = draw(st.lists(st.sampled_from([75, 180, 360, 500]), min_size=count, max_size=count))
    circuits = draw(st.integers(1, min(3, count)))
    spread = draw(st.sets(st.integers(0, count - 1), max_size=count))
    return GroupingProblem(
        names=tuple(f"outlet {n}" for n in range(count)),
        loads=tuple(loads),
        from_panel=tuple(float(x + y + 12) for x, y in spots),
        between=tuple(tuple(float(abs(a - c) + abs(b - d)) for c, d in spots) for a, b in spots),
        circuits=circuits,
        most_va=draw(st.sampled_from([720, 1080, 1800])),
        spread=frozenset(spread) if len(spread) >= circuits else frozenset(),
    )


def tree_ft(problem, group):
    """The least tree of a group by networkx, and its shortest home run."""
    graph = nx.Graph()
    graph.add_nodes_from(group)
    graph.add_weighted_edges_from((a, b, problem.between[a][b]) for a in group for b in group if a < b)
    tree = nx.minimum_spanning_tree(graph).size(weight="weight")
    return tree + min(problem.from_panel[n] for n in group)


def brute(problem):
    """The least cable of all divisions, every one of them tried; None where none is admissible."""
    best = None
    nodes = range(len(problem.names))
    for choice in product(range(problem.circuits), repeat=len(nodes)):
        groups = [[n for n in nodes if choice[n] == c] for c in range(problem.circuits)]
        if not all(groups):
            continue
        if any(sum(problem.loads[n] for n in group) > problem.most_va for group in groups):
            continue
        if problem.spread and not all(problem.spread & set(group) for group in groups):
            continue
        length = sum(tree_ft(problem, group) for group in groups)
        best = length if best is None else min(best, length)
    return best


@settings(max_examples=60, deadline=None)
@given(problems())
def test_every_division_weighed_gives_the_least_of_brute_force(problem):
    best = brute(problem)
    found = exact_groups(problem)
    assert (found is None) == (best is None)
    if found is not None:
        assert found.cable_ft == pytest.approx(best)
        assert found.proven


@settings(max_examples=60, deadline=None)
@given(problems())
def test_no_division_beats_the_forest(problem):
    best = brute(problem)
    if best is not None:
        assert forest_bound_ft(problem) <= best + 1e-6
        assert cut_bound_ft(problem) <= best + 1e-6


def test_what_circuits_carry_makes_the_bound_stronger():
    problem = row_of(30, 4)
    assert cut_bound_ft(problem) >= forest_bound_ft(problem) - 0.01
    tight = row_of(11, 3, most=870)
    assert forest_bound_ft(tight) + 1 < cut_bound_ft(tight) <= exact_groups(tight).cable_ft


@settings(max_examples=40, deadline=None)
@given(problems())
def test_a_searched_division_is_admissible_and_not_better_than_the_best(problem):
    groups = good_groups(problem)
    if groups is None:
        return
    length = sum(tree_ft(problem, group) for group in groups)
    found = Groups(groups=groups, cable_ft=length, bound_ft=0.0, method="search")
    assert verify(problem, found) == ()
    assert length >= brute(problem) - 1e-6


def row_of(count, circuits, most=1800):
    """Outlets in a winding row, 6 ft apart along a wall 60 ft long."""
    spots = [(6.0 * (n % 10), 8.0 * (n // 10)) for n in range(count)]
    return GroupingProblem(
        names=tuple(str(n) for n in range(count)),
        loads=tuple(180 if n % 3 else 255 for n in range(count)),
        from_panel=tuple(x + y + 12 for x, y in spots),
        between=tuple(tuple(abs(a - c) + abs(b - d) for c, d in spots) for a, b in spots),
        circuits=circuits,
        most_va=most,
    )


@pytest.mark.parametrize(("count", "circuits"), [(12, 2), (16, 2), (30, 4)])
def test_larger_divisions_hold_up_and_tell_their_bound(count, circuits):
    problem = row_of(count, circuits)
    found = divide(problem)
    assert verify(problem, found) == ()
    assert forest_bound_ft(problem) - 1e-6 <= found.bound_ft <= found.cable_ft


def test_the_model_proves_what_every_division_weighed_gives():
    from setday.cable.circuits.cpsat import PER_FOOT, groups_of, solve_groups
    from setday.solving import Limits, Status

    problem = row_of(10, 2, most=1200)
    exact = exact_groups(problem)
    answer = solve_groups(problem, hint=None, limits=Limits(seconds=30, clock=lambda: 0.0, workers=1))
    assert answer.status is Status.OPTIMAL
    assert answer.objective / PER_FOOT == pytest.approx(exact.cable_ft, abs=0.1)
    assert sorted(sum(groups_of(problem, answer), ())) == list(range(10))


def test_too_many_loads_for_the_circuits_are_no_answer():
    problem = row_of(10, 1)
    assert divide(problem) is None
    assert least_circuits(problem) == 2


def test_a_division_that_breaks_a_rule_is_refused():
    problem = row_of(4, 2)
    good = divide(problem)
    wrong = [
        Groups(groups=((0, 1), (2,)), cable_ft=good.cable_ft, bound_ft=0, method=""),
        Groups(groups=((0, 1, 2, 3),), cable_ft=good.cable_ft, bound_ft=0, method=""),
        Groups(groups=good.groups, cable_ft=good.cable_ft - 1, bound_ft=0, method=""),
        Groups(groups=good.groups, cable_ft=good.cable_ft, bound_ft=good.cable_ft + 1, method=""),
    ]
    assert all(verify(problem, each) for each in wrong)
    assert verify(problem, good) == ()


def test_a_tree_takes_one_home_run():
    trees = Trees(from_panel=[10.0, 11.0], between=[[0.0, 30.0], [30.0, 0.0]])
    assert trees.length(0b11) == 40.0  # not 21: a circuit leaves the panel once
