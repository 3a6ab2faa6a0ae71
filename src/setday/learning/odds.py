"""How often each kind of slip happens in a class: a start of our own, and what the instructor marked."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from setday.learning.kinds import STARTING_SHARES, SlipKind

__all__ = ["UNKNOWN", "KindOdds", "Odds"]

UNKNOWN = "unknown"
"""Marked where none of the known slips was the right one."""

STARTING_UNKNOWN = 0.2
"""Of a hundred wrong answers, so many are wrong in a way no kind names; our own starting point."""

WEIGHT = 25.0
"""The start counts as much as so many marked answers; our own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KindOdds:
    """One line of the explanation: the share at the start, how often it was marked, the share now."""

    kind: str
    start: float
    marked: int
    now: float


@dataclass(frozen=True, kw_only=True)
class Odds:
    """The shares of the kinds in one class.

    A Dirichlet distribution: the starting shares weigh as much as `WEIGHT` marked answers, and each
    marked answer adds one to its kind.

    Parameters
    ----------
    marked : mapping of str to int
        How often the instructor marked each kind, or `UNKNOWN`, as the right one.

    Examples
    --------
    >>> odds = Odds(marked={"waste-forgotten": 25})
    >>> odds.share(SlipKind.WASTE_FORGOTTEN) > 10 * odds.share(SlipKind.WASTE_TWICE)
    True
    """

    marked: Mapping[str, int] = field(default_factory=dict)

    @property
    def total(self) -> int:
        """All answers marked so far."""
        return sum(self.marked.values())

    def share(self, kind: SlipKind | str) -> float:
        """Return how much of all wrong answers a kind makes up; also of `UNKNOWN`.

        Parameters
        ----------
        kind : SlipKind or str
        """
        weight = WEIGHT * starting_share(kind) + self.marked.get(str(kind), 0)
        return weight / (WEIGHT + self.total)

    def explained(self) -> tuple[KindOdds, ...]:
        """Return every kind with its share at the start and now, the most frequent first."""
        lines = (
            KindOdds(
                kind=str(kind), start=starting_share(kind), marked=self.marked.get(str(kind), 0),
                now=self.share(kind),
            )
            for kind in (*SlipKind, UNKNOWN)
        )  # fmt: skip
        return tuple(sorted(lines, key=lambda each: (-each.now, each.kind)))


def starting_share(kind: SlipKind | str) -> float:
    """Return the share of a kind before anything was marked.

    Parameters
    ----------
    kind : SlipKind or str
    """
    if kind == UNKNOWN:
        return STARTING_UNKNOWN
    return (1 - STARTING_UNKNOWN) * STARTING_SHARES[SlipKind(kind)] / sum(STARTING_SHARES.values())
