"""Two outside judges of a hookup: ngspice for voltages and currents, networkx for what is connected.

Neither uses Setday's own arrays: the netlist and the graph are made here from the file's words.
"""

import re
import shutil
import subprocess
from collections.abc import Sequence
from itertools import product
from pathlib import Path

import networkx as nx

from setday.switching import BARE, PANEL, DeviceKind, Hookup, Point

OHM_PER_FT = {"14": 3.07e-3, "12": 1.93e-3, "10": 1.21e-3}
"""NEC chapter 9 table 8, solid uncoated copper, typed here anew."""
SUPPLY_V, SOURCE_OHM, TESTER_W, LAMP_W = 120.0, 0.04, 1.0, 100.0
CLOSED_OHM, OPEN_OHM, LEAK_OHM = 1e-3, 1e9, 1e10
"""A closed contact, an open one, and the leak of a floating node."""


_VOLTS = re.compile(r"^\s*(c\d+xload\d+)\s+(\S+)\s*$", re.MULTILINE)
_AMPS = re.compile(r"^\s*v(c\d+x)#branch\s+(\S+)\s*$", re.MULTILINE)


def ngspice() -> str | None:
    """Return where ngspice is."""
    return shutil.which("ngspice")


def positions(hookup: Hookup) -> list[tuple[int, ...]]:
    """Return all positions, 1 for up."""
    return list(product((0, 1), repeat=len(hookup.switches)))


def contacts(hookup: Hookup, position: Sequence[int]) -> list[tuple[Point, Point, bool]]:
    """Return every path through a switch, and whether it is closed, from the trade's description."""
    found = []
    for switch, up in zip(hookup.switches, position, strict=True):
        at = switch.point
        if switch.kind is DeviceKind.SINGLE_POLE:
            found.append((at("brass 1"), at("brass 2"), bool(up)))
        elif switch.kind is DeviceKind.THREE_WAY:
            found += [(at("common"), at("traveler 1"), bool(up)), (at("common"), at("traveler 2"), not up)]
        else:
            straight = (("in 1", "out 1"), ("in 2", "out 2"))
            crossed = (("in 1", "out 2"), ("in 2", "out 1"))
            found += [(at(a), at(b), bool(up)) for a, b in straight]
            found += [(at(a), at(b), not up) for a, b in crossed]
    return found


def loads(hookup: Hookup) -> list[tuple[str, Point, Point, float]]:
    """Return every load with its resistance [ohm]."""
    found = []
    for device in hookup.devices:
        if device.kind is DeviceKind.LAMP:
            watts = device.watts or LAMP_W
            found.append((device.name, device.point("brass"), device.point("silver"), SUPPLY_V**2 / watts))
        if device.kind is DeviceKind.RECEPTACLE:
            watts = device.watts or TESTER_W
            for half in ("upper", "lower"):
                ends = device.point(f"{half} brass"), device.point(f"{half} silver")
                found.append((f"{device.name} {half}", *ends, SUPPLY_V**2 / watts))
    return found


def joined(hookup: Hookup) -> nx.Graph:
    """Return the graph of what is joined in boxes, at tabs and at the panel's bars."""
    graph = nx.Graph()
    graph.add_nodes_from(hookup.points())
    for join in hookup.joins:
        nx.add_path(graph, join.points)
    for device in hookup.devices:
        if device.kind is DeviceKind.RECEPTACLE:
            graph.add_edge(device.point("upper silver"), device.point("lower silver"))
            if device.brass_tab:
                graph.add_edge(device.point("upper brass"), device.point("lower brass"))
    graph.add_edge(*(Point(box=PANEL, holder="feed", part=part) for part in ("white", BARE)))
    return graph


def connected(hookup: Hookup, position: Sequence[int]) -> nx.Graph:
    """Return the graph of all that metal connects in a position."""
    graph = joined(hookup)
    for cable in hookup.all_cables:
        graph.add_edges_from(cable.ends(color) for color in cable.colors)
    graph.add_edges_from((a, b) for a, b, closed in contacts(hookup, position) if closed)
    return graph


def netlist(hookup: Hookup, position: Sequence[int], tag: str) -> list[str]:
    """Return the lines of one circuit in one position, its nodes named with a tag of its own."""
    node: dict[Point, str] = {}
    bar = Point(box=PANEL, holder="feed", part="white")
    for number, group in enumerate(nx.connected_components(joined(hookup))):
        for point in group:
            node[point] = "0" if bar in group else f"{tag}n{number}"
    hot = node[Point(box=PANEL, holder="feed", part="black")]
    lines = [f"V{tag} {tag}src 0 DC {SUPPLY_V}", f"R{tag}src {tag}src {hot} {SOURCE_OHM}"]
    lines += [
        f"R{tag}leak{n} {name} 0 {LEAK_OHM}" for n, name in enumerate(sorted(set(node.values()) - {"0"}))
    ]
    parts = [
        (a, b, cable.length_ft * OHM_PER_FT[cable.kind[:2]])
        for cable in hookup.all_cables
        for a, b in (cable.ends(color) for color in cable.colors)
    ]
    parts += [(a, b, CLOSED_OHM if closed else OPEN_OHM) for a, b, closed in contacts(hookup, position)]
    lines += [f"R{tag}p{n} {node[a]} {node[b]} {ohm:.9g}" for n, (a, b, ohm) in enumerate(parts)]
    for n, (_, a, b, ohm) in enumerate(loads(hookup)):
        lines.append(f"R{tag}load{n} {node[a]} {node[b]} {ohm:.9g}")
        lines.append(f"E{tag}load{n} {tag}load{n} 0 {node[a]} {node[b]} 1")
        lines.append(f"R{tag}meter{n} {tag}load{n} 0 1k")
    return lines


def solved(cases: Sequence[tuple[Hookup, tuple[int, ...]]], folder: Path) -> list[tuple[list[float], float]]:
    """Solve many circuits in one run of ngspice: the load voltages [V] and source current [A] of each."""
    lines = ["many hookups"]
    for number, (hookup, position) in enumerate(cases):
        lines += netlist(hookup, position, f"c{number}x")
    deck = folder / "deck.cir"
    deck.write_text("\n".join([*lines, ".options gmin=1e-15", ".op", ".end", ""]), encoding="utf-8")
    ran = subprocess.run(
        [ngspice() or "ngspice", "-b", str(deck)], capture_output=True, text=True, timeout=110, check=False
    )
    volts = {m[1]: float(m[2]) for m in _VOLTS.finditer(ran.stdout)}
    amps = {m[1]: float(m[2]) for m in _AMPS.finditer(ran.stdout)}
    assert len(amps) == len(cases), ran.stderr[-2000:] + ran.stdout[-500:]
    return [
        ([volts[f"c{n}xload{k}"] for k in range(len(hookup.loads))], -amps[f"c{n}x"])
        for n, (hookup, _) in enumerate(cases)
    ]
