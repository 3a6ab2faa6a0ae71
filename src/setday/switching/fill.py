"""Box fill of a hookup: what its conductors, devices, clamps and grounds take of each box's room."""

from setday.electric import BARE, FillRule, box_volume_in3, cable_kind, fill_working, most_conductors
from setday.rules import RuleBook
from setday.switching.hookup import Device, Hookup
from setday.switching.kinds import DeviceKind
from setday.switching.rulebook import switching_rules
from setday.working import Working

__all__ = ["box_fill", "box_volume_in3", "fill_rule", "most_conductors"]


def fill_rule(rules: RuleBook) -> FillRule:
    """Return how boxes are filled by the rules of switching.

    Parameters
    ----------
    rules : RuleBook
        The rules of switching; they say by which edition grounds are counted.
    """
    edition = rules.choice("switching.fill_edition")
    return FillRule(
        source=rules["switching.box_fill"].source,
        edition=edition,
        further_grounds_count=edition == "2020 and later",
        grounds_source=rules["switching.fill_edition"].source,
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
        rule=fill_rule(rules or switching_rules(hookup.local)),
        key="switching/box-fill",
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
