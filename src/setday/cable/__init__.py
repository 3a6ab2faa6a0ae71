"""Cable: devices on the house, circuits, and every run routed through the framing."""

from setday.cable.cables import SwitchLeg, chain_of, circuit_cables, feed_boxes
from setday.cable.chain import BoxOrder, order_boxes
from setday.cable.check import check
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
from setday.cable.circuits.planning import plan_circuits
from setday.cable.figure import CableFigure, PlannedLegs, SwitchingAsk, figure
from setday.cable.handing import gate_items, needs, work_items
from setday.cable.loads.worked import WorkedOut, work_out
from setday.cable.placing.device_check import DeviceCheck, check_devices
from setday.cable.placing.floor_line import WallPart
from setday.cable.placing.proposing import propose_devices
from setday.cable.placing.spacing import Bare
from setday.cable.placing.spacing_counters import island_outlets
from setday.cable.routes.by_hand import ByHand, compared
from setday.cable.routes.inside import Inside, inside_surface
from setday.cable.routes.passages import Passages
from setday.cable.routes.pulls import HomeRun, home_runs, pull_list
from setday.cable.routes.route_rules import RouteRules, route_rules
from setday.cable.routes.routing import Routing, route_cables
from setday.cable.rulebook import cable_rules, edition_of
from setday.cable.run import Cable, Hole, Medium, PlateNeed, Pull, RoutePoint, Run, Stop
from setday.cable.stops import stops_of
from setday.cable.switched import SwitchedGroup, Wanted, always_on, switched_groups

__all__ = [
    "PANEL",
    "Bare",
    "BoxFill",
    "BoxOrder",
    "ByHand",
    "Cable",
    "CableFigure",
    "Circuit",
    "CircuitPlan",
    "CircuitUse",
    "DeviceCheck",
    "Drop",
    "Hole",
    "HomeRun",
    "Inside",
    "Leg",
    "Medium",
    "PanelDirectory",
    "PanelSlot",
    "Passages",
    "PlannedLegs",
    "PlateNeed",
    "ProtectionKind",
    "Pull",
    "RoutePoint",
    "RouteRules",
    "Routing",
    "Run",
    "Service",
    "Stop",
    "SwitchLeg",
    "SwitchedGroup",
    "SwitchingAsk",
    "WallPart",
    "Wanted",
    "WorkedOut",
    "always_on",
    "box_of",
    "cable_rules",
    "chain_of",
    "check",
    "check_devices",
    "circuit_cables",
    "compared",
    "edition_of",
    "feed_boxes",
    "figure",
    "gate_items",
    "home_runs",
    "inside_surface",
    "island_outlets",
    "needs",
    "order_boxes",
    "plan_circuits",
    "propose_devices",
    "pull_list",
    "route_cables",
    "route_rules",
    "stops_of",
    "switched_groups",
    "work_items",
    "work_out",
]
