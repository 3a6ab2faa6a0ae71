"""Naming a fault without the plan: what kind it is, and at which points, conductor or device.

What can be named depends on what stands in the house, not on how it is joined, so that the choices tell
nothing of the plan.
"""

from dataclasses import dataclass

import numpy as np

from setday.errors import NoAnswer
from setday.switching import (
    Change,
    ChangeKind,
    Circuit,
    DeviceKind,
    Hookup,
    HuntGround,
    Point,
)

__all__ = ["Choices", "Named", "faults_meant", "nameable", "named_fault"]

_TWO = {ChangeKind.SWAPPED_TERMINALS, ChangeKind.SWAPPED_ENDS, ChangeKind.MOVED, ChangeKind.EXTRA}
_SWITCHES = {ChangeKind.DEAD_SWITCH, ChangeKind.STUCK_SWITCH, ChangeKind.WRONG_KIND}


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A fault as a crew names it.

    Parameters
    ----------
    kind : ChangeKind
    first : str
        A point, as "near: S1 common"; a conductor, as "N1 red"; or a device, as "S1".
    second : str
        The other point, for kinds that have two.
    """

    kind: ChangeKind
    first: str
    second: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What can be named for a kind of fault.

    Parameters
    ----------
    groups : tuple of (str, tuple of str)
        Each box with its points; one group without a name for conductors and devices.
    two : bool
        Two of them must be named.
    """

    groups: tuple[tuple[str, tuple[str, ...]], ...]
    two: bool

    @property
    def all(self) -> tuple[str, ...]:
        """Everything that can be named."""
        return tuple(each for _, group in self.groups for each in group)


def nameable(hookup: Hookup, kind: ChangeKind) -> Choices:
    """Return what can be named for a kind of fault; nothing where the house has none of it.

    Parameters
    ----------
    hookup : Hookup
    kind : ChangeKind
    """
    if kind is ChangeKind.BROKEN:
        names = tuple(f"{c.name} {color}" for c in hookup.all_cables for color in c.colors)
    elif kind is ChangeKind.BURNT_LAMP:
        names = tuple(d.name for d in hookup.devices if d.kind is DeviceKind.LAMP)
    elif kind is ChangeKind.TAB:
        names = tuple(d.name for d in hookup.devices if d.kind is DeviceKind.RECEPTACLE)
    elif kind in _SWITCHES:
        names = tuple(switch.name for switch in hookup.switches)
    else:
        boxes = tuple(
            (box.name, tuple(_point_name(point) for point in hookup.points_in(box.name)))
            for box in hookup.boxes
        )
        return Choices(groups=boxes, two=kind in _TWO)
    return Choices(groups=(("", names),) if names else (), two=False)


def _point_name(point: Point) -> str:
    return f"{point.box}: {point}"


def named_fault(hookup: Hookup, *, kind: str, first: str, second: str = "") -> Named:
    """Return a fault as it was named.

    Raises
    ------
    NoAnswer
        For a kind, point, conductor or device that is not there.
    """
    if kind not in set(ChangeKind):
        raise NoAnswer(f"'{kind}' is no kind of fault.", do="Choose a kind of the list.")
    choices = nameable(hookup, ChangeKind(kind))
    wanted = (first, second) if choices.two else (first,)
    for each in wanted:
        if each not in choices.all:
            raise NoAnswer(f"'{each}' is not in this house.", do="Choose one of the list.")
    if choices.two and first == second:
        raise NoAnswer("Both are the same.", do="Choose two different points.")
    return Named(kind=ChangeKind(kind), first=first, second=second if choices.two else "")


def faults_meant(ground: HuntGround, named: Named) -> tuple[int, ...]:
    """Return the faults a name can mean, by their place among the different circuits.

    Empty when what was named changes nothing in this plan.
    """
    circuit = ground.circuit
    meant = {place for place, change in enumerate(ground.changes) if _means(circuit, named, change)}
    return tuple(row for row, places in enumerate(ground.causes) if meant & set(places))


def _means(circuit: Circuit, named: Named, change: Change) -> bool:
    if change.kind is not named.kind:
        return False
    what, *places = change.step
    if named.kind is ChangeKind.BROKEN:
        wire = circuit.wires[_number(places[0])]
        return named.first == f"{wire.cable} {wire.color}"
    if named.kind in _SWITCHES or named.kind in (ChangeKind.BURNT_LAMP, ChangeKind.TAB):
        return named.first == _device_of(circuit, change)
    if what == "loose":
        return named.first in _unit(circuit, places[0])
    first, second = (_number(place) for place in places)
    if what == "move":
        return named.first in _unit(circuit, first) and named.second in _joined(circuit, second)
    reach = _joined if what == "touch" else _unit
    one, other = reach(circuit, first), reach(circuit, second)
    return (named.first in one and named.second in other) or (named.first in other and named.second in one)


def _number(place: object) -> int:
    if not isinstance(place, int):
        raise TypeError(f"{place!r} is no place of a point")
    return place


def _unit(circuit: Circuit, place: object) -> set[str]:
    """Return a point and what its tab holds to it."""
    return {_point_name(circuit.points[each]) for each in circuit.units[_number(place)]}


def _joined(circuit: Circuit, place: object) -> set[str]:
    """Return a point and everything joined to it in its box."""
    at = _number(place)
    same = np.flatnonzero(circuit.labels == circuit.labels[at]).tolist()
    points = [circuit.points[each] for each in same]
    return {_point_name(point) for point in points if point.box == circuit.points[at].box}


def _device_of(circuit: Circuit, change: Change) -> str:
    """Return the device of a change that is in a device."""
    what, *places = change.step
    if what == "burnt":
        return circuit.load_names[_number(places[0])]
    if what == "modes":
        contacts = places[0]
        first = contacts[0] if isinstance(contacts, tuple) else _number(contacts)
        return circuit.hookup.switches[int(circuit.contact_switch[first])].name
    return circuit.points[_number(places[0])].holder
