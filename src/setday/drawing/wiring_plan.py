"""The wiring plan: devices and circuits by number and line style."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.cable import PANEL, Circuit, Run, box_of
from setday.drawing.circuit_lines import circuit_lines, home_arrow, line_sample, pairs_of, real_ways
from setday.drawing.device_places import Placed, place_symbols
from setday.drawing.device_symbols import REACH, device_symbol, device_words, symbol_key
from setday.drawing.ink import BOLD, DOTTED, FINE, Svg, circle, group, line, rect
from setday.drawing.lettering import SMALL, Taken, letters, text_box, text_width
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Link, Paper, finish, key_of, linked
from setday.drawing.placing import free_place
from setday.drawing.plan_sight import Sight, extent, frame_plan
from setday.drawing.plan_walls import draw_openings, draw_surface_strips, draw_walls
from setday.drawing.table import Table
from setday.house import DeviceKind, House, Mount

__all__ = ["circuit_table", "device_table", "wiring_key", "wiring_plan"]

_MARGIN = 46.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    house: House
    sight: Sight
    circuits: Sequence[Circuit]
    runs: Sequence[Run]
    lit: str
    link: Link | None
    taken: Taken


def wiring_plan(
    house: House,
    *,
    circuits: Sequence[Circuit] = (),
    runs: Sequence[Run] = (),
    lit: str = "",
    with_key: bool = True,
    paper: Paper = LETTER,
    link: Link | None = None,
    key: str = "wiring",
) -> str:
    """Draw the devices of a house and the circuits they are on.

    Parameters
    ----------
    house : House
        With its devices.
    circuits : sequence of Circuit
        Numbered in this order; each has a line style.
    runs : sequence of Run
        Which boxes the cables join, and the real way of those of the circuit that is lit.
    lit : str
        Name of a circuit to show alone; "" shows all.
    with_key : bool
        Say below what lines and symbols stand for; without it the plan itself can be larger.
    paper : Paper
    link : callable or None
        Gives the address of a "device", a "wall" or a "surface" by name.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    frame = frame_plan(extent(house), margin=_MARGIN, below=150 if with_key else 30, paper=paper)
    drawn = _Drawn(
        house=house, sight=frame.sight, circuits=circuits, runs=runs, lit=lit, link=link, taken=Taken()
    )
    body = _body(drawn)
    below, height = _key(drawn, frame.foot + 34, frame.width) if with_key else (Svg(""), frame.foot + 26)
    return finish(
        body=(body, frame.bar, below),
        title=f"Wiring plan of {house.name}" + (f", circuit {lit}" if lit else ""),
        desc=_words(house, circuits, lit),
        width=frame.width,
        height=height,
        key=key_of(key, lit) if lit else key_of(key),
        links=link is not None,
    )


def _body(drawn: _Drawn) -> Svg:
    house, sight, taken = drawn.house, drawn.sight, drawn.taken
    walls = draw_walls(house, sight, studs=False, link=drawn.link, solid="shade")
    openings = draw_openings(house, sight, taken=Taken())
    panel = _panel(drawn)
    placed = place_symbols(house, sight, taken=taken)
    rooms = _room_names(house, sight, taken)
    lines = _lines(drawn, placed)
    symbols = _symbols(drawn, placed)
    strips = draw_surface_strips(house, sight, link=drawn.link)
    return group(walls, openings, strips, panel, lines, rooms, symbols)


def _room_names(house: House, sight: Sight, taken: Taken) -> Svg:
    parts = []
    for room in house.rooms:
        rings = [sight.ring(ring) for ring in (room.outline, *room.holes)]
        wide = text_width(room.name, size=SMALL) + 4
        box = free_place(rings, (wide, SMALL * 1.4), taken)
        upright = False
        if box is None:
            box, upright = free_place(rings, (SMALL * 1.4, wide), taken), True
        if box:
            x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
            parts.append(letters(room.name, x=x, y=y, size=SMALL, upright=upright, halo=True))
    return group(*parts)


def _lines(drawn: _Drawn, placed: Sequence[Placed]) -> Svg:
    spots: dict[str, Placed] = {}
    for each in placed:
        spots.setdefault(box_of(each.device), each)
    parts: list[Svg] = []
    shown = [(n, c) for n, c in enumerate(drawn.circuits) if drawn.lit in ("", c.name)]
    if drawn.lit:
        own = [run for run in drawn.runs if run.circuit == drawn.lit]
        parts.append(real_ways(own, drawn.sight))
        if own:
            return group(*parts)
    parts += [_circuit(drawn, n, circuit, spots) for n, circuit in shown]
    return group(*parts)


def _circuit(drawn: _Drawn, n: int, circuit: Circuit, spots: dict[str, Placed]) -> Svg:
    """Draw one circuit: its lines from box to box, and an arrow where it goes home."""
    pairs, words = pairs_of(circuit, drawn.house, drawn.runs), str(n + 1)
    parts = [circuit_lines(n, pairs, spots, words=words, taken=drawn.taken)]
    panel = drawn.house.wiring.panel
    if panel is not None:
        at = drawn.sight.point(panel.point)
        homes = [spots[end] for start, end in pairs if start == PANEL and end in spots]
        parts += [home_arrow(each, at, words, taken=drawn.taken) for each in homes]
    return group(*parts, data_kind="circuit", data_id=circuit.name)


def _symbols(drawn: _Drawn, placed: Sequence[Placed]) -> Svg:
    on = {name: circuit.name for circuit in drawn.circuits for name in circuit.devices}
    numbers = {circuit.name: n + 1 for n, circuit in enumerate(drawn.circuits)}
    serving = _serving(drawn.house)
    parts = []
    for each in placed:
        device, circuit = each.device, on.get(each.device.name, "")
        picked = bool(drawn.lit) and circuit == drawn.lit
        stem = _stem(each)
        symbol = device_symbol(
            device, at=each.at, facing=each.facing, ways=serving.get(device.name, 1), solid=picked
        )
        touch = circle_touch(each.at)
        label = f"{device.name}, {device_words(device)}" + (
            f", circuit {numbers[circuit]}, {circuit}" if circuit else ", on no circuit"
        )
        parts.append(
            linked(stem, symbol, touch, kind="device", name=device.name, label=label, link=drawn.link)
        )
    return group(*parts)


def circle_touch(at: tuple[float, float]) -> Svg:
    """Draw the place to touch over a symbol."""
    r = REACH + 3
    return rect(x=at[0] - r, y=at[1] - r, w=2 * r, h=2 * r, width=0, fill="touch")


def _stem(each: Placed) -> Svg:
    """Join a symbol to its box on the wall; a dot where the box is."""
    if each.device.typed.mount is not Mount.WALL:
        moved = abs(each.at[0] - each.box[0]) + abs(each.at[1] - each.box[1]) > 1
        return (
            line(x1=each.box[0], y1=each.box[1], x2=each.at[0], y2=each.at[1], width=FINE)
            if moved
            else Svg("")
        )
    stem = line(x1=each.box[0], y1=each.box[1], x2=each.at[0], y2=each.at[1], width=FINE)
    return group(stem, circle(x=each.box[0], y=each.box[1], r=1.2, width=0, fill="ink"))


def _serving(house: House) -> dict[str, int]:
    """Return for every switch how many switches serve what it serves."""
    count: dict[str, int] = {}
    for device in house.devices:
        for name in device.typed.serves:
            count[name] = count.get(name, 0) + 1
    return {
        device.name: max(count[name] for name in device.typed.serves)
        for device in house.devices
        if device.kind is DeviceKind.SWITCH and device.typed.serves
    }


def _panel(drawn: _Drawn) -> Svg:
    panel = drawn.house.wiring.panel
    if panel is None:
        return Svg("")
    x, y = drawn.sight.point(panel.point)
    at = y - 15 if y < 3 * _MARGIN else y + 16
    drawn.taken.take(text_box("panel", x=x, y=at, size=SMALL))
    return group(
        rect(x=x - 8, y=y - 8, w=16, h=16, width=BOLD, dash=DOTTED),
        letters("panel", x=x, y=at, size=SMALL, bold=True, halo=True),
    )


def _key(drawn: _Drawn, y: float, width: float) -> tuple[Svg, float]:
    """Draw the key of lines, and how to read the plan."""
    shown = [(n, c) for n, c in enumerate(drawn.circuits) if drawn.lit in ("", c.name)]
    lines, y = _line_key(shown, y=y, width=width)
    notes = symbol_key(drawn.house.devices)
    if drawn.lit and any(run.circuit == drawn.lit for run in drawn.runs):
        notes.append(
            "Heavy line: the way of the cable; broken where it runs over a ceiling or under the floor."
        )
    elif drawn.circuits:
        notes.append(
            "Lines say which boxes a cable joins, not its way. An arrow with a number: home run to the "
            "panel. Dotted square: under it the home runs are coiled for the set."
        )
    words, y = notes_below(notes, y=y + 4, width=width)
    return group(lines, words), y


def wiring_key(
    house: House,
    circuits: Sequence[Circuit],
    *,
    runs: Sequence[Run] = (),
    lit: str = "",
    width: float = 720.0,
    key: str = "key",
) -> str:
    """Draw what the lines and symbols of a wiring plan stand for, by itself.

    Parameters
    ----------
    house : House
    circuits : sequence of Circuit
    runs : sequence of Run
        As on the plan.
    lit : str
        Name of the only circuit that is shown; "" shows all.
    width : float
        How wide it may be [drawing units].
    key : str
        Prefix of the ids.
    """
    sight = Sight(per_inch=1.0, left=0.0, top=0.0, west=0.0, north=0.0)
    drawn = _Drawn(house=house, sight=sight, circuits=circuits, runs=runs, lit=lit, link=None, taken=Taken())
    body, height = _key(drawn, 14.0, width)
    names = "; ".join(f"{n + 1} {circuit.name}" for n, circuit in enumerate(circuits))
    return finish(
        body=(body,),
        title="Lines and symbols of the wiring plan",
        desc=f"Circuits: {names}." if names else "Symbols of devices.",
        width=width,
        height=height,
        key=key_of(key),
    )


def _line_key(shown: Sequence[tuple[int, Circuit]], *, y: float, width: float) -> tuple[Svg, float]:
    if not shown:
        return Svg(""), y
    entries = [(n, f"{n + 1}  {circuit.name}, {circuit.breaker} A") for n, circuit in shown]
    widest = max(text_width(text, size=SMALL) for _, text in entries) + 58
    columns = max(1, int((width - 20) / widest))
    deep = -(-len(entries) // columns)
    parts = []
    for i, (n, text) in enumerate(entries):
        x, at = 12 + (i // deep) * widest, y + (i % deep) * SMALL * 1.5
        parts.append(line_sample(n, x=x, y=at))
        parts.append(letters(text, x=x + 40, y=at, size=SMALL, anchor="start"))
    return group(*parts), y + deep * SMALL * 1.5 + 4


def _words(house: House, circuits: Sequence[Circuit], lit: str) -> str:
    kinds: dict[str, int] = {}
    for device in house.devices:
        words = device.kind.value
        kinds[words] = kinds.get(words, 0) + 1
    counted = ", ".join(f"{count} {kind}{'s' if count > 1 else ''}" for kind, count in kinds.items())
    said = f"Plan seen from above, north up. {len(house.devices)} devices: {counted}."
    names = "; ".join(f"{n + 1} {c.name}" for n, c in enumerate(circuits) if lit in ("", c.name))
    return f"{said} Circuits: {names}." if names else said


def device_table(house: House, circuits: Sequence[Circuit] = ()) -> Table:
    """Return the devices in words and figures, room by room."""
    on = {name: f"{n + 1} {c.name}" for n, c in enumerate(circuits) for name in c.devices}
    rows = tuple(
        (
            device.name,
            device_words(device),
            device.room or "outdoors",
            device.typed.wall or device.typed.mount.value,
            str(device.height),
            device.typed.box,
            ", ".join(device.typed.serves),
            on.get(device.name, ""),
        )
        for device in house.devices
    )
    return Table(
        caption="Devices",
        head=("Device", "What", "Room", "On", "Up", "Shares box", "Switches", "Circuit"),
        rows=rows,
        figures=(False, False, False, False, True, False, False, False),
    )


def circuit_table(circuits: Sequence[Circuit]) -> Table:
    """Return the circuits in words and figures, by the numbers on the wiring plan."""
    rows = tuple(
        (
            str(n + 1),
            circuit.name,
            circuit.use.value,
            f"{circuit.breaker} A",
            f"{circuit.volts} V",
            circuit.cable,
            str(len(circuit.devices)),
            ", ".join(protection.kind.value for protection in circuit.protections),
        )
        for n, circuit in enumerate(circuits)
    )
    return Table(
        caption="Circuits",
        head=("No.", "Circuit", "For", "Breaker", "Volts", "Cable", "Devices", "Protection"),
        rows=rows,
        figures=(True, False, False, True, True, False, True, False),
    )
