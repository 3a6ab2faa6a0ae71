"""Solving: limits, answers, the one quiet door to each solver (HiGHS, CP-SAT), and compiled functions.

A trade builds its model in a module of its own named for the solver, and runs it here.  The solvers
load when they are first asked for, since they take longer to load than most of what Setday does.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from setday.solving.answer import Answer, Status
from setday.solving.limits import Deadline, Limits

if TYPE_CHECKING:
    from setday.solving.compiling import compiled, compiled_bare
    from setday.solving.cpsat import run_cpsat
    from setday.solving.highs import QuietHighs, run_highs

__all__ = [
    "Answer",
    "Deadline",
    "Limits",
    "QuietHighs",
    "Status",
    "compiled",
    "compiled_bare",
    "run_cpsat",
    "run_highs",
]

_LATE = {
    "QuietHighs": "highs",
    "compiled": "compiling",
    "compiled_bare": "compiling",
    "run_cpsat": "cpsat",
    "run_highs": "highs",
}


def __getattr__(name: str) -> object:
    """Load a solver when it is first asked for."""
    if name not in _LATE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_LATE[name]}"), name)
