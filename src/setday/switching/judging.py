"""A hookup judged: does it do what is wanted, what is wrong with it, and which one change would mend it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from setday.findings import Finding, Severity, Where, in_order
from setday.rules import RuleBook
from setday.switching.aim import expected_lit, meets
from setday.switching.changes import Change, distinct, hookup_of, join_changes, key_of, pairs_of
from setday.switching.circuit import Circuit
from setday.switching.code import code_findings
from setday.switching.duties import Duty, duties_of
from setday.switching.hookup import Hookup, Point, Want
from setday.switching.kinds import BARE, GREEN
from setday.switching.nets import Variants
from setday.switching.trial import Look, Trial, try_hookup

__all__ = ["Judgment", "Mend", "judge"]

_MOST_MENDS = 5
_MOST_TRIED = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """Changes that would make everything wanted work, and how many code findings would be left."""

    steps: tuple[str, ...]
    left: int


@dataclass(frozen=True, kw_only=True, eq=False)
class Judgment:
    """What a judgment found.

    Parameters
    ----------
    trial : Trial
    works : bool
        Every want is met in every position, and the breaker holds.
    behavior : tuple of Finding
        What it does otherwise than wanted, and what is loose or live that should not be.
    code : tuple of Finding
        The code rules it goes against.
    mends : tuple of Mend
        The fewest changes of joins that make it work, best first; empty when it works.
    """

    trial: Trial
    works: bool
    behavior: tuple[Finding, ...]
    code: tuple[Finding, ...]
    mends: tuple[Mend, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything found, behavior first."""
        return (*self.behavior, *self.code)

    @property
    def clean(self) -> bool:
        """True when it works and no code rule in force speaks against it."""
        return self.works and not any(f.severity is Severity.PROBLEM for f in self.findings)


def judge(hookup: Hookup, rules: RuleBook | None = None, *, mend: bool = True) -> Judgment:
    """Judge a hookup against its wants and the code rules in force.

    Parameters
    ----------
    hookup : Hookup
        With nothing left that `check` finds a problem.
    rules : RuleBook or None
        None takes the published rules with the hookup's own local ones.
    mend : bool
        Look for the changes that would put it right.
    """
    trial = try_hookup(hookup, rules)
    found = in_order([finding for look in _LOOKS for finding in look(trial)])
    behaves = tuple(sorted(found, key=lambda finding: finding.severity is not Severity.PROBLEM))
    works = not any(finding.severity is Severity.PROBLEM for finding in behaves)
    mends = _mends(trial) if mend and not works and hookup.wants else ()
    return Judgment(trial=trial, works=works, behavior=behaves, code=code_findings(trial), mends=mends)


def _find(
    rule: str,
    about: str,
    found: str,
    *,
    do: str = "",
    where: Where = Where(),
    severity: Severity = Severity.PROBLEM,
) -> Finding:
    return Finding(rule=f"switching.{rule}", about=about, found=found, do=do, where=where, severity=severity)


def _listed(words: list[str]) -> str:
    shown = "; ".join(words[:4])
    return f"{shown}; and {len(words) - 4} more" if len(words) > 4 else shown


def _breaker(trial: Trial) -> Iterator[Finding]:
    kinds = dict.fromkeys(tried.breaker for tried in trial.positions if tried.breaker.opens)
    for kind in kinds:
        at = [tried for tried in trial.positions if tried.breaker is kind]
        every = (
            "in every position"
            if len(at) == len(trial.positions)
            else f"with {_listed([t.words for t in at])}"
        )
        yield _find(
            "breaker-opens",
            "the breaker",
            f"it {kind}, {every} ({max(t.breaker_a for t in at):,.0f} A).",
            do="Find where the supply meets the neutral or the ground with no lamp between.",
            where=trial.hookup.feed.where,
        )


def _wants(trial: Trial) -> Iterator[Finding]:
    for want in trial.hookup.wants:
        wrong = _wrong_positions(trial, want)
        if wrong:
            yield _find("want-not-met", f"'{want}'", f"{_listed(wrong)}.", where=want.where)


def _wrong_positions(trial: Trial, want: Want) -> list[str]:
    """Say where a load does otherwise than wanted, against the nearer of the patterns allowed."""
    place = trial.circuit.load_names.index(want.load)
    looks = [tried.loads[place].look for tried in trial.positions]
    best: list[int] = list(range(len(looks) + 1))
    for lit in expected_lit(trial.circuit, want):
        off = [row for row, look in enumerate(looks) if look is not (Look.FULL if lit[row] else Look.OFF)]
        best = min(best, off, key=len)
    if len(best) == len(looks) and len(set(looks)) == 1:
        return [f"{want.load} is {looks[0]} in every position"]
    return [_said(trial, want, row, looks[row]) for row in best]


def _said(trial: Trial, want: Want, row: int, look: Look) -> str:
    tried = trial.positions[row]
    if tried.breaker.opens:
        return f"with {tried.words} the breaker opens"
    wanted = {Look.FULL: "should be off", Look.OFF: "should be lit", Look.DIM: "is in series with something"}[
        look
    ]
    return f"with {tried.words} {want.load} is {look} and {wanted}"


def _grounds(trial: Trial) -> Iterator[Finding]:
    carrying: dict[str, float] = {}
    for tried in trial.positions:
        if not tried.breaker.opens:
            for wire, current in tried.on_ground:
                carrying[wire] = max(current, carrying.get(wire, 0.0))
    for wire, current in carrying.items():
        yield _find(
            "current-on-ground",
            f"the {wire}",
            f"it carries {current:.2f} A; a bare wire carries nothing.",
            do="Find where the neutral or a lamp's return is joined to the grounds.",
        )


def _overloads(trial: Trial) -> Iterator[Finding]:
    overloaded = {
        wire: current
        for tried in trial.positions
        if not tried.breaker.opens
        for wire, current in tried.overloaded
    }
    for wire, current in overloaded.items():
        yield _find(
            "overload",
            f"the {wire}",
            f"it carries {current:.1f} A, more than it may.",
            do="Take less load, or a thicker cable.",
        )


def _live_metal(trial: Trial) -> Iterator[Finding]:
    hot_metal = {
        point
        for tried in trial.positions
        if not tried.breaker.opens
        for point in tried.live
        if point.part in (GREEN, BARE)
    }
    for point in sorted(hot_metal):
        yield _find(
            "live-metal",
            f"{point} in box '{point.box}'",
            "it is live: whoever touches the metal gets a shock.",
            do="Find what brings the supply to the grounds.",
            where=_where(trial.hookup, point),
        )


def _where(hookup: Hookup, point: Point) -> Where:
    return next((join.where for join in hookup.joins if point in join.points), Where())


def _loose(trial: Trial) -> Iterator[Finding]:
    joined = {point for join in trial.hookup.joins for point in join.points}
    held = {b for device in trial.hookup.devices for a, c in device.tabs for b in (a, c) if {a, c} & joined}
    cables = {cable.name for cable in trial.hookup.all_cables}
    live = {point for tried in trial.positions for point in tried.live}
    duties = duties_of(trial.circuit)
    for point in trial.hookup.points():
        severity = Severity.ASK
        if point in joined | held or point.part in (BARE, GREEN) or point.box == "panel":
            continue
        if point.holder in cables and Duty.NEUTRAL in duties.of(point):
            severity, words, do = Severity.NOTE, "a neutral for a later device ends here.", "Cap it."
        elif point.holder in cables:
            words = "this end is loose, and live." if point in live else "this end is joined to nothing."
            do = "Join it, or cap it if the conductor is a spare."
        else:
            words, do = "nothing is on this terminal.", "Check which conductor belongs here."
        yield _find(
            "loose",
            f"{point} in box '{point.box}'",
            words,
            do=do,
            where=trial.hookup.box(point.box).where,
            severity=severity,
        )


def _live_when_off(trial: Trial) -> Iterator[Finding]:
    """Tell of lamps whose own terminals stay live while they are off."""
    for place, name in enumerate(trial.circuit.load_names):
        ends = [trial.circuit.points[int(end)] for end in trial.circuit.load_ends[place]]
        at = [
            tried.words
            for tried in trial.positions
            if not tried.breaker.opens
            and tried.loads[place].look is Look.OFF
            and any(e in tried.live for e in ends)
        ]
        if at:
            yield _find(
                "live-when-off",
                f"'{name}' in box '{ends[0].box}'",
                f"it is off and still live, with {_listed(at)}.",
                do="Whoever changes the lamp can touch it: find the switch or the break in the neutral.",
                where=_where(trial.hookup, ends[1]),
            )


_LOOKS = (_breaker, _wants, _grounds, _overloads, _live_metal, _loose, _live_when_off)


def _mends(trial: Trial) -> tuple[Mend, ...]:
    """Look for one change of joins that makes it work; if there is none, for two."""
    circuit = trial.circuit
    changes = tuple(join_changes(circuit))
    variants, groups = distinct(circuit, changes)
    firsts = [changes[places[0]] for places in groups]
    good = np.flatnonzero(meets(circuit, variants))
    found = _mended(circuit, variants, [int(row) for row in good], [(change,) for change in firsts])
    if not found:
        plain = [row for row, change in enumerate(firsts) if not change.with_ground]
        chosen = [firsts[row] for row in plain]
        found = _doubles(circuit, chosen, variants.rows(np.array(plain, dtype=np.int64)))
    return tuple(sorted(found, key=lambda mend: (mend.left, mend.steps))[:_MOST_MENDS])


def _doubles(circuit: Circuit, changes: list[Change], single: Variants) -> list[Mend]:
    found: list[Mend] = []
    seen: set[bytes] = set()
    for _, pairs in pairs_of(circuit, changes, single):
        good = np.flatnonzero(meets(circuit, pairs.variants))
        keys = key_of(pairs.variants.rows(good))
        fresh = {key: int(row) for row, key in zip(good, keys, strict=True) if key not in seen}
        seen.update(fresh)
        steps = [(changes[first], changes[second]) for first, second in pairs.pairs]
        found += _mended(circuit, pairs.variants, list(fresh.values())[:_MOST_TRIED], steps)
        if len(found) >= _MOST_TRIED:
            break
    return found


def _mended(
    circuit: Circuit, variants: Variants, rows: list[int], steps: Sequence[tuple[Change, ...]]
) -> list[Mend]:
    mends = []
    for row in rows:
        mended = try_hookup(hookup_of(circuit, variants.labels[row]), circuit.rules)
        left = len(code_findings(mended)) + sum(len(tried.on_ground) > 0 for tried in mended.positions)
        mends.append(Mend(steps=tuple(change.mend for change in steps[row]), left=left))
    return mends
