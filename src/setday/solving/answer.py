"""What a solver answers: how it ended, the best values found, and what no better ones can beat."""

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Answer", "Status"]


class Status(StrEnum):
    """How a solve ended."""

    OPTIMAL = "optimal"
    """The objective equals the proven bound."""
    FEASIBLE = "feasible"
    """There is an answer; the time limit ended the search."""
    STOPPED = "stopped"
    """There is an answer; a person ended the search."""
    NONE = "none"
    """No answer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What one run of a solver came to; everything is minimised.

    Parameters
    ----------
    status : Status
    values : tuple of float
        By the variable's index in the model (the column's, for HiGHS); empty without an answer.
    objective : float or None
        What the values come to; None without an answer.
    bound : float or None
        No answer comes to less; None where nothing was proven.
    final : bool
        True when more time would change nothing: these values are the best, or there are none at all.
        An answer with status "none" that is not final ran out of time.
    """

    status: Status
    values: tuple[float, ...] = ()
    objective: float | None = None
    bound: float | None = None
    final: bool = False

    @property
    def gap(self) -> float | None:
        """Objective over bound, minus 1; None where either is missing or the bound is nothing.

        Examples
        --------
        >>> Answer(status=Status.FEASIBLE, objective=110.0, bound=100.0).gap
        0.1
        """
        if self.objective is None or not self.bound:
            return 0.0 if self.final and self.objective is not None else None
        return round(self.objective / self.bound - 1, 12)
