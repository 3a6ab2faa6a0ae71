"""Functions compiled on the user's machine, and kept for the next time.

Compiling takes some seconds the first time; import what uses this only where a search begins.
"""

from collections.abc import Callable
from typing import TypeVar, cast

import numba

__all__ = ["compiled"]

F = TypeVar("F", bound=Callable[..., object])


def compiled(function: F) -> F:
    """Compile a function of numbers and arrays when it is first called; keep the code on disk.

    Compiled functions let other threads run meanwhile, and divide like numpy: by nothing gives infinity.
    """
    return cast("F", numba.njit(cache=True, nogil=True, error_model="numpy")(function))
