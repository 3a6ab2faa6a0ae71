"""What the wiring of a house hands on, cable and switching together."""

from collections.abc import Callable

from setday import cable, switching
from setday.actions.cable.figured import HouseCable, figure_cable
from setday.actions.houses import OpenHouse
from setday.needs import GateItem, Need, WorkItem

__all__ = ["gate_items_of_wiring", "names_wiring", "needs_of_wiring", "wiring_needs_of", "work_of_wiring"]


def needs_of_wiring(wired: HouseCable) -> tuple[Need, ...]:
    """Return the material of a wired house: cable run by run, boxes, devices, connectors and the rest."""
    return (*cable.needs(wired.figure), *switching.needs(_tried(wired)))


def names_wiring(opened: OpenHouse) -> bool:
    """Tell whether a house file names devices, and the panel their circuits come from."""
    house = opened.house
    return house is not None and bool(house.devices) and house.wiring.panel is not None


def wiring_needs_of(opened: OpenHouse, *, clock: Callable[[], float]) -> tuple[Need, ...]:
    """Return the material for wiring a house whose file names its devices; nothing for one that does not.

    Parameters
    ----------
    opened : OpenHouse
    clock : callable
        Returns seconds.
    """
    if not names_wiring(opened):
        return ()
    return needs_of_wiring(figure_cable(opened, clock=clock))


def work_of_wiring(wired: HouseCable, opened: OpenHouse) -> tuple[WorkItem, ...]:
    """Return the work of wiring a house, hookups tried once their boxes are made up."""
    rules = cable.cable_rules(opened.local)
    tried = switching.work_items(_tried(wired), rules=switching.switching_rules(opened.local))
    return (*cable.work_items(wired.figure, rules=rules), *tried)


def gate_items_of_wiring(wired: HouseCable) -> tuple[GateItem, ...]:
    """Return everything of the wiring that must be inside a surface, and judged, before it is covered."""
    surfaces = {device.box: device.surface for device in wired.figure.house.devices if device.surface}
    judged = switching.gate_items(_tried(wired), surfaces=surfaces)
    return (*cable.gate_items(wired.figure), *judged)


def _tried(wired: HouseCable) -> switching.SwitchingFigure:
    return switching.figure(each.hookup for each in wired.hookups)
