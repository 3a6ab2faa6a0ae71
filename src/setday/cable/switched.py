"""What is switched together: switches and what they serve, with every box that takes part."""

from dataclasses import dataclass

from setday.cable.circuit import Circuit, box_of
from setday.house import Device, DeviceKind, House

__all__ = ["SwitchedGroup", "Wanted", "always_on", "switched_groups"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Devices that are on by one set of switches; no switches: always on.

    Parameters
    ----------
    switches : tuple of str
    served : tuple of str
    """

    switches: tuple[str, ...]
    served: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SwitchedGroup:
    """Boxes whose conductors must be planned together, since switches or what they serve share them.

    Parameters
    ----------
    name : str
        Named for the first thing served.
    circuit : str
        Circuit it is on, "" when its devices are on none yet.
    boxes : tuple of str
    wanted : tuple of Wanted
    """

    name: str
    circuit: str
    boxes: tuple[str, ...]
    wanted: tuple[Wanted, ...]

    @property
    def devices(self) -> tuple[str, ...]:
        """Everything that switches or is switched, each once."""
        names = [name for want in self.wanted for name in (*want.switches, *want.served)]
        return tuple(dict.fromkeys(names))


def switched_groups(house: House, circuits: tuple[Circuit, ...] = ()) -> tuple[SwitchedGroup, ...]:
    """Return what is switched together, in the order of the house's devices.

    Parameters
    ----------
    house : House
    circuits : tuple of Circuit
        Tells the circuit of each group.
    """
    by_name = {device.name: device for device in house.devices}
    wanted = _wants(house, by_name)
    circuit_of = {name: circuit.name for circuit in circuits for name in circuit.devices}
    groups: list[tuple[set[str], list[Wanted]]] = []
    for want in wanted:
        boxes = {box_of(by_name[name]) for name in (*want.switches, *want.served)}
        touching = [group for group in groups if group[0] & boxes]
        groups = [group for group in groups if not group[0] & boxes]
        merged = (boxes.union(*(g[0] for g in touching)), [w for g in touching for w in g[1]] + [want])
        groups.append(merged)
    order = {box_of(device): n for n, device in reversed(list(enumerate(house.devices)))}
    ranked = sorted(groups, key=lambda group: min(order[box] for box in group[0]))
    return tuple(_group(boxes, wants, order, circuit_of) for boxes, wants in ranked)


def always_on(house: House, group: SwitchedGroup) -> tuple[Device, ...]:
    """Return the receptacles in a group's boxes that no switch of it serves."""
    return tuple(
        device
        for device in house.devices
        if box_of(device) in group.boxes
        and device.kind is DeviceKind.RECEPTACLE
        and device.name not in group.devices
    )


def _wants(house: House, by_name: dict[str, Device]) -> list[Wanted]:
    """Return what is served by which switches, devices with the same switches together."""
    switches: dict[str, list[str]] = {}
    for device in house.devices:
        if device.kind is DeviceKind.SWITCH:
            for served in device.typed.serves:
                if served in by_name:
                    switches.setdefault(served, []).append(device.name)
    together: dict[tuple[str, ...], list[str]] = {}
    for device in house.devices:
        if device.name in switches:
            together.setdefault(tuple(switches[device.name]), []).append(device.name)
    return [Wanted(switches=by, served=tuple(served)) for by, served in together.items()]


def _group(
    boxes: set[str], wants: list[Wanted], order: dict[str, int], circuit_of: dict[str, str]
) -> SwitchedGroup:
    first = min((name for want in wants for name in want.served), key=lambda name: (len(name), name))
    circuit = next((circuit_of[s] for w in wants for s in w.served if s in circuit_of), "")
    return SwitchedGroup(
        name=first,
        circuit=circuit,
        boxes=tuple(sorted(boxes, key=lambda box: order[box])),
        wanted=tuple(wants),
    )
