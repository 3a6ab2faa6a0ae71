"""Cable: devices on the house, circuits, and every run routed through the framing."""

from setday.cable.device_check import DeviceCheck, check_devices
from setday.cable.floor_line import WallPart
from setday.cable.proposing import propose_devices
from setday.cable.rulebook import cable_rules, edition_of
from setday.cable.spacing import Bare
from setday.cable.spacing_counters import island_outlets

__all__ = [
    "Bare",
    "DeviceCheck",
    "WallPart",
    "cable_rules",
    "check_devices",
    "edition_of",
    "island_outlets",
    "propose_devices",
]
