"""Devices of an open house: proposed, checked, written into its file."""

from dataclasses import dataclass, replace

from setday.actions.houses import OpenHouse
from setday.cable import DeviceCheck, cable_rules, check_devices, propose_devices
from setday.errors import FileProblem
from setday.files import add_devices
from setday.findings import Finding, Severity
from setday.house import BoxSize, FramingHabits, House, TypedDevice, build_house, house_rules, taped

__all__ = ["Proposal", "check_open_house", "devices_for", "house_with", "propose_for", "with_proposed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """Devices proposed for a house.

    Parameters
    ----------
    devices : tuple of TypedDevice
    house : House
        The house with them.
    check : DeviceCheck
        Of the house with them.
    """

    devices: tuple[TypedDevice, ...]
    house: House
    check: DeviceCheck


def propose_for(opened: OpenHouse) -> Proposal:
    """Propose devices for a house that has none.

    Parameters
    ----------
    opened : OpenHouse

    Raises
    ------
    FileProblem
        When the house cannot be built, or has devices already.
    """
    house = opened.built()
    count = len(house.devices)
    if count:
        raise FileProblem(
            f"It has {count} device{'s' if count != 1 else ''} already, and nothing is proposed beside them.",
            do=f"Check them with: setday cable check {opened.name}; to have all proposed, take them out.",
            where=opened.name,
        )
    rules = cable_rules(opened.local)
    devices = devices_for(house, opened)
    proposed = house_with(opened, devices)
    return Proposal(devices=devices, house=proposed, check=check_devices(proposed, rules))


def devices_for(house: House, opened: OpenHouse) -> tuple[TypedDevice, ...]:
    """Return the devices proposed for a house, measured as with a tape: as its file would say them."""
    return tuple(taped(device, house) for device in propose_devices(house, cable_rules(opened.local)))


def house_with(opened: OpenHouse, devices: tuple[TypedDevice, ...]) -> House:
    """Return an open house with other devices than its file's.

    Raises
    ------
    FileProblem
        When the house cannot be built with them.
    """
    description = replace(opened.built().description, devices=devices)
    rules = house_rules(opened.local)
    made = build_house(description, habits=FramingHabits.of(rules), boxes=BoxSize.of(rules))
    if made.house is None:
        problems = [str(f) for f in made.findings if f.severity is Severity.PROBLEM]
        raise FileProblem(f"The devices do not fit the house: {problems[0]}", where=opened.name)
    return made.house


def with_proposed(opened: OpenHouse, proposal: Proposal) -> str:
    """Return the text of the house file with the proposed devices in it, each measured as with a tape.

    All else stays as typed.
    """
    return add_devices(opened.text, devices=proposal.devices)


def check_open_house(opened: OpenHouse) -> tuple[DeviceCheck, tuple[Finding, ...]]:
    """Check the devices of a house file.

    Returns
    -------
    check : DeviceCheck
        Nothing where the house cannot be built.
    findings : tuple of Finding
        Of the file and of its devices together.
    """
    if opened.house is None:
        return DeviceCheck(findings=(), bare=()), opened.findings
    check = check_devices(opened.house, cable_rules(opened.local))
    return check, (*opened.findings, *check.findings)
