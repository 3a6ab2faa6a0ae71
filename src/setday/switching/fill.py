"""Box fill: what the conductors, devices, clamps and grounds of a box take of its room."""

from collections.abc import Mapping
from functools import cache
from math import floor

from setday.errors import RuleError
from setday.rules import RuleBook, Source, load_table
from setday.switching.hookup import Device, Hookup
from setday.switching.kinds import BARE, PACKAGE, DeviceKind, cable_kind
from setday.switching.rulebook import switching_rules, volume_each_in3
from setday.working import Step, Working

__all__ = ["box_fill", "box_volume_in3", "fill_working", "most_conductors"]

_ROUND = 1e-9


@cache
def _sizes() -> Mapping[str, float]:
    return {row["key"]: float(row["volume_in3"]) for row in load_table(PACKAGE, "boxes").rows}


def box_volume_in3(size: str) -> float:
    """Return the volume of a box by its trade size [cubic inches], NEC table 314.16(A).

    Raises
    ------
    RuleError
        For a size the table lacks.
    """
    try:
        return _sizes()[" ".join(size.split())]
    except KeyError:
        raise RuleError(
            f"The table has no box '{size}'.",
            do=f"It has: {', '.join(_sizes())}. For another, write the volume marked in it: volume: 18 in3.",
        ) from None


def most_conductors(volume_in3: float, *, awg: int) -> int:
    """Return how many conductors of one size a bare box may hold.

    Examples
    --------
    >>> most_conductors(15.5, awg=14)
    7
    """
    return floor(volume_in3 / volume_each_in3(awg) + _ROUND)


def fill_working(
    *,
    conductors: tuple[int, ...],
    grounds: tuple[int, ...] = (),
    isolated_grounds: tuple[int, ...] = (),
    devices: tuple[int, ...] = (),
    clamps: bool = False,
    rules: RuleBook,
    title: str = "Box fill",
) -> Working:
    """Work out what a box holds [cubic inches], NEC 314.16(B).

    Parameters
    ----------
    conductors : tuple of int
        The size of each conductor that enters and ends or is spliced here [AWG]; pigtails do not count.
    grounds, isolated_grounds : tuples of int
        The size of each equipment ground [AWG].
    devices : tuple of int
        For each device the largest conductor on it [AWG]; each counts twice.
    clamps : bool
        Internal clamps count once as the largest conductor.
    rules : RuleBook
        Says by which edition grounds are counted.
    title : str
    """
    source = rules["switching.box_fill"].source
    steps: list[Step] = []
    for awg in sorted(set(conductors), reverse=True):
        count = conductors.count(awg)
        each = volume_each_in3(awg)
        steps.append(_step(f"conductors of {awg} AWG", f"{count} x {each:g} in3", count * each, source))
    if clamps and conductors:
        largest = volume_each_in3(min(conductors))
        steps.append(_step("internal clamps, once", f"1 x {largest:g} in3", largest, source))
    for awg in devices:
        each = volume_each_in3(awg)
        steps.append(_step(f"device on {awg} AWG, twice", f"2 x {each:g} in3", 2 * each, source))
    if grounds:
        steps.append(_grounds(grounds, rules))
    for awg in isolated_grounds:
        each = volume_each_in3(awg)
        steps.append(_step("isolated ground", f"1 x {each:g} in3", each, source))
    total = sum(step.value or 0.0 for step in steps)
    return Working(
        key="switching/box-fill",
        title=title,
        steps=tuple(steps),
        result=f"{total:g} in3",
        value=total,
        unit="in3",
        assumptions=("Lampholders that cover the box take no room in it.", "Pigtails do not count."),
    )


def _step(label: str, expression: str, value: float, source: Source) -> Step:
    return Step(
        label=label, expression=expression, result=f"{value:g} in3", value=value, unit="in3", source=source
    )


def _grounds(grounds: tuple[int, ...], rules: RuleBook) -> Step:
    edition = rules.choice("switching.fill_edition")
    each = volume_each_in3(min(grounds))
    further = max(0, len(grounds) - 4) if edition == "2020 and later" else 0
    factor = 1 + further / 4
    words = f"{len(grounds)} grounds: {factor:g} x {each:g} in3"
    return _step(
        f"equipment grounds, rule of {edition}", words, factor * each, rules["switching.fill_edition"].source
    )


def box_fill(hookup: Hookup, box: str, rules: RuleBook | None = None) -> Working:
    """Work out what a box of a hookup holds [cubic inches].

    Parameters
    ----------
    hookup : Hookup
    box : str
    rules : RuleBook or None
        None takes the published rules with the hookup's own local ones.
    """
    entering = [cable for cable in hookup.all_cables if box in (cable.a, cable.b)]
    colors = [(color, cable_kind(cable.kind).awg) for cable in entering for color in cable.colors]
    devices = [
        device for device in hookup.devices if device.box == box and device.kind is not DeviceKind.LAMP
    ]
    return fill_working(
        conductors=tuple(awg for color, awg in colors if color != BARE),
        grounds=tuple(awg for color, awg in colors if color == BARE),
        devices=tuple(_largest_on(hookup, device) for device in devices),
        clamps=hookup.box(box).clamps,
        rules=rules or switching_rules(hookup.local),
        title=f"Box fill of '{box}'",
    )


def _largest_on(hookup: Hookup, device: Device) -> int:
    """Return the largest conductor joined to a device; the largest in its box when none is [AWG]."""
    by_name = {cable.name: cable_kind(cable.kind).awg for cable in hookup.all_cables}
    terminals = set(device.terminals)
    on_it = [
        by_name[point.holder]
        for join in hookup.joins_in(device.box)
        if terminals & set(join.points)
        for point in join.points
        if point.holder in by_name
    ]
    in_box = [by_name[cable.name] for cable in hookup.all_cables if device.box in (cable.a, cable.b)]
    return min(on_it or in_box or [14])
