"""Every lamp's voltage and the breaker's current as an independent circuit simulator has them."""

import os
import random

import numpy as np
import pytest

from setday.switching import lay_out, try_hookup
from tests.switching import oracle
from tests.switching.circuits import STANDARD, standard, wrong

ONE_PERCENT_V = 1.2
WRONG = 520
MANY = 900
"""Circuits in one run of ngspice."""


@pytest.fixture(autouse=True)
def simulator():
    """Skip on a desk without ngspice; fail in CI."""
    if oracle.ngspice() is None:
        message = "ngspice is not installed (Debian: apt-get install ngspice)"
        if os.environ.get("CI", "").lower() in {"1", "true", "yes"}:
            pytest.fail(message)
        pytest.skip(message)


def compared(cases, folder):
    """Yield each case with our volts and amperes and theirs."""
    found = []
    for start in range(0, len(cases), MANY):
        found += oracle.solved(cases[start : start + MANY], folder)
    trials = {}
    for (hookup, position), (volts, amps) in zip(cases, found, strict=True):
        if id(hookup) not in trials:
            trials[id(hookup)] = try_hookup(hookup)
        trial = trials[id(hookup)]
        row = [tried.position for tried in trial.positions].index(position)
        ours = trial.solution.load_a[row] * lay_out(hookup).load_ohm
        yield hookup, position, ours, float(trial.solution.breaker_a[row]), np.array(volts), amps


def disagreements(cases, folder):
    """List the cases in which a lamp differs by over one percent of the supply, or the breaker's current."""
    wrong_ones = []
    for hookup, position, ours, our_amps, volts, amps in compared(cases, folder):
        off = np.abs(ours - volts).max(initial=0.0)
        if off > ONE_PERCENT_V or abs(our_amps - amps) > 0.01 * abs(amps) + 0.005:
            wrong_ones.append((hookup.name, position, float(off), our_amps, amps))
    return wrong_ones


def test_the_standard_circuits_agree_in_every_position(tmp_path):
    hookups = [standard(name) for name in STANDARD]
    cases = [(hookup, position) for hookup in hookups for position in oracle.positions(hookup)]
    assert len(hookups) >= 12
    assert disagreements(cases, tmp_path) == []


def test_five_hundred_wrong_hookups_agree_shorts_included(tmp_path):
    chance = random.Random(1849)
    names = [name for name in STANDARD if len(standard(name).switches) <= 3]
    hookups = [wrong(standard(chance.choice(names)), chance) for _ in range(WRONG)]
    cases = [(hookup, position) for hookup in hookups for position in oracle.positions(hookup)]
    assert disagreements(cases, tmp_path) == []
    shorts = sum(any(t.breaker.opens for t in try_hookup(hookup).positions) for hookup in hookups)
    assert shorts > 50, "the wrong hookups must include dead shorts"
