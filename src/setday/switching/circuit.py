"""A hookup as arrays: points, and the wires, contacts and loads between them."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product

import numpy as np
import numpy.typing as npt

from setday.rules import RuleBook
from setday.switching.hookup import FEED, PANEL, Device, Hookup, LoadName, Point
from setday.switching.kinds import BARE, DeviceKind, cable_kind, shape_of
from setday.switching.rulebook import ohm_per_ft, switching_rules

__all__ = ["DOWN", "UP", "Circuit", "Wire", "every_position", "lay_out"]

Integers = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]

DOWN, UP = 1, 2
"""Bits of a contact's mode: closed when the handle is down, closed when it is up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wire:
    """A conductor of a cable, from one of its ends to the other."""

    cable: str
    color: str
    awg: int
    first: Point
    second: Point

    def __str__(self) -> str:
        return f"{self.color} of {self.cable}"


@dataclass(frozen=True, kw_only=True, eq=False)
class Circuit:
    """The electrical content of a hookup.

    Parameters
    ----------
    hookup : Hookup
    rules : RuleBook
    points : tuple of Point
        Their places in this tuple are the numbers used in the arrays.
    number : mapping of Point to int
    labels : int array
        Points with the same label are joined; a label is the lowest number among them.
    units : tuple of tuples of int
        For each point the points a tab holds to it, itself included.
    wires : tuple of Wire
    wire_ends, contact_ends, load_ends : int arrays of two columns
    wire_ohm, load_ohm : float arrays
    contact_mode, contact_switch : int arrays
        When each contact is closed, and the place of its switch in `hookup.switches`.
    load_names : tuple of str
    hot, neutral : int
        The panel's ends of the feed.
    """

    hookup: Hookup
    rules: RuleBook
    points: tuple[Point, ...]
    number: Mapping[Point, int]
    labels: Integers
    units: tuple[tuple[int, ...], ...]
    wires: tuple[Wire, ...]
    wire_ends: Integers
    wire_ohm: Floats
    contact_ends: Integers
    contact_mode: Integers
    contact_switch: Integers
    load_ends: Integers
    load_ohm: Floats
    load_names: tuple[LoadName, ...]
    hot: int
    neutral: int

    def contacts_closed(self, positions: Integers) -> npt.NDArray[np.bool_]:
        """Return which contacts are closed, a row for each position."""
        return closed_at(self.contact_mode, positions[:, self.contact_switch])


def closed_at(mode: Integers, handle: Integers) -> npt.NDArray[np.bool_]:
    """Return whether contacts of a mode are closed with the handle down (0) or up (1)."""
    return ((mode >> handle) & 1).astype(bool)


def every_position(switches: int) -> Integers:
    """Return all positions of so many switches, a row each, in counting order.

    Examples
    --------
    >>> every_position(2).tolist()
    [[0, 0], [0, 1], [1, 0], [1, 1]]
    """
    return np.array(list(product((0, 1), repeat=switches)), dtype=np.int64).reshape(2**switches, switches)


def lay_out(hookup: Hookup, rules: RuleBook | None = None) -> Circuit:
    """Return the electrical content of a hookup.

    Parameters
    ----------
    hookup : Hookup
    rules : RuleBook or None
        None takes the published rules with the hookup's own local ones.
    """
    rules = rules or switching_rules(hookup.local)
    points = tuple(hookup.points())
    number = {point: place for place, point in enumerate(points)}
    wires, wire_ohm = _wires(hookup)
    contacts = _contacts(hookup)
    loads = _loads(hookup, rules)
    tabs = [(number[a], number[b]) for device in hookup.devices for a, b in device.tabs]
    return Circuit(
        hookup=hookup,
        rules=rules,
        points=points,
        number=number,
        labels=_labels(hookup, number, tabs),
        units=_units(len(points), tabs),
        wires=wires,
        wire_ends=_pairs([(number[wire.first], number[wire.second]) for wire in wires]),
        wire_ohm=np.array(wire_ohm),
        contact_ends=_pairs([(number[a], number[b]) for a, b, _, _ in contacts]),
        contact_mode=np.array([mode for _, _, mode, _ in contacts], dtype=np.int64),
        contact_switch=np.array([place for _, _, _, place in contacts], dtype=np.int64),
        load_ends=_pairs([(number[a], number[b]) for _, a, b, _ in loads]),
        load_ohm=np.array([ohm for _, _, _, ohm in loads], dtype=np.float64),
        load_names=tuple(name for name, _, _, _ in loads),
        hot=number[Point(box=PANEL, holder=FEED, part="black")],
        neutral=number[Point(box=PANEL, holder=FEED, part="white")],
    )


def _pairs(pairs: list[tuple[int, int]]) -> Integers:
    return np.array(pairs, dtype=np.int64).reshape(-1, 2)


def _wires(hookup: Hookup) -> tuple[tuple[Wire, ...], list[float]]:
    wires, ohms = [], []
    for cable in hookup.all_cables:
        awg = cable_kind(cable.kind).awg
        for color in cable.colors:
            first, second = cable.ends(color)
            wires.append(Wire(cable=cable.name, color=color, awg=awg, first=first, second=second))
            ohms.append(cable.length_ft * ohm_per_ft(awg))
    return tuple(wires), ohms


def _contacts(hookup: Hookup) -> list[tuple[Point, Point, int, int]]:
    return [
        (
            switch.point(contact.first),
            switch.point(contact.second),
            DOWN * contact.when_down + UP * contact.when_up,
            place,
        )
        for place, switch in enumerate(hookup.switches)
        for contact in shape_of(switch.kind).contacts
    ]


def _loads(hookup: Hookup, rules: RuleBook) -> list[tuple[LoadName, Point, Point, float]]:
    supply = rules.number("switching.supply_v")
    return [
        (name, first, second, supply**2 / _watts(device, rules))
        for device in hookup.devices
        for name, first, second in device.loads
    ]


def _watts(device: Device, rules: RuleBook) -> float:
    if device.watts is not None:
        return device.watts
    return rules.number("switching.tester_w" if device.kind is DeviceKind.RECEPTACLE else "switching.lamp_w")


def _labels(hookup: Hookup, number: Mapping[Point, int], tabs: list[tuple[int, int]]) -> Integers:
    bars = [number[Point(box=PANEL, holder=FEED, part=part)] for part in ("white", BARE)]
    groups = [bars, *([number[point] for point in join.points] for join in hookup.joins), *map(list, tabs)]
    labels = np.arange(len(number), dtype=np.int64)
    for group in groups:
        joined = np.isin(labels, labels[group])
        labels[joined] = labels[joined].min()
    return labels


def _units(count: int, tabs: list[tuple[int, int]]) -> tuple[tuple[int, ...], ...]:
    held: list[set[int]] = [{place} for place in range(count)]
    for first, second in tabs:
        held[first].add(second)
        held[second].add(first)
    return tuple(tuple(sorted(points)) for points in held)
