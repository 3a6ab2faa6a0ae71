"""Outlets that stay on one circuit: a light with its switches, alarms that speak to each other, one box."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from setday.cable.appliance import load_va
from setday.cable.circuit import PANEL, Distance
from setday.cable.circuits.grouping import GroupingProblem
from setday.cable.circuits.trees import Trees
from setday.house import Device, DeviceKind
from setday.rules import RuleBook

__all__ = ["Cluster", "clusters_of", "inner_ft", "problem_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cluster:
    """Devices that stay on one circuit, and the cable between their own boxes.

    Parameters
    ----------
    devices : tuple of Device
    load_va : int
        [VA].
    """

    devices: tuple[Device, ...]
    load_va: int

    @property
    def name(self) -> str:
        """Name of its first device."""
        return self.devices[0].name

    @property
    def boxes(self) -> tuple[str, ...]:
        """Its boxes, each once."""
        return tuple(dict.fromkeys(device.box for device in self.devices))


def clusters_of(devices: Sequence[Device], *, most_va: int, rules: RuleBook) -> tuple[Cluster, ...]:
    """Join the devices that stay on one circuit.

    Switches stay with what they serve, alarms with alarms.  Devices in one box stay together, too, as
    long as a circuit carries them all.

    Parameters
    ----------
    devices : sequence of Device
    most_va : int
        A circuit may carry [VA].
    rules : RuleBook
        The rules of cable.
    """
    groups = [[device] for device in devices]
    names = {device.name for device in devices}
    for device in devices:
        if device.kind is DeviceKind.SWITCH:
            _join(groups, [device.name, *(name for name in device.typed.serves if name in names)])
    _join(groups, [device.name for device in devices if device.kind is DeviceKind.ALARM])
    for box in dict.fromkeys(device.box for device in devices):
        inside = [device.name for device in devices if device.box == box]
        touched = [group for group in groups if any(device.name in inside for device in group)]
        if _load([device for group in touched for device in group], rules) <= most_va:
            _join(groups, inside)
    return tuple(Cluster(devices=tuple(group), load_va=_load(group, rules)) for group in groups)


def _join(groups: list[list[Device]], names: Iterable[str]) -> None:
    wanted = set(names)
    touched = [group for group in groups if any(device.name in wanted for device in group)]
    for group in touched[1:]:
        touched[0].extend(group)
        groups.remove(group)


def _load(devices: Iterable[Device], rules: RuleBook) -> int:
    return round(sum(load_va(device, rules) for device in devices))


def problem_of(
    clusters: Sequence[Cluster],
    distance: Distance,
    *,
    circuits: int,
    most_va: int,
    spread: frozenset[int] = frozenset(),
) -> GroupingProblem:
    """Return the question of how to divide clusters over circuits.

    Parameters
    ----------
    clusters : sequence of Cluster
    distance : callable
        Cable between two boxes [ft].
    circuits : int
    most_va : int
        A circuit may carry [VA].
    spread : frozenset of int
        Every circuit has at least one of these clusters.
    """
    return GroupingProblem(
        names=tuple(cluster.name for cluster in clusters),
        loads=tuple(cluster.load_va for cluster in clusters),
        from_panel=tuple(min(distance(PANEL, box) for box in cluster.boxes) for cluster in clusters),
        between=tuple(tuple(0.0 if a is b else _between(a, b, distance) for b in clusters) for a in clusters),
        circuits=circuits,
        most_va=most_va,
        spread=spread,
    )


def _between(a: Cluster, b: Cluster, distance: Distance) -> float:
    """Return the shortest cable from a box of one to a box of the other, the same both ways [ft]."""
    pairs = [tuple(sorted((one, other))) for one in a.boxes for other in b.boxes]
    return min(0.0 if one == other else distance(one, other) for one, other in pairs)


def inner_ft(cluster: Cluster, distance: Distance) -> float:
    """Return the least tree of cable between a cluster's own boxes [ft]."""
    boxes = cluster.boxes
    between = [[0.0 if a == b else distance(*sorted((a, b))) for b in boxes] for a in boxes]
    return Trees(from_panel=[0.0] * len(boxes), between=between).length((1 << len(boxes)) - 1)
