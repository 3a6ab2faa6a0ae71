"""Circuits and the panel of a house: whether what was written hangs together."""

from collections.abc import Iterable
from dataclasses import replace
from difflib import get_close_matches
from itertools import combinations
from math import inf

from shapely import Point as Spot
from shapely import box
from shapely.geometry.base import BaseGeometry

from setday.findings import Finding, Where
from setday.house.box_size import BoxSize
from setday.house.description import HouseDescription
from setday.house.devices import Device, DeviceKind, PanelPlace, TypedCircuit, TypedDevice, Wiring
from setday.house.placing import plan_point

__all__ = ["check_devices", "wired", "wiring_of"]

_BESIDE = 12.0
"""Devices farther apart than this do not share a box [in] (our own)."""
_PLAY = 6.0


def check_devices(
    description: HouseDescription, devices: tuple[Device, ...], *, boxes: BoxSize
) -> tuple[Finding, ...]:
    """Find devices in one place, boxes that cannot be shared, and names that lead nowhere.

    Parameters
    ----------
    description : HouseDescription
    devices : tuple of Device
        Those that could be placed.
    boxes : BoxSize
    """
    findings = [
        f
        for group in _by_surface(devices)
        for a, b in combinations(group, 2)
        if (f := _two_in_one_place(a, b, boxes))
    ]
    deep = {kind.name: kind.depth.inches for kind in description.kinds}
    depths = {wall.name: deep[wall.kind] for wall in description.walls if wall.kind in deep}
    findings += [f for a, b in _through_the_wall(devices) if (f := _back_to_back(a, b, boxes, depths))]
    findings += _boxes(devices)
    known = {typed.name: typed for typed in description.devices}
    for typed in description.devices:
        findings += [_serves(typed, name, known) for name in typed.serves if not _switchable(name, known)]
        findings += _kinds(typed)
    return tuple(findings)


def wired(
    description: HouseDescription, devices: tuple[Device, ...]
) -> tuple[tuple[Device, ...], tuple[TypedCircuit, ...], tuple[Finding, ...]]:
    """Put the devices on their circuits.

    Parameters
    ----------
    description : HouseDescription
    devices : tuple of Device

    Returns
    -------
    devices : tuple of Device
        Each with the name of its circuit, "" where it is on none.
    circuits : tuple of TypedCircuit
        As written, with the devices that name their circuit themselves after those it lists.
    findings : tuple of Finding
    """
    names = {circuit.name for circuit in description.circuits}
    findings = [
        _no_circuit(typed, sorted(names))
        for typed in description.devices
        if typed.circuit and typed.circuit not in names
    ]
    circuits = tuple(_with_devices(circuit, description.devices) for circuit in description.circuits)
    findings += _circuit_findings(circuits, {typed.name for typed in description.devices})
    on = {name: circuit.name for circuit in reversed(circuits) for name in circuit.devices}
    placed = tuple(
        replace(each, typed=replace(each.typed, circuit=on.get(each.name, ""))) for each in devices
    )
    return placed, circuits, tuple(findings)


def wiring_of(description: HouseDescription, footprint: BaseGeometry) -> tuple[Wiring, tuple[Finding, ...]]:
    """Return the wiring as a whole, the panel at the corner of the foundation where no place is typed.

    Parameters
    ----------
    description : HouseDescription
    footprint : BaseGeometry
        Of all framing [in].
    """
    typed = description.wiring
    findings: list[Finding] = []
    walls = {wall.name for wall in description.walls}
    findings += [
        _no_closed_wall(name, walls, typed.where) for name in typed.closed_walls if name not in walls
    ]
    low_x, low_y, high_x, high_y = footprint.bounds
    point = typed.panel
    corner = description.foundation.panel_corner
    if point is None and corner:
        point = plan_point(
            high_x if "east" in corner else low_x,
            high_y if "north" in corner else low_y,
        )
    around = box(low_x, low_y, high_x, high_y).buffer(_PLAY)
    if point is not None and not around.covers(Spot(point.x.inches, point.y.inches)):
        findings.append(_panel_outside(str(point), typed.where))
    panel = (
        PanelPlace(
            point=point,
            set_slack=typed.set_slack,
            rating=typed.rating,
            spaces=typed.spaces,
            where=typed.where if typed.panel else description.foundation.where,
        )
        if point is not None
        else None
    )
    whole = Wiring(panel=panel, hole_height=typed.hole_height, closed_walls=typed.closed_walls)
    return whole, tuple(findings)


def _by_surface(devices: tuple[Device, ...]) -> Iterable[list[Device]]:
    groups: dict[tuple[str, str, str], list[Device]] = {}
    for device in devices:
        key = (device.surface, device.typed.wall, device.room if not device.surface else "")
        groups.setdefault(key, []).append(device)
    return groups.values()


def _apart(a: Device, b: Device) -> tuple[float, float]:
    if a.surface or a.typed.wall:
        return abs((a.x - b.x).inches), abs((a.y - b.y).inches)
    return abs((a.plan.x - b.plan.x).inches), abs((a.plan.y - b.plan.y).inches)


def _two_in_one_place(a: Device, b: Device, boxes: BoxSize) -> Finding | None:
    wide, tall = _apart(a, b)
    if a.box == b.box or wide >= boxes.wide() or tall >= boxes.tall:
        return None
    first, second = sorted((a, b), key=lambda each: (each.typed.where, each.name))
    return Finding(
        rule="device.same-place",
        about=f"device '{second.name}'",
        found=f"device '{first.name}' (line {first.typed.where.line}) stands in the same place.",
        expected="a place of its own, or one box for both.",
        do=f"Move one of them, or write it in one box with '{first.name}'.",
        where=second.typed.where,
    )


def _through_the_wall(devices: tuple[Device, ...]) -> Iterable[tuple[Device, Device]]:
    """Return the pairs of devices that stand on the two sides of one wall."""
    on_walls = [each for each in devices if each.typed.wall and each.kind is not DeviceKind.APPLIANCE]
    return (
        (a, b)
        for a, b in combinations(on_walls, 2)
        if a.typed.wall == b.typed.wall and a.typed.side != b.typed.side
    )


def _back_to_back(a: Device, b: Device, boxes: BoxSize, depths: dict[str, float]) -> Finding | None:
    beside = abs((a.typed.along - b.typed.along).inches) >= boxes.wide()
    above = abs((a.height - b.height).inches) >= boxes.tall
    if beside or above or 2 * boxes.deep <= depths.get(a.typed.wall, inf):
        return None
    first, second = sorted((a, b), key=lambda each: (each.typed.where, each.name))
    return Finding(
        rule="device.back-to-back",
        about=f"device '{second.name}'",
        found=(
            f"the box of '{first.name}' (line {first.typed.where.line}) is behind it, and the wall is"
            f" {depths[a.typed.wall]:g} in deep."
        ),
        expected=f"{2 * boxes.deep:g} in for two boxes back to back, or a box beside the other.",
        do="Move one of them to the next stud, or name shallower boxes in the local rules.",
        where=second.typed.where,
    )


def _boxes(devices: tuple[Device, ...]) -> list[Finding]:
    """Find devices that are said to share a box but stand apart."""
    first: dict[str, Device] = {}
    findings = []
    for device in sorted(devices, key=lambda each: (each.typed.where, each.name)):
        if not device.typed.box:
            continue
        other = first.setdefault(device.typed.box, device)
        same = (other.surface, other.typed.wall) == (device.surface, device.typed.wall)
        if same and max(_apart(other, device)) <= _BESIDE:
            continue
        findings.append(
            Finding(
                rule="device.box-apart",
                about=f"device '{device.name}'",
                found=f"it is to share box '{device.typed.box}' with '{other.name}', which stands elsewhere.",
                expected="devices of one box side by side on one face.",
                do="Correct its place, or give it a box of its own.",
                where=device.typed.where,
            )
        )
    return findings


def _switchable(name: str, known: dict[str, TypedDevice]) -> bool:
    return name in known and known[name].kind is not DeviceKind.SWITCH


def _serves(typed: TypedDevice, name: str, known: dict[str, TypedDevice]) -> Finding:
    found = f"it switches '{name}', which is a switch itself." if name in known else f"it switches '{name}', "
    found = found if name in known else found + "and there is no device of that name."
    return Finding(
        rule="device.serves",
        about=f"device '{typed.name}'",
        found=found,
        expected="the name of a light, a fan, a receptacle or another device.",
        do=_meant(name, (other for other in known if _switchable(other, known))),
        where=typed.where,
    )


def _meant(name: str, known: Iterable[str]) -> str:
    """Ask for the device whose name is nearest to one that is not there."""
    near = get_close_matches(name, [each for each in known if each != name], n=1, cutoff=0.7)
    return f"Did you mean '{near[0]}'?" if near else "Correct the name, or write the device."


def _kinds(typed: TypedDevice) -> list[Finding]:
    findings = []
    if typed.half_switched and typed.kind is not DeviceKind.RECEPTACLE:
        findings.append(
            Finding(
                rule="device.half-switched",
                about=f"device '{typed.name}'",
                found=f"it is a {typed.kind.value} and only half of it is switched.",
                expected="a receptacle: only that has two halves.",
                do="Take out 'half switched', or make it a receptacle.",
                where=typed.where,
            )
        )
    if typed.kind is DeviceKind.SWITCH or not typed.serves:
        return findings
    return [
        *findings,
        Finding(
            rule="device.serves",
            about=f"device '{typed.name}'",
            found=f"it is a {typed.kind.value} and switches something.",
            expected="a switch.",
            do="Take out what it switches, or make it a switch.",
            where=typed.where,
        ),
    ]


def _no_circuit(typed: TypedDevice, names: list[str]) -> Finding:
    return Finding(
        rule="device.circuit",
        about=f"device '{typed.name}'",
        found=f"there is no circuit '{typed.circuit}'.",
        expected=f"one of: {', '.join(names)}." if names else "a circuit of this file; none is written.",
        do="Correct the name of the circuit, or write it.",
        where=typed.where,
    )


def _with_devices(circuit: TypedCircuit, devices: tuple[TypedDevice, ...]) -> TypedCircuit:
    more = [each.name for each in devices if each.circuit == circuit.name]
    return replace(circuit, devices=tuple(dict.fromkeys((*circuit.devices, *more))))


def _circuit_findings(circuits: tuple[TypedCircuit, ...], known: set[str]) -> list[Finding]:
    findings = [_empty(circuit) for circuit in circuits if not circuit.devices]
    first: dict[str, TypedCircuit] = {}
    for circuit in circuits:
        for name in circuit.devices:
            other = first.setdefault(name, circuit)
            if name not in known:
                findings.append(_no_device(circuit, name, known))
            elif other is not circuit:
                findings.append(_on_two(circuit, name, other))
    return findings


def _empty(circuit: TypedCircuit) -> Finding:
    return _on_circuit(
        circuit,
        "circuit.empty",
        "no device is on it.",
        "at least one device.",
        "Write its devices, or take the circuit out.",
    )


def _no_device(circuit: TypedCircuit, name: str, known: set[str]) -> Finding:
    return _on_circuit(
        circuit,
        "circuit.device",
        f"there is no device '{name}'.",
        "the name of a device of this file.",
        _meant(name, sorted(known)),
    )


def _on_two(circuit: TypedCircuit, name: str, other: TypedCircuit) -> Finding:
    return _on_circuit(
        circuit,
        "circuit.device-twice",
        f"device '{name}' is on circuit '{other.name}' too (line {other.where.line}).",
        "one circuit for each device.",
        "Take it out of one of them.",
    )


def _on_circuit(circuit: TypedCircuit, rule: str, found: str, expected: str, do: str) -> Finding:
    return Finding(
        rule=rule,
        about=f"circuit '{circuit.name}'",
        found=found,
        expected=expected,
        do=do,
        where=circuit.where,
    )


def _no_closed_wall(name: str, walls: set[str], where: Where) -> Finding:
    return Finding(
        rule="wiring.closed-wall",
        about="wiring",
        found=f"wall '{name}' is to take no cable, and there is no such wall.",
        expected=f"one of: {', '.join(sorted(walls))}.",
        do="Correct the name of the wall.",
        where=where,
    )


def _panel_outside(point: str, where: Where) -> Finding:
    return Finding(
        rule="wiring.panel",
        about="wiring, panel",
        found=f"its place {point} is not under the house.",
        expected="a place within the outside walls.",
        do="Check both distances, or leave it out and name the panel corner under 'foundation'.",
        where=where,
    )
