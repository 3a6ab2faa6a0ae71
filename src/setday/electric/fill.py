"""Box fill: what the conductors, devices, clamps and grounds of a box take of its room."""

from dataclasses import dataclass

from setday.electric.conductors import volume_each_in3
from setday.measure import Length
from setday.rules import Source
from setday.working import Step, Working

__all__ = ["FillRule", "fill_working"]

_COVERED = 4
"""Grounds that the first volume covers where further ones count a quarter, NEC 314.16(B)(5)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FillRule:
    """How a box is filled.

    Parameters
    ----------
    source : Source
        Of the volumes.
    edition : str
        In words: "2020 and later".
    further_grounds_count : bool
        True where each ground above four counts a quarter (from 2020 on).
    grounds_source : Source
    loop_twice_from : Length
        A conductor that runs through unbroken counts twice when so much of it is looped, NEC 314.16(B)(1).
    """

    source: Source
    edition: str
    further_grounds_count: bool
    grounds_source: Source
    loop_twice_from: Length = Length.of(inches=12)


def fill_working(
    *,
    conductors: tuple[int, ...],
    through: tuple[tuple[int, Length], ...] = (),
    grounds: tuple[int, ...] = (),
    isolated_grounds: tuple[int, ...] = (),
    devices: tuple[int, ...] = (),
    clamps: bool = False,
    rule: FillRule,
    key: str,
    title: str = "Box fill",
) -> Working:
    """Work out what a box holds [cubic inches], NEC 314.16(B).

    Parameters
    ----------
    conductors : tuple of int
        The size of each conductor that enters and ends or is spliced here [AWG]; pigtails do not count.
    through : tuple of (int, Length)
        The size of each conductor that runs through unbroken [AWG], and how much of it is in the box.
    grounds, isolated_grounds : tuples of int
        The size of each equipment ground [AWG].
    devices : tuple of int
        For each device the largest conductor on it [AWG]; each counts twice.
    clamps : bool
        Internal clamps count once as the largest conductor.
    rule : FillRule
        Says by which edition grounds are counted.
    key, title : str
        Of the working.
    """
    source = rule.source
    steps: list[Step] = []
    for awg in sorted(set(conductors), reverse=True):
        count = conductors.count(awg)
        each = volume_each_in3(awg)
        steps.append(_step(f"conductors of {awg} AWG", f"{count} x {each:g} in3", count * each, source))
    steps += [_passing(awg, inside, rule) for awg, inside in through]
    if clamps and (entering := (*conductors, *(awg for awg, _ in through))):
        largest = volume_each_in3(min(entering))
        steps.append(_step("internal clamps, once", f"1 x {largest:g} in3", largest, source))
    for awg in devices:
        each = volume_each_in3(awg)
        steps.append(_step(f"device on {awg} AWG, twice", f"2 x {each:g} in3", 2 * each, source))
    if grounds:
        steps.append(_grounds(grounds, rule))
    for awg in isolated_grounds:
        each = volume_each_in3(awg)
        steps.append(_step("isolated ground", f"1 x {each:g} in3", each, source))
    total = sum(step.value or 0.0 for step in steps)
    return Working(
        key=key,
        title=title,
        steps=tuple(steps),
        result=f"{total:g} in3",
        value=total,
        unit="in3",
        assumptions=("Lampholders that cover the box take no room in it.", "Pigtails do not count."),
    )


def _passing(awg: int, inside: Length, rule: FillRule) -> Step:
    each, looped = volume_each_in3(awg), inside >= rule.loop_twice_from
    label = f"{awg} AWG unbroken, {inside} of it inside{', twice' if looped else ''}"
    return _step(label, f"{1 + looped} x {each:g} in3", (1 + looped) * each, rule.source)


def _step(label: str, expression: str, value: float, source: Source) -> Step:
    return Step(
        label=label, expression=expression, result=f"{value:g} in3", value=value, unit="in3", source=source
    )


def _grounds(grounds: tuple[int, ...], rule: FillRule) -> Step:
    each = volume_each_in3(min(grounds))
    further = max(0, len(grounds) - _COVERED) if rule.further_grounds_count else 0
    factor = 1 + further / 4
    words = f"{len(grounds)} grounds: {factor:g} x {each:g} in3"
    return _step(f"equipment grounds, rule of {rule.edition}", words, factor * each, rule.grounds_source)
