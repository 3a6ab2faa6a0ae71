"""Cable: devices on the house, circuits, and every run routed through the framing."""

from setday.cable.circuit import (
    PANEL,
    BoxFill,
    Circuit,
    CircuitPlan,
    CircuitUse,
    Drop,
    Leg,
    PanelDirectory,
    PanelSlot,
    ProtectionKind,
    Service,
    box_of,
)
from setday.cable.device_check import DeviceCheck, check_devices
from setday.cable.floor_line import WallPart
from setday.cable.proposing import propose_devices
from setday.cable.rulebook import cable_rules, edition_of
from setday.cable.run import Cable, Hole, Medium, PlateNeed, Pull, RoutePoint, Run, Stop
from setday.cable.spacing import Bare
from setday.cable.spacing_counters import island_outlets

__all__ = [
    "PANEL",
    "Bare",
    "BoxFill",
    "Cable",
    "Circuit",
    "CircuitPlan",
    "CircuitUse",
    "DeviceCheck",
    "Drop",
    "Hole",
    "Leg",
    "Medium",
    "PanelDirectory",
    "PanelSlot",
    "PlateNeed",
    "ProtectionKind",
    "Pull",
    "RoutePoint",
    "Run",
    "Service",
    "Stop",
    "WallPart",
    "box_of",
    "cable_rules",
    "check_devices",
    "edition_of",
    "island_outlets",
    "propose_devices",
]
