"""A hookup tried in every position of its switches."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from setday.rules import RuleBook
from setday.switching.circuit import Circuit, every_position, lay_out
from setday.switching.hookup import Hookup, LoadName, Point, position_text
from setday.switching.kinds import BARE, GREEN
from setday.switching.nodal import Solution, solve
from setday.switching.rulebook import largest_breaker_a

__all__ = ["Breaker", "LoadSeen", "Look", "PositionTried", "Trial", "look_of", "try_hookup"]


class Look(StrEnum):
    """What a lamp (or the tester in a receptacle) does."""

    FULL = "full"
    DIM = "dim"
    OFF = "off"


class Breaker(StrEnum):
    """What the breaker does."""

    HOLDS = "holds"
    SHORT = "opens: dead short to the neutral"
    GROUND_FAULT = "opens: ground fault"
    OVERLOAD = "opens after a while: overload"

    @property
    def opens(self) -> bool:
        """True when the circuit goes dead."""
        return self is not Breaker.HOLDS


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadSeen:
    """A load in one position: its share of the supply, and what a person sees."""

    load: LoadName
    share: float
    look: Look


@dataclass(frozen=True, slots=True, kw_only=True)
class PositionTried:
    """One position of all switches.

    Parameters
    ----------
    position : tuple of int
        1 for up (on), 0 for down (off), in the order of the switches.
    words : str
    breaker : Breaker
    breaker_a : float
        Current if the breaker stayed closed [A].
    loads : tuple of LoadSeen
        With the breaker open every load is off.
    live : tuple of Point
        Points that have a voltage to ground while the breaker holds (or until it opens).
    overloaded : tuple of (wire, current) pairs
        Conductors that carry more than their breaker size allows [A].
    on_ground : tuple of (wire, current) pairs
        Equipment grounds that carry current [A].
    """

    position: tuple[int, ...]
    words: str
    breaker: Breaker
    breaker_a: float
    loads: tuple[LoadSeen, ...]
    live: tuple[Point, ...]
    overloaded: tuple[tuple[str, float], ...]
    on_ground: tuple[tuple[str, float], ...]


@dataclass(frozen=True, kw_only=True, eq=False)
class Trial:
    """A hookup tried in every position.

    Parameters
    ----------
    hookup : Hookup
    circuit : Circuit
    solution : Solution
        The voltages and currents behind it.
    positions : tuple of PositionTried
        In counting order of the switches.
    loose : tuple of Point
        Conductor ends and current-carrying terminals that no wire, contact or load connects to the panel
        in any position.
    open_grounds : tuple of Point
        Green terminals, metal boxes and bare ends without a path to the panel's bar over bare wires.
    """

    hookup: Hookup
    circuit: Circuit
    solution: Solution
    positions: tuple[PositionTried, ...]
    loose: tuple[Point, ...]
    open_grounds: tuple[Point, ...]

    def at(self, position: tuple[int, ...]) -> PositionTried:
        """Return one position."""
        return next(tried for tried in self.positions if tried.position == position)


def try_hookup(hookup: Hookup, rules: RuleBook | None = None) -> Trial:
    """Try a hookup in every position of its switches.

    Parameters
    ----------
    hookup : Hookup
    rules : RuleBook or None
        None takes the published rules with the hookup's own local ones.
    """
    circuit = lay_out(hookup, rules)
    solution = solve(circuit, every_position(len(hookup.switches)))
    return Trial(
        hookup=hookup,
        circuit=circuit,
        solution=solution,
        positions=tuple(_tried(circuit, solution, row) for row in range(len(solution.positions))),
        loose=_loose(circuit),
        open_grounds=_open_grounds(circuit),
    )


def look_of(share: float, rules: RuleBook) -> Look:
    """Return what a person sees of a lamp at a share of the supply."""
    if share >= rules.number("switching.full_share"):
        return Look.FULL
    return Look.DIM if share > rules.number("switching.dark_share") else Look.OFF


def _tried(circuit: Circuit, solution: Solution, row: int) -> PositionTried:
    rules = circuit.rules
    position = tuple(int(state) for state in solution.positions[row])
    breaker = _breaker(circuit, solution, row)
    across = solution.load_a[row] * circuit.load_ohm / rules.number("switching.supply_v")
    shares = [0.0 if breaker.opens else abs(float(share)) for share in across]
    volts = np.abs(solution.volts[row]) > rules.number("switching.live_v")
    panel = {circuit.hot}
    wire_a = np.abs(solution.wire_a[row])
    return PositionTried(
        position=position,
        words=position_text(circuit.hookup, position),
        breaker=breaker,
        breaker_a=float(solution.breaker_a[row]),
        loads=tuple(
            LoadSeen(load=name, share=share, look=look_of(share, rules))
            for name, share in zip(circuit.load_names, shares, strict=True)
        ),
        live=tuple(
            point for place, point in enumerate(circuit.points) if volts[place] and place not in panel
        ),
        overloaded=tuple(
            (str(wire), float(current))
            for wire, current in zip(circuit.wires, wire_a, strict=True)
            if current > largest_breaker_a(wire.awg) * (1 + 1e-9)
        ),
        on_ground=tuple(
            (str(wire), float(current))
            for wire, current in zip(circuit.wires, wire_a, strict=True)
            if wire.color == BARE and current > rules.number("switching.stray_a")
        ),
    )


def _breaker(circuit: Circuit, solution: Solution, row: int) -> Breaker:
    rating = circuit.hookup.feed.breaker_a
    current = float(solution.breaker_a[row])
    if current <= rating:
        return Breaker.HOLDS
    through_loads = float(np.abs(solution.load_a[row]).sum())
    if current - through_loads <= rating:
        return Breaker.OVERLOAD
    ground = next(place for place, wire in enumerate(circuit.wires) if wire.color == BARE)
    neutral = next(place for place, wire in enumerate(circuit.wires) if wire.color == "white")
    wire_a = np.abs(solution.wire_a[row])
    return Breaker.GROUND_FAULT if wire_a[ground] > wire_a[neutral] else Breaker.SHORT


def _reached(circuit: Circuit, start: int, links: list[tuple[int, int]]) -> set[int]:
    """Return the labels that can be reached from a point over links between points."""
    beside: dict[int, set[int]] = {}
    for first, second in links:
        a, b = int(circuit.labels[first]), int(circuit.labels[second])
        beside.setdefault(a, set()).add(b)
        beside.setdefault(b, set()).add(a)
    reached, waiting = {int(circuit.labels[start])}, [int(circuit.labels[start])]
    while waiting:
        for label in beside.get(waiting.pop(), set()) - reached:
            reached.add(label)
            waiting.append(label)
    return reached


def _loose(circuit: Circuit) -> tuple[Point, ...]:
    links = [
        (int(a), int(b))
        for ends in (circuit.wire_ends, circuit.contact_ends, circuit.load_ends)
        for a, b in ends
    ]
    reached = _reached(circuit, circuit.hot, links) | _reached(circuit, circuit.neutral, links)
    return tuple(
        point
        for place, point in enumerate(circuit.points)
        if int(circuit.labels[place]) not in reached and point.part not in (GREEN, BARE)
    )


def _open_grounds(circuit: Circuit) -> tuple[Point, ...]:
    bare = [
        (int(a), int(b))
        for wire, (a, b) in zip(circuit.wires, circuit.wire_ends, strict=True)
        if wire.color == BARE
    ]
    reached = _reached(circuit, circuit.neutral, bare)
    return tuple(
        point
        for place, point in enumerate(circuit.points)
        if point.part in (GREEN, BARE) and int(circuit.labels[place]) not in reached
    )
