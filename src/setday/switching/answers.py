"""What many variants of a circuit would answer to every flip and reading."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from setday.switching.circuit import Circuit, every_position
from setday.switching.nets import Flags, Labels, State, Variants, in_position, merged, static_nets
from setday.switching.observation import (
    Flip,
    Measure,
    Measured,
    Meter,
    Observation,
    Reading,
    Seen,
    Test,
)
from setday.switching.trial import Look

__all__ = ["Answers", "answers", "catalog", "explains", "observation_of"]

Codes = npt.NDArray[np.int16]

_LOOKS = (Look.OFF, Look.DIM, Look.FULL)
_READINGS = {
    Meter.DEAD: (Reading.JOINED, Reading.THROUGH_LAMP, Reading.OPEN),
    Meter.LIVE: (Reading.NONE, Reading.PART, Reading.FULL),
}
_ALL_POSITIONS_UP_TO = 8


@dataclass(frozen=True, kw_only=True, eq=False)
class Answers:
    """Answers as codes: a row for each variant, a column for each test."""

    tests: tuple[Test, ...]
    codes: Codes


def catalog(circuit: Circuit, *, meters: Sequence[Meter] = (Meter.DEAD, Meter.LIVE)) -> tuple[Test, ...]:
    """Return every test that could be asked: all positions, and readings between points of one box.

    Readings are taken in all positions of up to three switches; of more, with all handles down or up,
    or one against the rest.
    """
    positions = [tuple(int(s) for s in row) for row in every_position(len(circuit.hookup.switches))]
    tests: list[Test] = [Flip(position=position) for position in positions]
    for box in circuit.hookup.boxes:
        here = [
            point
            for place, point in enumerate(circuit.points)
            if point.box == box.name and circuit.units[place][0] == place
        ]
        pairs = list(combinations(here, 2))
        tests += [
            Measure(position=position, meter=meter, first=first, second=second)
            for meter in meters
            for position in _telling(positions)
            for first, second in pairs
        ]
    return tuple(tests)


def _telling(positions: list[tuple[int, ...]]) -> list[tuple[int, ...]]:
    if len(positions) <= _ALL_POSITIONS_UP_TO:
        return positions
    most = len(positions[0])
    return [position for position in positions if sum(position) in (0, 1, most - 1, most)]


def answers(circuit: Circuit, variants: Variants, tests: tuple[Test, ...]) -> Answers:
    """Return what each variant answers to each test.

    Parameters
    ----------
    circuit : Circuit
    variants : Variants
    tests : tuple of Flip or Measure
    """
    static = static_nets(circuit, variants)
    codes = np.zeros((len(tests), len(variants)), dtype=np.int16)
    by_position: dict[tuple[int, ...], list[int]] = {}
    for place, test in enumerate(tests):
        by_position.setdefault(test.position, []).append(place)
    for position, places in by_position.items():
        live = any(_is_live(tests[n]) for n in places)
        at = np.array(position, dtype=np.int64)
        state = in_position(circuit, variants, static, at, with_potential=live)
        dead = _dead_nets(circuit, variants, state)
        for group in _by_kind(tests, places):
            codes[group] = _codes(circuit, state, dead, [tests[place] for place in group])
    return Answers(tests=tests, codes=np.ascontiguousarray(codes.T))


def _is_live(test: Test) -> bool:
    return isinstance(test, Measure) and test.meter is Meter.LIVE


def _by_kind(tests: tuple[Test, ...], places: list[int]) -> list[list[int]]:
    """Put tests of one kind together."""
    kinds: dict[str, list[int]] = {}
    for place in places:
        test = tests[place]
        kinds.setdefault(test.meter if isinstance(test, Measure) else "flip", []).append(place)
    return list(kinds.values())


def _codes(circuit: Circuit, state: State, dead: Labels, tests: list[Test]) -> Codes:
    """Return a row for each test, all of one kind and in one position."""
    first = tests[0]
    if not isinstance(first, Measure):
        return np.repeat(_flip_codes(circuit, state)[None, :], len(tests), axis=0)
    ends = [(t.first, t.second) for t in tests if isinstance(t, Measure)]
    a = [circuit.number[one] for one, _ in ends]
    b = [circuit.number[other] for _, other in ends]
    if first.meter is Meter.DEAD:
        code = (state.nets[a] != state.nets[b]).astype(np.int16)
        return np.asarray(code + (dead[a] != dead[b]), dtype=np.int16)
    rules = circuit.rules
    volts = np.abs(state.potential[a] - state.potential[b])
    code = (volts > rules.number("switching.dark_share")).astype(np.int16)
    return np.asarray(code + (volts >= rules.number("switching.full_share")), dtype=np.int16)


def _dead_nets(circuit: Circuit, variants: Variants, state: State) -> Labels:
    """Return the nets with lamps taken as joints: what a continuity reading goes through."""
    nets = state.nets.copy()
    for place, pair in enumerate(circuit.load_ends):
        merged(nets, pair, variants.loads[:, place])
    return nets


def _flip_codes(circuit: Circuit, state: State) -> Codes:
    """Return one number for what all lamps and the breaker do."""
    rules = circuit.rules
    looks = (state.share > rules.number("switching.dark_share")).astype(np.int16)
    looks += state.share >= rules.number("switching.full_share")
    loads = len(circuit.load_names)
    code = looks @ (3 ** np.arange(loads, dtype=np.int16))
    return np.asarray(np.where(state.opens, 3**loads, code), dtype=np.int16)


def observation_of(circuit: Circuit, test: Test, code: int) -> Observation:
    """Return what a code of `answers` says, as an observation."""
    if isinstance(test, Measure):
        return Measured(test=test, reading=_READINGS[test.meter][code])
    names = circuit.load_names
    if code == 3 ** len(names):
        return Seen(position=test.position, breaker_opens=True)
    looks = tuple((name, _LOOKS[code // 3**n % 3]) for n, name in enumerate(names))
    return Seen(position=test.position, looks=looks)


def explains(circuit: Circuit, variants: Variants, static: Labels, observation: Observation) -> Flags:
    """Return which variants would have shown what was observed.

    Parameters
    ----------
    circuit : Circuit
    variants : Variants
    static : int array
        From `static_nets`.
    observation : Seen or Measured
    """
    test = observation.test if isinstance(observation, Measured) else Flip(position=observation.position)
    live = _is_live(test)
    position = np.array(test.position, dtype=np.int64)
    state = in_position(circuit, variants, static, position, with_potential=live)
    if isinstance(observation, Measured):
        dead = state.nets if live else _dead_nets(circuit, variants, state)
        wanted = _READINGS[observation.test.meter].index(observation.reading)
        return np.asarray(_codes(circuit, state, dead, [test])[0] == wanted)
    if observation.breaker_opens:
        return state.opens
    fits = ~state.opens
    codes = _flip_codes(circuit, state)
    for name, look in observation.looks:
        place = circuit.load_names.index(name)
        fits &= codes // 3**place % 3 == _LOOKS.index(look)
    return fits
