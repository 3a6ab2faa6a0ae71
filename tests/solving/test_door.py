"""The door of solving loads a solver only when it is asked for."""

import os
import subprocess
import sys

import pytest

import setday.solving

SCRIPT = "import sys, setday.solving; print([m for m in ('highspy', 'ortools') if m in sys.modules])"


def test_limits_load_no_solver():
    surroundings = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)}
    ran = subprocess.run(
        [sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True, env=surroundings
    )
    assert ran.stdout.strip() == "[]"


def test_a_name_that_is_not_there_is_refused():
    with pytest.raises(AttributeError, match="no_such_name"):
        _ = setday.solving.no_such_name
