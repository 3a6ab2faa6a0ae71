"""Functions compiled on the user's machine, and kept for the next time.

Compiling takes some seconds the first time; import what uses this only where a search begins.
"""

from collections.abc import Callable
from typing import TypeVar, cast

import numba

__all__ = ["compiled", "compiled_bare"]

F = TypeVar("F", bound=Callable[..., object])


def compiled(function: F) -> F:
    """Compile a function of numbers and arrays when it is first called; keep the code on disk.

    Compiled functions let other threads run meanwhile, and divide like numpy: by nothing gives infinity.
    """
    return cast("F", numba.njit(cache=True, nogil=True, error_model="numpy")(function))


def compiled_bare(function: F) -> F:
    """Compile as `compiled` does a function that makes no array.

    How often the arrays handed to it are in use is then not counted, which in small functions that are
    called often takes longer than their work, and makes threads wait for each other.
    """
    options = {"cache": True, "nogil": True, "error_model": "numpy", "_nrt": False}
    return cast("F", numba.njit(**options)(function))  # type: ignore[call-overload]
