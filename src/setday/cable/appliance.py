"""What is known of a kind of appliance: its usual load, and how the load calculation counts it."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from setday.house import Device, DeviceKind
from setday.rules import RuleBook, Source, load_table

__all__ = ["ApplianceKind", "LoadClass", "appliance_kind", "appliance_kinds", "kind_on", "load_va"]

_PACKAGE = "setday.cable"
_ALARM_VA = 10.0
"""An alarm's load is nothing beside the rest [VA] (our own)."""


class LoadClass(StrEnum):
    """How a load calculation counts an appliance."""

    COOKING = "cooking"
    DRYER = "dryer"
    FASTENED = "fastened"
    FULL = "full"
    """Counted in full, never reduced among several."""
    HEAT = "heat"
    HEAT_PUMP = "heat pump"
    COOLING = "cooling"
    CORD = "cord"
    """On a cord; covered by the load of the circuits for receptacles and lighting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ApplianceKind:
    """A row of the table of appliances.

    Parameters
    ----------
    key : str
        "range", "water heater" ...
    load_class : LoadClass
    load_va : float
        Usual load [VA].
    volts : int
        [V].
    motor : bool
        True when its largest part is a motor.
    own : bool
        True when it has a circuit to itself.
    plug : bool
        True when it is plugged into a receptacle of its own.
    continuous : bool
        True when it counts as on for three hours or more.
    breaker : int
        Usual breaker [A].
    cable : str
        Usual cable.
    source : Source
    """

    key: str
    load_class: LoadClass
    load_va: float
    volts: int
    motor: bool
    own: bool
    plug: bool
    continuous: bool
    breaker: int
    cable: str
    source: Source


@cache
def appliance_kinds() -> Mapping[str, ApplianceKind]:
    """Return the kinds of appliances in the table."""
    table = load_table(_PACKAGE, "loads")
    return {
        row["key"]: ApplianceKind(
            key=row["key"],
            load_class=LoadClass(row["class"]),
            load_va=float(row["load_va"]),
            volts=int(row["supply_v"]),
            motor=row["motor"] == "yes",
            own=row["own"] == "yes",
            plug=row["plug"] == "yes",
            continuous=row["continuous"] == "yes",
            breaker=int(row["breaker_a"]),
            cable=row["cable"],
            source=table.source_of(row),
        )
        for row in table.rows
    }


def appliance_kind(what: str) -> ApplianceKind | None:
    """Return the kind an appliance's words name, or None; of several the longest decides.

    Examples
    --------
    >>> appliance_kind("electric water heater").key
    'water heater'
    >>> appliance_kind("kiln") is None
    True
    """
    text = what.lower()
    found = [key for key in appliance_kinds() if re.search(rf"\b{re.escape(key)}s?\b", text)]
    return appliance_kinds()[max(found, key=len)] if found else None


def kind_on(device: Device) -> ApplianceKind | None:
    """Return the kind of appliance that a device is or feeds, or None."""
    if device.kind in {DeviceKind.APPLIANCE, DeviceKind.FAN, DeviceKind.RECEPTACLE}:
        return appliance_kind(device.typed.what)
    return None


def load_va(device: Device, rules: RuleBook) -> float:
    """Return the load a device is counted with when circuits are filled [VA].

    Parameters
    ----------
    device : Device
    rules : RuleBook
        For receptacles and lights whose load is not written.
    """
    if device.typed.load is not None:
        return float(device.typed.load)
    known = kind_on(device)
    if known is not None:
        return known.load_va
    usual = {
        DeviceKind.RECEPTACLE: rules.number("cable.outlet_va"),
        DeviceKind.APPLIANCE: rules.number("cable.outlet_va"),
        DeviceKind.LIGHT: rules.number("cable.light_va"),
        DeviceKind.FAN: rules.number("cable.light_va"),
        DeviceKind.ALARM: _ALARM_VA,
    }
    return usual.get(device.kind, 0.0)
