"""The door to HiGHS: silent, with an answer whose bound can be trusted.

The cases are small enough to be settled on paper: packing one bag of 10 with things of weight 6, 5, 5
worth 9, 7, 7 (HiGHS minimises, so worths are negative): 14 in whole things, 15 in parts.
"""

import highspy
import numpy as np
import pytest

from setday.solving import QuietHighs, Status, run_highs

WORTH = (9.0, 7.0, 7.0)
WEIGHT = (6.0, 5.0, 5.0)
NONE = np.array([], dtype=np.int32)


def bag(*, whole: bool, holds: float = 10.0, options: dict | None = None) -> QuietHighs:
    """Return the model of one bag."""
    highs = QuietHighs(options)
    highs.addRow(-highspy.kHighsInf, holds, 0, NONE, np.array([]))
    for column, (worth, weight) in enumerate(zip(WORTH, WEIGHT, strict=True)):
        highs.addCol(-worth, 0.0, 1.0, 1, np.array([0], dtype=np.int32), np.array([weight]))
        if whole:
            highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    return highs


@pytest.mark.parametrize(("whole", "least"), [(True, -14.0), (False, -9.0 - 7.0 * 4.0 / 5.0)])
def test_the_best_is_found_and_proven(whole, least):
    answer = run_highs(bag(whole=whole))
    assert answer.status is Status.OPTIMAL
    assert answer.final
    assert answer.objective == pytest.approx(least)
    assert answer.bound == pytest.approx(least)


def test_values_stand_in_the_order_of_the_columns():
    assert run_highs(bag(whole=True)).values == pytest.approx((0.0, 1.0, 1.0))


@pytest.mark.parametrize("whole", [True, False])
def test_no_answer_at_all_is_final(whole):
    answer = run_highs(bag(whole=whole, holds=-1.0))
    assert (answer.status, answer.final, answer.objective, answer.values) == (Status.NONE, True, None, ())


def test_time_that_runs_out_is_no_proof_that_there_is_none():
    highs = QuietHighs({"presolve": "off"})
    rng = np.random.default_rng(1)
    cells = 400
    for _ in range(150):
        where = np.sort(rng.choice(cells, 60, replace=False)).astype(np.int32)
        highs.addRow(20.0, 20.0, 0, NONE, np.array([]))
    for column in range(cells):
        rows = np.sort(rng.choice(150, 40, replace=False)).astype(np.int32)
        highs.addCol(float(rng.integers(1, 99)), 0.0, 1.0, 40, rows, rng.integers(1, 9, 40).astype(float))
        highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    assert len(where) == 60
    answer = run_highs(highs, seconds=0.0)
    assert (answer.status, answer.final) == (Status.NONE, False)


def test_each_run_has_its_own_time():
    highs = bag(whole=True)
    for _ in range(20):
        assert run_highs(highs, seconds=0.5).status is Status.OPTIMAL
        highs.clearSolver()


def test_a_model_without_a_least_value_is_a_programmers_mistake():
    highs = QuietHighs()
    highs.addCol(-1.0, 0.0, highspy.kHighsInf, 0, NONE, np.array([]))
    with pytest.raises(ValueError, match="unbounded"):
        run_highs(highs)


def test_an_unknown_option_is_a_programmers_mistake():
    with pytest.raises(ValueError, match="no_such_option"):
        QuietHighs({"no_such_option": 1})


def test_nothing_is_printed(capfd):
    run_highs(bag(whole=True))
    run_highs(bag(whole=False))
    assert capfd.readouterr() == ("", "")
