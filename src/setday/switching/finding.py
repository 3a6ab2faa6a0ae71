"""Finding the fault: every single fault, then every two, that explain what was observed."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from setday.rules import RuleBook
from setday.switching.answers import answers, catalog, explains
from setday.switching.asking import best_column, efforts, groups_of
from setday.switching.changes import Change, applied, distinct, every_change, key_of, pairs_of
from setday.switching.circuit import Circuit, lay_out
from setday.switching.hookup import Hookup
from setday.switching.nets import Variants, only, static_nets
from setday.switching.observation import Measured, Meter, Observation, Test, test_words

__all__ = ["Diagnosis", "Proposal", "Suspect", "diagnose", "weight_of"]

_MOST_WEIGHED = 1200
"""Suspects the next test is chosen for; beyond, the likeliest of them."""

Progress = Callable[[int, int], bool]
"""Told how many of how many first faults are done; False stops the search and keeps what was found."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """A fault, or a pair, that explains all observations.

    Parameters
    ----------
    faults : tuple of str
        In words.
    same : tuple of tuples of str
        Other faults that leave the very same circuit.
    share : float
        Likelihood among all suspects.
    group : int
        Suspects of one group cannot be told apart by any flip or reading.
    changes : tuple of Change
    """

    faults: tuple[str, ...]
    same: tuple[tuple[str, ...], ...]
    share: float
    group: int
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """The next thing to do.

    Parameters
    ----------
    test : Flip or Measure
    words : str
    effort : float
    groups_now : int
        Groups that could be told apart.
    groups_left : float
        How many are expected to be left after it.
    instructor : bool
        Only the instructor does it.
    """

    test: Test
    words: str
    effort: float
    groups_now: int
    groups_left: float
    instructor: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosis:
    """What explains the observations, and what to do next.

    Parameters
    ----------
    suspects : tuple of Suspect
        Likeliest first.
    faults : int
        1 or 2: how many faults at once were looked for.
    next : Proposal or None
        None when nothing more can be told apart.
    agrees_with_plan : bool
        The plan without any fault explains all observations too.
    looked_at : int
        Different circuits that were compared.
    stopped : bool
        The search was stopped before its end.
    verdict : str
        Where the hunt stands, in a sentence.
    """

    suspects: tuple[Suspect, ...]
    faults: int
    next: Proposal | None
    agrees_with_plan: bool
    looked_at: int
    stopped: bool
    verdict: str


@dataclass(frozen=True, kw_only=True, eq=False)
class _Explaining:
    """Variants that explain everything, with the changes that lead to each."""

    variants: Variants
    changes: list[list[tuple[Change, ...]]]
    looked_at: int
    stopped: bool = False


def weight_of(change: Change, rules: RuleBook) -> float:
    """Return the likelihood of a change, by its kind and whether it brings in the ground."""
    factor = rules.number("switching.likely_with_ground") if change.with_ground else 1.0
    return rules.number(f"switching.likely_{change.kind}") * factor


def diagnose(
    hookup: Hookup,
    observed: tuple[Observation, ...],
    *,
    faults: int = 0,
    rules: RuleBook | None = None,
    progress: Progress | None = None,
    meters: tuple[Meter, ...] = (Meter.DEAD, Meter.LIVE),
) -> Diagnosis:
    """Find what explains the observations, and the next test.

    Parameters
    ----------
    hookup : Hookup
        The correct plan.
    observed : tuple of Seen and Measured
    faults : int
        1: single faults; 2: pairs; 0: single ones, and pairs when no single one explains everything.
    rules : RuleBook or None
        Likelihoods and efforts; None takes the published ones with the hookup's own local ones.
    progress : function or None
        Told of the search for pairs.
    meters : tuple of Meter
        What readings may be proposed.
    """
    circuit = lay_out(hookup, rules)
    changes = tuple(c for c in every_change(circuit) if weight_of(c, circuit.rules) > 0)
    variants, places = distinct(circuit, changes)
    causes: list[list[tuple[Change, ...]]] = [[(changes[place],) for place in each] for each in places]
    plan_fits = bool(_fitting(circuit, only(circuit), observed)[0])
    found = _Explaining(variants=variants, changes=causes, looked_at=len(variants))
    fits = _fitting(circuit, variants, observed)
    if faults == 2 or (faults == 0 and not fits.any() and not plan_fits):
        found, many = _pairs(circuit, found, observed, progress), 2
    else:
        chosen = np.flatnonzero(fits)
        found = _Explaining(
            variants=variants.rows(chosen), changes=[causes[row] for row in chosen], looked_at=len(variants)
        )
        many = 1
    return _told(circuit, found, observed, many, plan_fits=plan_fits, meters=meters)


def _fitting(circuit: Circuit, variants: Variants, observed: tuple[Observation, ...]) -> np.ndarray:
    """Return which variants explain all observations; each observation is asked only of those still left."""
    left = np.arange(len(variants))
    static = static_nets(circuit, variants)
    for observation in observed:
        if not len(left):
            break
        left = left[explains(circuit, variants.rows(left), static[:, left], observation)]
    fits = np.zeros(len(variants), dtype=bool)
    fits[left] = True
    return fits


def _pairs(
    circuit: Circuit, single: _Explaining, observed: tuple[Observation, ...], progress: Progress | None
) -> _Explaining:
    """Make every two changes at once and keep those that explain everything, each circuit once."""
    firsts = [each[0][0] for each in single.changes]
    known = {*key_of(only(circuit)), *key_of(single.variants)}
    causes: dict[bytes, list[tuple[Change, ...]]] = {}
    kept: list[Variants] = []
    looked, stopped = 0, False
    for start, batch in pairs_of(circuit, firsts, single.variants):
        if progress is not None and not progress(start, len(firsts)):
            stopped = True
            break
        looked += len(batch.pairs)
        fits = np.flatnonzero(_fitting(circuit, batch.variants, observed))
        fresh = []
        for row, key in zip(fits, key_of(batch.variants.rows(fits)), strict=True):
            pair: tuple[Change, ...] = tuple(firsts[place] for place in batch.pairs[row])
            if key in known:
                continue
            if key not in causes:
                fresh.append(row)
            alike = _alike(circuit, single, batch.pairs[row], key) if len(causes) < _MOST_WEIGHED else ()
            causes.setdefault(key, []).extend([pair, *alike])
        if fresh:
            kept.append(batch.variants.rows(np.array(fresh)))
    variants = Variants.together(kept) if kept else single.variants.rows(slice(0, 0))
    return _Explaining(variants=variants, changes=list(causes.values()), looked_at=looked, stopped=stopped)


def _alike(
    circuit: Circuit, single: _Explaining, pair: tuple[int, int], key: bytes
) -> Iterator[tuple[Change, ...]]:
    """Yield other pairs, of faults that are each the same as one of the two, that leave the same circuit."""
    firsts, seconds = ([each[0] for each in single.changes[place]] for place in pair)
    for second in seconds:
        row = single.variants.rows(slice(pair[0], pair[0] + 1)).copy()
        applied(circuit, second, row)
        if key_of(row)[0] == key:
            yield from ((first, second) for first in firsts if (first, second) != (firsts[0], seconds[0]))


def _told(
    circuit: Circuit,
    found: _Explaining,
    observed: tuple[Observation, ...],
    many: int,
    *,
    plan_fits: bool,
    meters: tuple[Meter, ...],
) -> Diagnosis:
    weights = np.array([_weight(causes, circuit.rules) for causes in found.changes])
    order = np.argsort(-weights, kind="stable")
    heavy = order[:_MOST_WEIGHED]
    group_of, proposal = _next(circuit, found.variants.rows(heavy), weights[heavy], observed, meters)
    total = float(weights.sum()) or 1.0
    suspects = tuple(
        Suspect(
            faults=tuple(change.words for change in found.changes[row][0]),
            same=tuple(tuple(change.words for change in other) for other in found.changes[row][1:]),
            share=float(weights[row]) / total,
            group=group_of[place] if place < len(group_of) else -1,
            changes=found.changes[row][0],
        )
        for place, row in enumerate(order)
    )
    return Diagnosis(
        suspects=suspects,
        faults=many,
        next=proposal,
        agrees_with_plan=plan_fits,
        looked_at=found.looked_at,
        stopped=found.stopped,
        verdict=_verdict(suspects, proposal, many, plan_fits=plan_fits),
    )


def _weight(causes: list[tuple[Change, ...]], rules: RuleBook) -> float:
    """Return the likelihood that one of several causes of a circuit is there."""
    return float(sum(np.prod([weight_of(change, rules) for change in each]) for each in causes))


def _next(
    circuit: Circuit,
    variants: Variants,
    weights: np.ndarray,
    observed: tuple[Observation, ...],
    meters: tuple[Meter, ...],
) -> tuple[list[int], Proposal | None]:
    """Return the group of each suspect, and the test that tells most for its effort."""
    if not len(variants):
        return [], None
    tests = catalog(circuit, meters=meters)
    told = answers(circuit, variants, tests)
    groups = groups_of(told)
    group_of = [0] * len(variants)
    for number, rows in enumerate(groups):
        for row in rows:
            group_of[row] = number
    opened = frozenset(each.test.first.box for each in observed if isinstance(each, Measured))
    effort = efforts(tests, circuit.rules, opened=opened)
    codes = told.codes[[rows[0] for rows in groups]]
    of_groups = np.array([weights[list(rows)].sum() for rows in groups])
    column = best_column(codes, of_groups, effort)
    if column is None:
        return group_of, None
    share = of_groups / of_groups.sum()
    left = sum(
        share[codes[:, column] == answer].sum() * (codes[:, column] == answer).sum()
        for answer in np.unique(codes[:, column])
    )
    test = tests[column]
    return group_of, Proposal(
        test=test,
        words=test_words(circuit.hookup, test),
        effort=float(effort[column]),
        groups_now=len(groups),
        groups_left=float(left),
        instructor=getattr(test, "meter", None) is Meter.LIVE,
    )


def _verdict(suspects: tuple[Suspect, ...], proposal: Proposal | None, many: int, *, plan_fits: bool) -> str:
    one = "single fault" if many == 1 else "pair of faults"
    several = "single faults" if many == 1 else "pairs of faults"
    if not suspects:
        if plan_fits:
            return "All that was observed is as planned, and no fault looked for would show the same."
        return f"No {one} explains all observations. Check the observations, or look for more faults."
    begun = "All that was observed is as planned. " if plan_fits else ""
    if len(suspects) == 1:
        return f"{begun}One {one} explains it: {' '.join(suspects[0].faults)}"
    if proposal is None:
        return (
            f"{begun}{len(suspects)} {several} explain it, and no flip or reading tells them apart."
            " Open the box and look."
        )
    return f"{begun}{len(suspects)} {several} explain it; the next test tells more."
