"""Sealed figures: offered to students, tried by them, handed in, and only then opened.

A hint names the kind of slip and nothing else.  What a student may be told follows from the state alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from setday.learning.diagnosing import Diagnosis
from setday.learning.kinds import HINTS, SlipKind

__all__ = ["SealedFigure", "SealedState", "hints_for"]

_UNNAMED = "Go through your lines once more, from the first one on."


class SealedState(StrEnum):
    """How far a sealed figure is for one student."""

    OFFERED = "offered"
    TRIED = "tried"
    HANDED_IN = "handed in"
    OPENED = "opened"


@dataclass(frozen=True, slots=True, kw_only=True)
class SealedFigure:
    """A figure that was offered to students, from the side of one of them.

    Parameters
    ----------
    figure : str
        Key of the figure.
    tries_allowed : int
        How often it may be handed in.
    tries : int
        How often it was.
    opened : bool
        Whether the instructor opened it, for everybody.

    Examples
    --------
    >>> first = SealedFigure(figure="room/bath/floor", tries_allowed=2)
    >>> first.state, first.handed_in().may_try, first.handed_in().handed_in().may_try
    (<SealedState.OFFERED: 'offered'>, True, False)
    """

    figure: str
    tries_allowed: int = 1
    tries: int = 0
    opened: bool = False

    def __post_init__(self) -> None:
        if self.tries_allowed < 1 or self.tries < 0:
            raise ValueError("a sealed figure is tried at least once")

    @property
    def state(self) -> SealedState:
        """How far it is."""
        if self.opened:
            return SealedState.OPENED
        if not self.tries:
            return SealedState.OFFERED
        return SealedState.HANDED_IN if self.tries >= self.tries_allowed else SealedState.TRIED

    @property
    def may_try(self) -> bool:
        """Whether another answer is taken."""
        return self.state in {SealedState.OFFERED, SealedState.TRIED}

    @property
    def may_see(self) -> bool:
        """Whether the answer, the working and the slips may be shown to the student."""
        return self.opened

    def handed_in(self) -> "SealedFigure":
        """Return it after one more answer.

        Raises
        ------
        ValueError
            Where no answer is taken any more.
        """
        if not self.may_try:
            raise ValueError("no answer is taken any more")
        return SealedFigure(
            figure=self.figure, tries_allowed=self.tries_allowed, tries=self.tries + 1, opened=self.opened
        )


def hints_for(diagnosis: Diagnosis, *, most: int = 2) -> tuple[str, ...]:
    """Return hints that name kinds of slips, never a number, a line or a place.

    Parameters
    ----------
    diagnosis : Diagnosis
    most : int
        Of different hints.
    """
    if diagnosis.right and not diagnosis.wrong_lines:
        return ()
    kinds: Sequence[SlipKind] = [kind for candidate in diagnosis.likely for kind in candidate.kinds]
    found = list(dict.fromkeys(HINTS[kind] for kind in kinds))
    return tuple(found[:most]) or (_UNNAMED,)
