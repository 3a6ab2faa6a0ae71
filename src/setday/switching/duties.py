"""What each conductor serves for, with all switches taken out."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from setday.switching.circuit import Circuit
from setday.switching.hookup import Point
from setday.switching.kinds import GREEN, DeviceKind
from setday.switching.nets import Labels, apart, only, static_nets

__all__ = ["Duties", "Duty", "duties_of"]


class Duty(StrEnum):
    """What a net of joined conductors serves for."""

    SUPPLY = "supply"
    NEUTRAL = "neutral"
    GROUND = "ground"
    SWITCHED = "switched return"
    TRAVELER = "traveler"
    SPARE = "spare"


@dataclass(frozen=True, kw_only=True, eq=False)
class Duties:
    """The duties of the points of a circuit; where nets are joined that should not be, several at once."""

    circuit: Circuit
    nets: Labels
    by_net: dict[int, frozenset[Duty]]

    def of(self, point: Point) -> frozenset[Duty]:
        """Return the duties of the net a point is on."""
        return self.by_net[int(self.nets[self.circuit.number[point]])]


def duties_of(circuit: Circuit) -> Duties:
    """Return what each net of a circuit serves for, bars apart and switches taken out."""
    nets = static_nets(circuit, apart(circuit, only(circuit)))[:, 0]
    bare = next(place for place, wire in enumerate(circuit.wires) if wire.color == "bare")
    found: dict[int, set[Duty]] = {int(net): set() for net in np.unique(nets)}
    found[int(nets[circuit.hot])].add(Duty.SUPPLY)
    found[int(nets[circuit.neutral])].add(Duty.NEUTRAL)
    found[int(nets[circuit.wire_ends[bare, 0]])].add(Duty.GROUND)
    fixed = {Duty.SUPPLY, Duty.NEUTRAL, Duty.GROUND}
    for first, second in circuit.load_ends:
        for end in (first, second):
            if not found[int(nets[end])] & fixed:
                found[int(nets[end])].add(Duty.SWITCHED)
    for device in circuit.hookup.devices:
        if device.kind is DeviceKind.LAMP or device.kind is DeviceKind.RECEPTACLE:
            continue
        for terminal in device.terminals:
            net = int(nets[circuit.number[terminal]])
            if terminal.part != GREEN and not found[net]:
                found[net].add(Duty.TRAVELER)
    return Duties(
        circuit=circuit,
        nets=nets,
        by_net={net: frozenset(duties or {Duty.SPARE}) for net, duties in found.items()},
    )
