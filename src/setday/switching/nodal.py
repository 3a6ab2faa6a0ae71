"""Modified nodal analysis: the voltages of all points, for many switch positions at once."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from setday.switching.circuit import Circuit, Floats, Integers

__all__ = ["Solution", "solve"]


@dataclass(frozen=True, kw_only=True, eq=False)
class Solution:
    """Voltages and currents, a row for each position.

    Parameters
    ----------
    positions : int array
    volts : float array
        Voltage of every point against the panel's bar [V].
    wire_a, load_a : float arrays
        Current in each wire from its first end to its second, and through each load [A].
    breaker_a : float array
        Current through the breaker if it stayed closed [A].
    """

    positions: Integers
    volts: Floats
    wire_a: Floats
    load_a: Floats
    breaker_a: Floats


def solve(circuit: Circuit, positions: Integers) -> Solution:
    """Solve a circuit in every position, one small linear system each, all in one array.

    The unknowns are the voltages of the nodes (points that are joined are one node; the panel's bar is
    zero) and the current of the source.  Every node leaks a little to the bar, so that a part connected
    to nothing has a voltage too.

    Parameters
    ----------
    circuit : Circuit
    positions : int array
        A row for each position: 1 for up (on), 0 for down (off), in the order of the switches.
    """
    rules = circuit.rules
    nodes, node_of = np.unique(circuit.labels, return_inverse=True)
    count = len(nodes)
    base = np.zeros((count, count))
    wire_s = 1.0 / circuit.wire_ohm
    load_s = 1.0 / circuit.load_ohm
    _stamp(base, node_of[circuit.wire_ends], wire_s)
    _stamp(base, node_of[circuit.load_ends], load_s)
    base[np.arange(count), np.arange(count)] += 1.0 / rules.number("switching.leak_ohm")
    closed = circuit.contacts_closed(positions) / rules.number("switching.contact_ohm")
    matrix = np.zeros((len(positions), count + 1, count + 1))
    matrix[:, :count, :count] = base
    _stamp_rows(matrix, node_of[circuit.contact_ends], closed)
    volts, breaker_a = _with_source(matrix, node_of, circuit)
    by_point = volts[:, node_of]
    return Solution(
        positions=positions,
        volts=by_point,
        wire_a=_currents(by_point, circuit.wire_ends, wire_s),
        load_a=_currents(by_point, circuit.load_ends, load_s),
        breaker_a=breaker_a,
    )


def _stamp(matrix: Floats, ends: Integers, siemens: Floats) -> None:
    """Add conductances between pairs of nodes to one matrix."""
    first, second = ends[:, 0], ends[:, 1]
    np.add.at(matrix, (first, first), siemens)
    np.add.at(matrix, (second, second), siemens)
    np.add.at(matrix, (first, second), -siemens)
    np.add.at(matrix, (second, first), -siemens)


def _stamp_rows(matrix: Floats, ends: Integers, siemens: Floats) -> None:
    """Add conductances that differ by position to a stack of matrices."""
    for (first, second), column in zip(ends, siemens.T, strict=True):
        matrix[:, first, first] += column
        matrix[:, second, second] += column
        matrix[:, first, second] -= column
        matrix[:, second, first] -= column


def _with_source(matrix: Floats, node_of: Integers, circuit: Circuit) -> tuple[Floats, Floats]:
    """Add the source and the zero of the panel's bar, and solve."""
    rules = circuit.rules
    hot, bar, source = node_of[circuit.hot], node_of[circuit.neutral], matrix.shape[1] - 1
    matrix[:, bar, :] = 0.0
    matrix[:, bar, bar] = 1.0
    matrix[:, hot, source] = -1.0
    matrix[:, source, hot] = 1.0
    matrix[:, source, source] = rules.number("switching.source_ohm")
    right: npt.NDArray[np.float64] = np.zeros(matrix.shape[:2])
    right[:, source] = rules.number("switching.supply_v")
    solved: Floats = np.asarray(np.linalg.solve(matrix, right[..., None])[..., 0], dtype=np.float64)
    return solved[:, :-1], solved[:, -1]


def _currents(volts: Floats, ends: Integers, siemens: Floats) -> Floats:
    return (volts[:, ends[:, 0]] - volts[:, ends[:, 1]]) * siemens
