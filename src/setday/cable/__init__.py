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
from setday.cable.rulebook import cable_rules, edition_of
from setday.cable.run import Cable, Hole, Medium, PlateNeed, Pull, RoutePoint, Run, Stop

__all__ = [
    "PANEL",
    "BoxFill",
    "Cable",
    "Circuit",
    "CircuitPlan",
    "CircuitUse",
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
    "box_of",
    "cable_rules",
    "edition_of",
]
