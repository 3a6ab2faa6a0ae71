"""Devices, circuits and wiring typed out as entries of a house file."""

from collections.abc import Iterable

from setday.files.house.electrical import write_device
from setday.files.written.lines import Plain
from setday.files.written.writing import add_entries
from setday.house import Mount, TypedCircuit, TypedDevice, TypedWiring
from setday.measure import Length, write_feet_inches

__all__ = ["add_devices", "draft_circuit", "draft_device", "draft_wiring"]

Section = dict[str, Plain]


def add_devices(
    text: str, *, devices: Iterable[TypedDevice] = (), circuits: Iterable[TypedCircuit] = ()
) -> str:
    r"""Return the text of a house file with devices and circuits written into it.

    An entry of the same name is written anew; everything else stays as typed, comments too.

    Parameters
    ----------
    text : str
        The file as it is.
    devices : iterable of TypedDevice
    circuits : iterable of TypedCircuit
        With the names of their devices.

    Raises
    ------
    FileProblem
        When the file cannot be read as YAML.

    Examples
    --------
    >>> from setday.house import DeviceKind
    >>> lamp = TypedDevice(name="lamp", kind=DeviceKind.LIGHT, mount=Mount.CEILING, room="hall")
    >>> add_devices("name: Shed\n", devices=[lamp])
    'name: Shed\n\ndevices:\n  lamp: {is: light, room: hall, ceiling: middle}\n'
    """
    circuits = tuple(circuits)
    listed = {name for circuit in circuits for name in circuit.devices}
    drawn = {each.name: draft_device(each, with_circuit=each.name not in listed) for each in devices}
    text = add_entries(text, "devices", drawn) if drawn else text
    typed = {each.name: draft_circuit(each) for each in circuits}
    return add_entries(text, "circuits", typed) if typed else text


def draft_device(device: TypedDevice, *, with_circuit: bool = True) -> Section:
    """Return a device as its entry in a house file.

    Parameters
    ----------
    device : TypedDevice
    with_circuit : bool
        Write its circuit too; not needed where the circuit lists it.
    """
    entry: Section = {
        "is": write_device(device.kind, device.what),
        "room": device.room or "outdoors",
        **_place(device),
    }
    if device.box:
        entry["box"] = device.box
    if device.gangs != 1:
        entry["gangs"] = str(device.gangs)
    if device.serves:
        entry["serves"] = device.serves[0] if len(device.serves) == 1 else list(device.serves)
    if device.half_switched:
        entry["half switched"] = "yes"
    if device.volts != 120:
        entry["volts"] = str(device.volts)
    if device.load is not None:
        entry["load"] = f"{device.load} VA"
    if device.circuit and with_circuit:
        entry["circuit"] = device.circuit
    return entry


def _place(device: TypedDevice) -> Section:
    if device.mount is not Mount.WALL:
        point = device.point
        where: Plain = "middle" if point is None else [_length(point.x), _length(point.y)]
        entry: Section = {device.mount.value: where}
        return entry | ({"up": _length(device.up)} if device.mount is Mount.FLOOR and device.up else {})
    going = f" going {device.going}" if device.going else ""
    side: Section = {"side": device.side} if device.side else {}
    return {
        "wall": device.wall,
        "center": f"{_length(device.along)} from {_end(device.measured_from)}{going}",
        "up": _length(device.up),
        **side,
    }


def _end(held: str) -> str:
    if held in ("north", "south", "east", "west"):
        return f"{held} end"
    return held or "start"


def draft_circuit(circuit: TypedCircuit) -> Section:
    """Return a circuit as its entry in a house file.

    Parameters
    ----------
    circuit : TypedCircuit
    """
    entry: Section = {"use": circuit.use, "breaker": f"{circuit.breaker} A"}
    if circuit.volts != 120:
        entry["volts"] = str(circuit.volts)
    if circuit.wire is not None:
        entry["wire"] = str(circuit.wire)
    if circuit.devices:
        entry["devices"] = list(circuit.devices)
    if circuit.ordered:
        entry["in order"] = "yes"
    return entry


def draft_wiring(wiring: TypedWiring) -> Section:
    """Return the section of the wiring as a whole.

    Parameters
    ----------
    wiring : TypedWiring
    """
    entry: Section = {}
    if wiring.panel is not None:
        entry["panel"] = [_length(wiring.panel.x), _length(wiring.panel.y)]
    if wiring.set_slack is not None:
        entry["set slack"] = _length(wiring.set_slack)
    if wiring.rating != TypedWiring().rating:
        entry["service"] = f"{wiring.rating} A"
    if wiring.spaces != TypedWiring().spaces:
        entry["spaces"] = str(wiring.spaces)
    if wiring.hole_height is not None:
        entry["hole height"] = _length(wiring.hole_height)
    if wiring.closed_walls:
        entry["closed walls"] = list(wiring.closed_walls)
    return entry


def _length(length: Length) -> str:
    return write_feet_inches(length, nearest=None)
