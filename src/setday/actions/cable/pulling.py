"""As built: which runs of cable were pulled, how long they were, and what their coils have left."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.cable import Pull
from setday.materials import CoilCut
from setday.measure import ZERO, Length

__all__ = ["AsBuilt", "CoilLeft", "RunPulled", "RunState", "as_built"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunPulled:
    """What was noted of a run.

    Parameters
    ----------
    number : str
    label : str
        Which run it was, in words: another label under the same number is another run.
    measured : Length or None
        By the tape; None where nobody measured, and the planned length is taken.
    coil : int
        The coil it was cut from; 0 for the one of the plan.
    """

    number: str
    label: str
    measured: Length | None = None
    coil: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class RunState:
    """A run of the pull list: planned, and as it was pulled.

    `used` is None before it is pulled; `over` is what it took more than planned (less: negative).
    """

    pull: Pull
    coil: int
    used: Length | None
    measured: bool

    @property
    def over(self) -> Length | None:
        """What it took more than was planned."""
        return None if self.used is None else self.used - self.pull.cut

    @property
    def under(self) -> Length | None:
        """What it took less than was planned."""
        return None if self.used is None else self.pull.cut - self.used


@dataclass(frozen=True, slots=True, kw_only=True)
class CoilLeft:
    """A coil, what has been cut from it, what is still to be cut, and what will be left."""

    coil: CoilCut
    used: Length
    to_cut: Length

    @property
    def left(self) -> Length:
        """On the coil now."""
        return self.coil.length - self.used

    @property
    def at_the_end(self) -> Length:
        """What will be left when every run of it is pulled; less than nothing when it runs out."""
        return self.left - self.to_cut


@dataclass(frozen=True, slots=True, kw_only=True)
class AsBuilt:
    """The pull list as it stands.

    Parameters
    ----------
    runs : tuple of RunState
        In the order of the pull list.
    coils : tuple of CoilLeft
    astray : tuple of RunPulled
        Noted for runs that are no longer in the plan, or are other runs now.
    """

    runs: tuple[RunState, ...]
    coils: tuple[CoilLeft, ...]
    astray: tuple[RunPulled, ...]

    @property
    def pulled(self) -> int:
        """How many runs are in."""
        return sum(run.used is not None for run in self.runs)

    @property
    def planned(self) -> Length:
        """All cable of the plan."""
        return sum((run.pull.cut for run in self.runs), ZERO)

    @property
    def planned_of_pulled(self) -> Length:
        """What was planned for the runs that are in."""
        return sum((run.pull.cut for run in self.runs if run.used is not None), ZERO)

    @property
    def used(self) -> Length:
        """Cable cut so far."""
        return sum((run.used for run in self.runs if run.used is not None), ZERO)


def as_built(pulls: Sequence[Pull], coils: Sequence[CoilCut], noted: Sequence[RunPulled]) -> AsBuilt:
    """Hold what was pulled against the pull list.

    Parameters
    ----------
    pulls : sequence of Pull
    coils : sequence of CoilCut
        Empty before there is a plan for coils.
    noted : sequence of RunPulled
        What the class noted.

    Returns
    -------
    AsBuilt
    """
    labels = {pull.number: pull.label for pull in pulls}
    known = {each.number: each for each in noted if labels.get(each.number) == each.label}
    coil_of = {number: coil.number for coil in coils for number in coil.runs}
    states = tuple(_state(pull, known.get(pull.number), coil_of.get(pull.number, 0)) for pull in pulls)
    return AsBuilt(
        runs=states,
        coils=tuple(_left(coil, states) for coil in coils),
        astray=tuple(each for each in noted if each.number not in known),
    )


def _state(pull: Pull, noted: RunPulled | None, coil: int) -> RunState:
    if noted is None:
        return RunState(pull=pull, coil=coil, used=None, measured=False)
    return RunState(
        pull=pull,
        coil=noted.coil or coil,
        used=pull.cut if noted.measured is None else noted.measured,
        measured=noted.measured is not None,
    )


def _left(coil: CoilCut, states: Sequence[RunState]) -> CoilLeft:
    own = [state for state in states if state.coil == coil.number]
    return CoilLeft(
        coil=coil,
        used=sum((state.used for state in own if state.used is not None), ZERO),
        to_cut=sum((state.pull.cut for state in own if state.used is None), ZERO),
    )
