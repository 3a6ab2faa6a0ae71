"""Electric: conductors, cables, boxes and breakers; what all trades that pull wire look up."""

from setday.electric.boxes import BoxSize, box_sizes, box_volume_in3, most_conductors
from setday.electric.bundling import bundled_ampacity, bundling_percent
from setday.electric.cables import BARE, CableKind, cable_kind, cable_kinds
from setday.electric.conductors import (
    ampacity_a,
    ampacity_source,
    impedance_ohm_per_ft,
    largest_breaker_a,
    next_standard_breaker,
    ohm_per_ft,
    resistance_source,
    size_named,
    smallest_conductor,
    standard_breakers,
    volume_each_in3,
)
from setday.electric.fill import FillRule, fill_working
from setday.electric.grounding import electrode_conductor, equipment_ground

__all__ = [
    "BARE",
    "BoxSize",
    "CableKind",
    "FillRule",
    "ampacity_a",
    "ampacity_source",
    "box_sizes",
    "box_volume_in3",
    "bundled_ampacity",
    "bundling_percent",
    "cable_kind",
    "cable_kinds",
    "electrode_conductor",
    "equipment_ground",
    "fill_working",
    "impedance_ohm_per_ft",
    "largest_breaker_a",
    "most_conductors",
    "next_standard_breaker",
    "ohm_per_ft",
    "resistance_source",
    "size_named",
    "smallest_conductor",
    "standard_breakers",
    "volume_each_in3",
]
