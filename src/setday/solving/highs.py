"""HiGHS behind a small door: silent, one thread, a time limit per run, an answer with its bound."""

import math
from collections.abc import Mapping

import highspy

from setday.solving.answer import Answer, Status

__all__ = ["QuietHighs", "run_highs"]

_LEAST_SECONDS = 0.01
_SURELY_NONE = {highspy.HighsModelStatus.kInfeasible}
_BEST = {highspy.HighsModelStatus.kOptimal, highspy.HighsModelStatus.kModelEmpty}
_MISTAKES = {
    highspy.HighsModelStatus.kUnbounded,
    highspy.HighsModelStatus.kUnboundedOrInfeasible,
    highspy.HighsModelStatus.kLoadError,
    highspy.HighsModelStatus.kModelError,
}


class QuietHighs(highspy.Highs):
    """HiGHS without its banner, which would spoil a document on standard output.

    Parameters
    ----------
    options : mapping, optional
        HiGHS options by name.
    """

    def __init__(self, options: Mapping[str, bool | int | float | str] | None = None) -> None:
        super().__init__()  # type: ignore[no-untyped-call]
        for name, value in (options or {}).items():
            if self.setOptionValue(name, value) != highspy.HighsStatus.kOk:
                raise ValueError(f"HiGHS takes no option {name} = {value!r}")

    def enableCallbacks(self) -> None:  # noqa: N802
        """Fall silent first: the wrapper's own start-up calls this, and only then prints its name."""
        self.silent()
        # Its pool of threads is made once in a process and refuses another number later on.
        self.setOptionValue("threads", 1)
        super().enableCallbacks()  # type: ignore[no-untyped-call]


def run_highs(highs: highspy.Highs, *, seconds: float = math.inf) -> Answer:
    """Solve the model that HiGHS holds.

    Parameters
    ----------
    highs : highspy.Highs
        Its duals and its basis stay in it, for those who want them.
    seconds : float
        Time limit of this run [s]; HiGHS itself counts the runs before it too.

    Returns
    -------
    Answer

    Raises
    ------
    ValueError
        When the model is malformed or has no least value.
    """
    highs.setOptionValue("time_limit", highs.getRunTime() + max(seconds, _LEAST_SECONDS))
    highs.run()
    status = highs.getModelStatus()
    if status in _MISTAKES:
        raise ValueError(f"HiGHS calls the model {highs.modelStatusToString(status).lower()}")
    info = highs.getInfo()
    if status in _SURELY_NONE:
        return Answer(status=Status.NONE, final=True)
    final = status in _BEST
    bound = _bound(info, final=final)
    if not final and info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return Answer(status=Status.NONE, bound=bound)
    return Answer(
        status=Status.OPTIMAL if final else Status.FEASIBLE,
        values=tuple(highs.getSolution().col_value),
        objective=info.objective_function_value,
        bound=bound,
        final=final,
    )


def _bound(info: highspy.HighsInfo, *, final: bool) -> float | None:
    """Return what is proven: by branch and bound at any time, by a linear programme only at its end."""
    if info.mip_node_count < 0:  # nothing had to be whole
        return float(info.objective_function_value) if final else None
    return float(info.mip_dual_bound) if math.isfinite(info.mip_dual_bound) else None
