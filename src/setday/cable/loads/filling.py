"""Box fill of every box of a house: what comes into it, and the smallest box as sold that takes it."""

from collections.abc import Iterable, Mapping, Sequence

from setday.cable.appliance import kind_on
from setday.cable.circuit import BoxFill, Circuit
from setday.cable.rulebook import edition_of
from setday.cable.run import PANEL, Cable
from setday.electric import BARE, BoxSize, FillRule, box_sizes, cable_kind, fill_working
from setday.findings import Finding
from setday.house import Device, DeviceKind, House, Mount
from setday.rules import RuleBook

__all__ = ["check_fill", "fill_boxes", "fill_of_box", "fill_rule"]

_FALLBACK_AWG = 14


def fill_boxes(
    house: House, circuits: Sequence[Circuit], cables: Iterable[Cable], *, rules: RuleBook
) -> tuple[BoxFill, ...]:
    """Work out the fill of every box, NEC 314.16.

    Parameters
    ----------
    house : House
        With its devices.
    circuits : sequence of Circuit
        Say which conductors are on which device.
    cables : iterable of Cable
        Every run of the house.
    rules : RuleBook
        The rules of cable.
    """
    on = {name: circuit for circuit in circuits for name in circuit.devices}
    entering: dict[str, list[str]] = {}
    for cable in cables:
        for end in (cable.start, cable.end):
            if end != PANEL:
                entering.setdefault(end, []).append(cable.kind)
    boxes: dict[str, list[Device]] = {}
    for device in house.devices:
        boxes.setdefault(device.box, []).append(device)
    return tuple(
        fill_of_box(name, devices, entering.get(name, ()), on=on, rules=rules)
        for name, devices in boxes.items()
        if _has_a_box(devices)
    )


def _has_a_box(devices: Sequence[Device]) -> bool:
    """Return whether these devices have a box on the wall or ceiling; a wired appliance brings its own."""
    return any(device.kind is not DeviceKind.APPLIANCE or _on_yoke(device) for device in devices)


def _on_yoke(device: Device) -> bool:
    """Return whether a device sits on a yoke in the box and takes room there."""
    known = kind_on(device)
    return device.kind in {DeviceKind.SWITCH, DeviceKind.RECEPTACLE} or (
        device.kind is DeviceKind.APPLIANCE and known is not None and known.plug
    )


def fill_of_box(
    box: str,
    devices: Sequence[Device],
    cables: Iterable[str],
    *,
    on: Mapping[str, Circuit],
    rules: RuleBook,
) -> BoxFill:
    """Work out the fill of one box [cubic inches].

    Parameters
    ----------
    box : str
    devices : sequence of Device
        In it.
    cables : iterable of str
        Kinds of the cables that enter it.
    on : mapping
        Device to its circuit, whose conductors are on it.
    rules : RuleBook
        The rules of cable.
    """
    kinds = [cable_kind(kind) for kind in cables]
    sizes = [(kind.awg, color) for kind in kinds for color in kind.colors]
    yokes = [device for device in devices if _on_yoke(device)]
    clamps = rules.flag("cable.box_clamps")
    largest = min((size for size, _ in sizes), default=_FALLBACK_AWG)
    working = fill_working(
        conductors=tuple(size for size, color in sizes if color != BARE),
        grounds=tuple(size for size, color in sizes if color == BARE),
        devices=tuple(
            _awg(device, on, largest) for device in yokes for _ in range(_gangs(device, on, rules))
        ),
        clamps=clamps,
        rule=fill_rule(rules),
        key=f"cable/box-fill/{box}",
        title=f"Box fill of '{box}'",
    )
    gangs = sum(_gangs(device, on, rules) for device in yokes)
    if yokes:
        gangs = max(gangs, *(device.typed.gangs for device in devices))
    wide = any(_gangs(device, on, rules) > 1 for device in yokes)
    size = _smallest(working.value, gangs, devices, clamps=clamps, square=wide)
    return BoxFill(
        box=box,
        devices=tuple(device.name for device in devices),
        gangs=gangs,
        needed_in3=working.value,
        volume_in3=size.volume_in3,
        size=size.key,
        fits=working.value <= size.volume_in3 + 1e-9,
        working=working,
    )


def _awg(device: Device, on: Mapping[str, Circuit], largest: int) -> int:
    return on[device.name].awg if device.name in on else largest


def _gangs(device: Device, on: Mapping[str, Circuit], rules: RuleBook) -> int:
    """Return the gangs a device takes: two for the receptacle of a range or a dryer."""
    breaker = on[device.name].breaker if device.name in on else 0
    wide = device.kind is not DeviceKind.SWITCH and breaker >= rules.number("cable.wide_device")
    return 2 if wide else 1


def fill_rule(rules: RuleBook) -> FillRule:
    """Return how boxes are filled by the rules of cable."""
    edition = edition_of(rules)
    return FillRule(
        source=rules["cable.box_fill"].source,
        edition=str(edition),
        further_grounds_count=edition >= rules.number("cable.grounds_quarter_from"),
        grounds_source=rules["cable.grounds_quarter_from"].source,
        loop_twice_from=rules.length("cable.loop_counts_twice_from"),
    )


def _smallest(needed: float, gangs: int, devices: Sequence[Device], *, clamps: bool, square: bool) -> BoxSize:
    """Return the smallest box of these gangs that takes so much, or the largest where none does.

    A wide receptacle may sit in a square box, too.
    """
    overhead = all(device.typed.mount is Mount.CEILING for device in devices)
    wanted = [
        size
        for size in box_sizes().values()
        if (size.clamps == clamps and (size.gangs == gangs or (overhead and size.gangs == 0)))
        or (square and size.gangs == 0 and "square" in size.key)
    ] or [size for size in box_sizes().values() if size.gangs in {0, gangs}]
    fitting = [size for size in wanted if size.volume_in3 + 1e-9 >= needed]
    if fitting:
        return min(fitting, key=lambda size: (size.volume_in3, size.key))
    return max(wanted, key=lambda size: (size.volume_in3, size.key))


def check_fill(fills: Iterable[BoxFill], house: House, *, rules: RuleBook) -> tuple[Finding, ...]:
    """Find boxes that no box of the table is large enough for.

    Parameters
    ----------
    fills : iterable of BoxFill
    house : House
    rules : RuleBook
        The rules of cable.
    """
    where = {device.name: device.typed.where for device in house.devices}
    return tuple(
        Finding(
            rule="cable.box-full",
            about=f"box '{fill.box}'",
            found=f"what is in it counts for {fill.needed_in3:g} in3; the largest {fill.gangs}-gang box of "
            f"the table has {fill.volume_in3:g} in3."
            if fill.gangs
            else f"what is in it counts for {fill.needed_in3:g} in3; the largest of these boxes has "
            f"{fill.volume_in3:g} in3.",
            expected="a box with room for it.",
            do="Bring fewer cables through it, divide it into two boxes, or put in a deeper box.",
            where=where[fill.devices[0]],
            source=rules["cable.box_fill"].source,
        )
        for fill in fills
        if rules.flag("cable.box_fill") and not fill.fits
    )
