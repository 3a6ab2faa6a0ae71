"""What can be said about the cable of a house before anything is routed."""

from setday.cable.placing.device_check import check_devices
from setday.findings import Finding
from setday.house import House
from setday.rules import RuleBook

__all__ = ["check"]


def check(house: House, *, rules: RuleBook) -> tuple[Finding, ...]:
    """Return every finding on where the devices of a house stand and on what its rooms lack.

    Parameters
    ----------
    house : House
        With its devices, typed or proposed.
    rules : RuleBook
        From `setday.cable.cable_rules`.
    """
    return check_devices(house, rules).findings
