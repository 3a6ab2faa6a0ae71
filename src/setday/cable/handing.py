"""What cable hands on: material, work, and what must be inside a surface before it is covered."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from setday.cable.appliance import kind_on
from setday.cable.circuit import Circuit, ProtectionKind
from setday.cable.figure import CableFigure
from setday.cable.routes.inside import inside_surface
from setday.house import Device, DeviceKind, Surface
from setday.measure import Length
from setday.needs import GateItem, Need, WorkItem
from setday.rules import RuleBook, Source
from setday.working import Step, Working

__all__ = ["gate_items", "needs", "work_items"]

_HOUSE = "house"
Place = tuple[Length | None, Length | None]


def needs(figured: CableFigure) -> tuple[Need, ...]:
    """Return the material of a figured house: cable run by run, boxes, devices, plates, staples, breakers.

    Cable is stated run by run, each with what is kept for a miscut, to be cut from coils by a cutting plan;
    everything else is counted whole.
    """
    return (*_cable(figured), *_counted(figured))


def _cable(figured: CableFigure) -> Iterable[Need]:
    rooms = {stop.name: stop.room for stop in figured.passages.stops}
    rules = figured.passages.rules
    reserve = Length(rules.cut_reserve)
    for run in figured.routing.runs:
        kind = run.cable.kind
        kept = f" (cut {run.cut}, the rest for a miscut)" if reserve else ""
        yield Need(
            trade="cable",
            item=f"cable-{kind}",
            label=f"cable {kind}, run {run.number}{kept}",
            quantity=(run.cut + reserve).feet,
            unit="ft",
            place=rooms.get(run.cable.end) or rooms.get(run.cable.start) or _HOUSE,
            phase="rough",
            waste_included=False,
            working=_with_reserve(run.working, run.cut, reserve, rules.book["cable.cut_reserve"].source),
        )


def _with_reserve(working: Working, cut: Length, reserve: Length, source: Source) -> Working:
    """Return the working of a cut length, gone on to what the coil must hold for it."""
    held = cut + reserve
    kept = Step(label="kept for a miscut", expression="on the coil, not cut", result=str(reserve),
                value=reserve.inches, unit="in", source=source)  # fmt: skip
    total = Step(label="on the coil for it", expression=f"{cut} + {reserve}", result=str(held),
                 value=held.inches, unit="in")  # fmt: skip
    return replace(working, steps=(*working.steps, kept, total), result=str(held), value=held.inches)


def _counted(figured: CableFigure) -> Iterable[Need]:
    """Yield what is bought by the piece, like things together."""
    counts: Counter[tuple[str, str, str]] = Counter()
    for fill in figured.worked.fills:
        inches = " in3" if fill.size[-1].isdigit() else ""
        counts[f"box-{_slug(fill.size)}", f"box, {fill.size}{inches}", "rough"] += 1
        if fill.gangs:
            counts[f"cover-{fill.gangs}-gang", f"cover plate, {fill.gangs}-gang", "trim"] += 1
    switches = _switch_words(figured)
    for device in figured.house.devices:
        bought = _device(device, figured, switches)
        if bought is not None:
            counts[(*bought, "trim")] += 1
    for circuit in figured.plan.circuits:
        counts[(*_breaker(circuit), "trim")] += 1
    panel = figured.house.wiring.panel
    if panel is not None:
        counts[
            f"panel-{panel.rating}-{panel.spaces}",
            f"panel with main breaker, {panel.rating} A, {panel.spaces} spaces",
            "trim",
        ] += 1
    plates = len(figured.routing.plates) + sum(hole.plated for hole in figured.routing.holes)
    counts["plate-steel", "steel plate over a cable", "rough"] += plates
    counts["staple-cable", "cable staple", "rough"] += sum(run.staples for run in figured.routing.runs)
    for (item, label, phase), count in counts.items():
        if count:
            yield Need(
                trade="cable",
                item=item,
                label=label,
                quantity=float(count),
                unit="pieces",
                place=_HOUSE,
                phase=phase,
                waste_included=False,
            )


def _switch_words(figured: CableFigure) -> dict[str, str]:
    """Return what each switch is sold as, by how many switch the same things."""
    words: dict[str, str] = {}
    for group in figured.groups:
        for want in group.wanted:
            for n, name in enumerate(want.switches):
                many = len(want.switches)
                words[name] = "single-pole" if many == 1 else "four-way" if 0 < n < many - 1 else "three-way"
    return words


def _device(device: Device, figured: CableFigure, switches: dict[str, str]) -> tuple[str, str] | None:
    circuit = figured.plan.of_device(device.name)
    if device.kind is DeviceKind.SWITCH:
        words = switches.get(device.name, "single-pole")
        return f"switch-{words}", f"{words} switch"
    if device.kind is DeviceKind.RECEPTACLE:
        amperes = 15 if circuit is None or circuit.breaker <= 15 else 20
        outdoor = not device.room
        return (
            f"receptacle-{amperes}{'-weather' if outdoor else ''}",
            f"receptacle, {amperes} A{', for outdoors, with its cover' if outdoor else ''}",
        )
    if device.kind is DeviceKind.APPLIANCE:
        return _for_appliance(device, circuit)
    what = device.typed.what or device.kind.value
    if device.kind is DeviceKind.LIGHT:
        return f"light-{device.typed.mount.value}", f"light, {device.typed.mount.value}"
    if device.kind is DeviceKind.JUNCTION:
        return "cover-blank", "blank cover"
    return _slug(what), what


def _for_appliance(device: Device, circuit: Circuit | None) -> tuple[str, str] | None:
    """Return the receptacle an appliance plugs into; nothing for one that is wired in."""
    known = kind_on(device)
    if known is None or not known.plug:
        return None
    amperes = 20 if circuit is None else max(circuit.breaker, 20)
    if device.typed.volts > 120:
        return f"receptacle-{amperes}-240", f"receptacle, {amperes} A, 240 V"
    return f"receptacle-{amperes}", f"receptacle, {amperes} A"


def _breaker(circuit: Circuit) -> tuple[str, str]:
    asked = [kind for kind in ProtectionKind if circuit.protected(kind)]
    tail = "".join(f"-{kind.value}" for kind in asked)
    words = f", {' and '.join(kind.value for kind in asked)}" if asked else ""
    poles = "one pole" if circuit.poles == 1 else "two poles"
    return f"breaker-{circuit.poles}-{circuit.breaker}{tail}", f"breaker, {poles}, {circuit.breaker} A{words}"


def _slug(words: str) -> str:
    return "-".join(words.lower().replace("/", "-").split())


def work_items(figured: CableFigure, *, rules: RuleBook) -> tuple[WorkItem, ...]:
    """Return the work of a figured house: set boxes, bore, pull, make up, trim.

    Parameters
    ----------
    figured : CableFigure
    rules : RuleBook
        Hours a trained person takes, and the factor of this class.
    """
    stops = {stop.name: stop for stop in figured.passages.stops}
    boxes = Counter(stop.room or "outdoors" for stop in stops.values() if stop.devices)
    devices = Counter(device.room or "outdoors" for device in figured.house.devices)
    items = [
        _work(rules, f"cable/boxes/{room}", f"Set boxes: {room}", room, (count, "boxes"), "set_box_h")
        for room, count in boxes.items()
    ]
    setting = tuple(item.key for item in items)
    bored = len(figured.routing.holes)
    boring = "cable/bore/house"
    items.append(
        _work(rules, boring, "Bore for cables", _HOUSE, (bored, "holes"), "bore_hole_h", after=setting)
    )
    pulling = []
    for circuit in figured.plan.circuits:
        runs = sum(run.circuit == circuit.name for run in figured.routing.runs)
        words = f"Pull circuit {figured.number_of(circuit.name)}: {circuit.name}"
        key = f"cable/pull/{circuit.name}"
        items.append(_work(rules, key, words, _HOUSE, (runs, "runs"), "pull_run_h", after=(boring,)))
        pulling.append(key)
    for room, count in boxes.items():
        key, words = f"cable/make-up/{room}", f"Make up boxes: {room}"
        items.append(_work(rules, key, words, room, (count, "boxes"), "make_up_h", after=tuple(pulling)))
    for room, count in devices.items():
        key, made = f"cable/trim/{room}", (f"cable/make-up/{room}",) if boxes[room] else ()
        items.append(
            _work(rules, key, f"Set devices: {room}", room, (count, "devices"), "trim_device_h", after=made)
        )
    return tuple(item for item in items if item.quantity)


def _work(
    rules: RuleBook,
    key: str,
    label: str,
    place: str,
    much: tuple[int, str],
    rate: str,
    *,
    after: tuple[str, ...] = (),
) -> WorkItem:
    each, factor = rules.number(f"cable.{rate}"), rules.number("cable.class_factor")
    hours = round(much[0] * each * factor, 1)
    step = Step(
        label="hours of this class",
        expression=f"{much[0]} {much[1]} x {each:g} h x {factor:g}",
        result=f"{hours:.1f} h",
        value=hours,
        unit="h",
        source=rules[f"cable.{rate}"].source,
    )
    return WorkItem(
        key=key,
        label=label,
        trade="cable",
        skill="cable",
        place=place,
        quantity=float(much[0]),
        unit=much[1],
        student_hours=hours,
        crew_least=round(rules.number("cable.crew_least")),
        crew_most=round(rules.number("cable.crew_most")),
        after=after,
        working=Working(key=key, title=label, steps=(step,), result=f"{hours:.1f} h", value=hours, unit="h"),
    )


def gate_items(figured: CableFigure) -> tuple[GateItem, ...]:
    """Return every box, run, bored hole and plate that must be inside each surface before it is covered.

    What stands in the wall itself and not on the face of its studs is named, for both sides ask for it.
    """
    return tuple(item for surface in figured.house.surfaces for item in _inside(figured, surface))


def _inside(figured: CableFigure, surface: Surface) -> Iterable[GateItem]:
    inside = inside_surface(figured, surface.id)
    boxes = {device.box: device for device in reversed(figured.house.devices)}

    def item(key: str, label: str, *, thing: str = "", at: Place = (None, None)) -> GateItem:
        name = f"cable/{surface.id}/{key}"
        return GateItem(
            surface=surface.id, trade="cable", key=name, label=label, thing=thing, x=at[0], y=at[1]
        )

    def on_wall(wall: str, along: Length, up: Length) -> Place:
        x = _on_surface(surface, wall, along)
        return (x, None if x is None else up)

    for box in inside.boxes:
        label, device = f"box '{box}' set, cables in it, grounds joined", boxes[box]
        yield item(f"box/{box}", label, thing=f"box/{box}", at=(device.x, device.y))
    for run in inside.runs:
        ends = f"{run.cable.start} to {run.cable.end}"
        label = f"run {run.number}, {run.cable.kind}, {ends}: pulled and stapled"
        yield item(f"run/{run.number}", label, thing=f"run/{run.number}")
    for hole in inside.holes:
        place = f"{hole.wall or hole.room}/{hole.along.sixtyfourths}/{hole.up.sixtyfourths}"
        label = f"hole at {hole.along} along and {hole.up} up, {hole.edge} of wood left"
        label += ", a steel plate over it" if hole.plated else ""
        yield item(f"hole/{place}", label, thing=f"hole/{place}", at=on_wall(hole.wall, hole.along, hole.up))
    for plate in inside.plates:
        key = f"plate/{plate.wall}/{plate.along.sixtyfourths}/{plate.up.sixtyfourths}"
        label = f"steel plate at {plate.along} along and {plate.up} up: {plate.why}"
        yield item(key, label, at=on_wall(plate.wall, plate.along, plate.up))


def _on_surface(surface: Surface, wall: str, along: Length) -> Length | None:
    """Return where a place along a wall stands on a surface, from its left as seen from inside."""
    for span in surface.spans:
        x = span.x + (along - span.along if span.forward else span.along - along)
        if span.wall == wall and span.side in {"left", "right"} and span.x <= x <= span.x + span.width:
            return x
    return None
