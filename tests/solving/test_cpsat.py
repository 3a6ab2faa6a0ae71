"""The door to CP-SAT: what HiGHS answers too, progress in the caller's thread, a stop that keeps the best."""

import threading
import time
from itertools import pairwise

import pytest
from ortools.sat.python import cp_model

from setday.solving import Limits, Status, run_cpsat

WORTH = (9, 7, 7)
WEIGHT = (6, 5, 5)


def limits(seconds: float = 20.0) -> Limits:
    return Limits(seconds=seconds, clock=time.monotonic, workers=1)


def bag(holds: int = 10) -> tuple[cp_model.CpModel, list[cp_model.IntVar]]:
    """Return the same bag as in the tests of HiGHS: two things of worth 7 are the best, 14 together."""
    model = cp_model.CpModel()
    taken = [model.new_bool_var(str(n)) for n in range(3)]
    model.add(sum(w * t for w, t in zip(WEIGHT, taken, strict=True)) <= holds)
    model.minimize(-sum(w * t for w, t in zip(WORTH, taken, strict=True)))
    return model, taken


def long_search() -> cp_model.CpModel:
    """Return a model whose first answer is easy and whose proof takes far longer than a test may."""
    model = cp_model.CpModel()
    marks = [model.new_int_var(0, 400, f"m{n}") for n in range(16)]  # a short ruler with 16 marks
    model.add(marks[0] == 0)
    for a, b in pairwise(marks):
        model.add(a < b)
    model.add_all_different([marks[j] - marks[i] for j in range(16) for i in range(j)])
    model.minimize(marks[-1])
    return model


def test_the_best_is_found_and_proven():
    model, taken = bag()
    answer = run_cpsat(model, limits=limits())
    assert (answer.status, answer.final, answer.objective, answer.bound) == (Status.OPTIMAL, True, -14, -14)
    assert [answer.values[t.index] for t in taken] == [0, 1, 1]


def test_no_answer_at_all_is_final():
    model, _ = bag(holds=-1)
    answer = run_cpsat(model, limits=limits())
    assert (answer.status, answer.final, answer.values) == (Status.NONE, True, ())


def test_time_that_runs_out_is_no_proof_that_there_is_none():
    answer = run_cpsat(long_search(), limits=limits(0.0))
    assert (answer.status, answer.final) == (Status.NONE, False)


def test_a_person_ends_the_search_and_keeps_the_best():
    told = []

    def stop_at_first(answer):
        told.append((threading.get_ident(), answer))
        return answer.objective is None

    answer = run_cpsat(long_search(), limits=limits(), on_progress=stop_at_first)
    assert answer.status is Status.STOPPED
    assert answer.objective <= told[-1][1].objective
    assert answer.bound <= answer.objective
    assert {thread for thread, _ in told} == {threading.get_ident()}


def test_a_fault_in_the_callers_progress_ends_the_search_and_reaches_the_caller():
    def broken(_answer):
        raise KeyError("no page")

    begun = time.monotonic()
    with pytest.raises(KeyError, match="no page"):
        run_cpsat(long_search(), limits=limits(), on_progress=broken)
    assert time.monotonic() - begun < 10


def test_progress_changes_no_answer():
    model, _ = bag()
    assert run_cpsat(model, limits=limits(), on_progress=lambda _: True) == run_cpsat(model, limits=limits())


@pytest.mark.parametrize("with_progress", [False, True])
def test_a_malformed_model_is_a_programmers_mistake(with_progress):
    model = cp_model.CpModel()
    one = model.new_int_var(0, 1, "one")
    model.proto.variables[one.index].domain[0] = 3  # from 3 to 1
    with pytest.raises(ValueError, match="invalid"):
        run_cpsat(model, limits=limits(), on_progress=(lambda _: True) if with_progress else None)


@pytest.mark.parametrize("options", [{"no_such_option": 1}, {"linearization_level": "much"}])
def test_an_unknown_option_is_a_programmers_mistake(options):
    with pytest.raises(ValueError, match=next(iter(options))):
        run_cpsat(bag()[0], limits=limits(), options=options)


def test_nothing_is_printed(capfd):
    run_cpsat(bag()[0], limits=limits())
    assert capfd.readouterr() == ("", "")
