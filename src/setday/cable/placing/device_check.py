"""Whether the devices of a house meet the rules on where they must be."""

from dataclasses import dataclass

from setday.cable.placing.presence import check_presence
from setday.cable.placing.spacing import Bare, check_wall_spacing
from setday.cable.placing.spacing_counters import check_counters
from setday.findings import Finding, in_order
from setday.house import House
from setday.rules import RuleBook

__all__ = ["DeviceCheck", "check_devices"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceCheck:
    """What was found on the devices of a house.

    Parameters
    ----------
    findings : tuple of Finding
        "ask": a rule is not met; "note": what the house file does not tell, or comes after the set.
    bare : tuple of Bare
        Stretches of wall or counter without a receptacle near enough, for the drawing.
    """

    findings: tuple[Finding, ...]
    bare: tuple[Bare, ...]


def check_devices(house: House, rules: RuleBook) -> DeviceCheck:
    """Check receptacles, lights, switches, fans and alarms against the rules in force.

    Parameters
    ----------
    house : House
        With its devices, proposed or typed.
    rules : RuleBook
        From `setday.cable.cable_rules`, local rules put in.
    """
    bare = (*check_wall_spacing(house, rules), *check_counters(house, rules))
    findings = in_order([*(each.finding for each in bare), *check_presence(house, rules)])
    return DeviceCheck(findings=findings, bare=bare)
