"""Searching a real fault: from a correct plan and what was observed, what explains it and what to do next."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from setday.actions.switching.hunts import likelihoods
from setday.files import read_observation
from setday.switching import (
    Diagnosis,
    Flip,
    Hookup,
    Observation,
    Test,
    diagnose,
    position_text,
)

__all__ = ["Explained", "Next", "SuspectGroup", "explained", "explained_again", "observed", "search"]

_SHOWN_FIRST = 8
_MOST_GROUPS = 40
_MOST_IN_GROUP = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class SuspectGroup:
    """Suspects that no flip or reading tells apart, the likeliest first.

    Parameters
    ----------
    share : float
        Likelihood of the group among all suspects.
    faults : tuple of str
        Each suspect in words; two faults are written with "and also" between them.
    left_out : int
        Suspects of the group that are not listed.
    """

    share: float
    faults: tuple[str, ...]
    left_out: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Next:
    """The next test, and why it.

    Parameters
    ----------
    test : str
        As it is typed: "S1 up, S2 down".
    words : str
    effort : float
    groups_now, groups_left : int, float
        Groups that can be told apart now, and how many are expected to be left.
    instructor : bool
        Only the instructor does it.
    """

    test: str
    words: str
    effort: float
    groups_now: int
    groups_left: float
    instructor: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """What explains the observations, ready to be kept and shown.

    Parameters
    ----------
    verdict : str
    faults : int
        1: single faults; 2: two at once.
    suspects, looked_at : int
        How many explain everything, of how many different circuits.
    groups : tuple of SuspectGroup
        The likeliest first.
    groups_left_out : int
        Groups that are not listed.
    next : Next or None
        None when the rest cannot be told apart, or nothing is left.
    as_planned : bool
        The plan without any fault explains everything too.
    stopped : bool
        The search was stopped before its end.
    """

    verdict: str
    faults: int
    suspects: int
    looked_at: int
    groups: tuple[SuspectGroup, ...]
    groups_left_out: int
    next: Next | None
    as_planned: bool
    stopped: bool

    @property
    def likeliest(self) -> tuple[SuspectGroup, ...]:
        """The groups that are shown first."""
        return self.groups[:_SHOWN_FIRST]

    @property
    def others(self) -> tuple[SuspectGroup, ...]:
        """The groups that are folded away."""
        return self.groups[_SHOWN_FIRST:]

    def record(self) -> dict[str, Any]:
        """Return it as plain words and numbers, for the records."""
        return asdict(self)


def observed(hookup: Hookup, lines: Sequence[str]) -> tuple[Observation, ...]:
    """Return what was observed, from its lines.

    Raises
    ------
    SetdayError
        For a line that cannot be read, saying what was expected.
    """
    return tuple(read_observation(line, hookup) for line in lines)


def search(
    hookup: Hookup,
    lines: Sequence[str],
    *,
    faults: int,
    likely: Mapping[str, float] | None = None,
    progress: Callable[[int, int], bool] | None = None,
) -> Explained:
    """Find what explains what was observed.

    Parameters
    ----------
    hookup : Hookup
        The correct plan.
    lines : sequence of str
        What was observed, as in a hookup file.
    faults : int
        1 or 2 at once.
    likely : mapping of kind of fault to number, or None
        Likelihoods set for this search.
    progress : function or None
        Told of the search for two how far it is; False stops it and keeps what was found.
    """
    rules = likelihoods(hookup, likely)
    found = diagnose(hookup, observed(hookup, lines), faults=faults, rules=rules, progress=progress)
    return explained(found, hookup)


def explained(found: Diagnosis, hookup: Hookup) -> Explained:
    """Return a diagnosis with its suspects put into groups."""
    groups: dict[int, list[int]] = {}
    for place, suspect in enumerate(found.suspects):
        groups.setdefault(suspect.group if suspect.group >= 0 else -1 - place, []).append(place)
    told = sorted((_group(found, places) for places in groups.values()), key=lambda group: -group.share)
    return Explained(
        verdict=found.verdict,
        faults=found.faults,
        suspects=len(found.suspects),
        looked_at=found.looked_at,
        groups=tuple(told[:_MOST_GROUPS]),
        groups_left_out=max(0, len(told) - _MOST_GROUPS),
        next=_next(found, hookup),
        as_planned=found.agrees_with_plan,
        stopped=found.stopped,
    )


def explained_again(record: Mapping[str, Any]) -> Explained:
    """Return what was kept by `Explained.record`."""
    groups = tuple(
        SuspectGroup(share=each["share"], faults=tuple(each["faults"]), left_out=each["left_out"])
        for each in record["groups"]
    )
    after = Next(**record["next"]) if record["next"] else None
    return Explained(**{**record, "groups": groups, "next": after})


def _group(found: Diagnosis, places: list[int]) -> SuspectGroup:
    ways = [
        " And also: ".join(way)
        for place in places
        for way in (found.suspects[place].faults, *found.suspects[place].same)
    ]
    return SuspectGroup(
        share=sum(found.suspects[place].share for place in places),
        faults=tuple(ways[:_MOST_IN_GROUP]),
        left_out=max(0, len(ways) - _MOST_IN_GROUP),
    )


def _next(found: Diagnosis, hookup: Hookup) -> Next | None:
    proposal = found.next
    if proposal is None:
        return None
    return Next(
        test=_line(hookup, proposal.test),
        words=proposal.words,
        effort=proposal.effort,
        groups_now=proposal.groups_now,
        groups_left=proposal.groups_left,
        instructor=proposal.instructor,
    )


def _line(hookup: Hookup, test: Test) -> str:
    """Return a test as `read_test` of the files reads it."""
    position = position_text(hookup, test.position) if hookup.switches else ""
    if isinstance(test, Flip):
        return position
    return f"{position}: {test.meter}, {test.first} to {test.second} in {test.first.box}"
