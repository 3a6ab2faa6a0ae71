"""The door of solving loads a solver only when it is asked for."""

import os
import subprocess
import sys
from importlib import import_module

import pytest

import setday.solving

SCRIPT = "import sys, setday.solving; print([m for m in ('highspy', 'ortools', 'numba') if m in sys.modules])"


def test_limits_load_no_solver():
    surroundings = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)}
    ran = subprocess.run(
        [sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True, env=surroundings
    )
    assert ran.stdout.strip() == "[]"


def test_a_name_that_is_not_there_is_refused():
    with pytest.raises(AttributeError, match="no_such_name"):
        _ = setday.solving.no_such_name


def test_every_late_name_is_what_its_module_holds():
    for name, module in setday.solving._LATE.items():
        held = getattr(import_module(f"setday.solving.{module}"), name)
        assert getattr(setday.solving, name) is held
        assert getattr(setday.solving, name) is held
