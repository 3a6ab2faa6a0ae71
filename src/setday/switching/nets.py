"""Many variants of one circuit at once, with conductors taken as ideal.

A variant is the circuit with other joins, broken wires, other contacts or burnt lamps.  Points that
metal connects form a net; the lamps between nets are solved exactly, once for each distinct pattern.
The limit of `nodal` for conductors without resistance; the tests hold one against the other.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from setday.switching.circuit import Circuit, Integers, closed_at

__all__ = ["State", "Variants", "apart", "canonical", "in_position", "merged", "only", "static_nets"]

Labels = npt.NDArray[np.integer]
Flags = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.float64]
_LEAK = 1e-9


@dataclass(frozen=True, kw_only=True, eq=False)
class Variants:
    """Variants of a circuit, a row each.

    Parameters
    ----------
    labels : int array, a column for each point
        Points with the same label are joined.
    wires, loads : bool arrays
        False: broken, burnt.
    modes : int array, a column for each contact
    """

    labels: Labels
    wires: Flags
    loads: Flags
    modes: Integers

    def __len__(self) -> int:
        return len(self.labels)

    def rows(self, chosen: Integers | Flags | slice) -> "Variants":
        """Return some of the variants."""
        return Variants(
            labels=self.labels[chosen],
            wires=self.wires[chosen],
            loads=self.loads[chosen],
            modes=self.modes[chosen],
        )

    def copy(self) -> "Variants":
        """Return variants that can be changed without changing these."""
        return Variants(
            labels=self.labels.copy(),
            wires=self.wires.copy(),
            loads=self.loads.copy(),
            modes=self.modes.copy(),
        )

    @staticmethod
    def together(parts: "list[Variants]") -> "Variants":
        """Return the variants of all parts, one after the other."""
        return Variants(
            labels=np.concatenate([part.labels for part in parts]),
            wires=np.concatenate([part.wires for part in parts]),
            loads=np.concatenate([part.loads for part in parts]),
            modes=np.concatenate([part.modes for part in parts]),
        )


def only(circuit: Circuit, *, times: int = 1) -> Variants:
    """Return the circuit itself, as so many equal variants."""
    return Variants(
        labels=np.tile(circuit.labels.astype(_label_type(len(circuit.points))), (times, 1)),
        wires=np.ones((times, len(circuit.wires)), dtype=bool),
        loads=np.ones((times, len(circuit.load_names)), dtype=bool),
        modes=np.tile(circuit.contact_mode, (times, 1)),
    )


def _label_type(points: int) -> type[np.unsignedinteger]:
    """Return the narrowest type for labels: up to twice the points, and one more."""
    return np.uint8 if 2 * points < 255 else np.uint16


def apart(circuit: Circuit, variants: Variants) -> Variants:
    """Return the variants with neutral and ground bars taken apart in the panel."""
    changed = variants.copy()
    bare = next(place for place, wire in enumerate(circuit.wires) if wire.color == "bare")
    changed.labels[:, int(circuit.wire_ends[bare, 0])] = 2 * len(circuit.points)
    return changed


def merged(nets: Labels, pair: Integers, where: Flags) -> None:
    """Make, in place, one net of the nets at two points, in the variants where they are connected.

    Parameters
    ----------
    nets : int array
        A row for each point, a column for each variant.
    pair : int array
        The two points.
    where : bool array
        For each variant.
    """
    a, b = nets[pair[0]], nets[pair[1]]
    low = np.minimum(a, b)
    high = np.where(where, np.maximum(a, b), low)
    if (high != low).any():
        np.copyto(nets, low[None, :], where=nets == high[None, :])


def static_nets(circuit: Circuit, variants: Variants) -> Labels:
    """Return the net of every point (a row each) in every variant (a column each), switches taken out."""
    nets = np.ascontiguousarray(variants.labels.T)
    for place, pair in enumerate(circuit.wire_ends):
        merged(nets, pair, variants.wires[:, place])
    return nets


def canonical(labels: Labels) -> Labels:
    """Return labels renamed so that two rows are equal exactly when they join the same points."""
    rows, columns = labels.shape
    least = np.full((rows, int(labels.max(initial=0)) + 1), columns, dtype=labels.dtype)
    every = np.arange(rows)
    for column in range(columns - 1, -1, -1):
        least[every, labels[:, column]] = column
    return np.take_along_axis(least, labels.astype(np.int64), axis=1)


@dataclass(frozen=True, kw_only=True, eq=False)
class State:
    """What variants do in one position.

    Parameters
    ----------
    nets : int array
        A row for each point, a column for each variant.
    opens : bool array
        The breaker opens on a short.
    share : float array, a row for each variant, a column for each load
        Voltage as a share of the supply; 0 with the breaker open.
    potential : float array, as `nets`
        Share of the supply against the panel's bar; nan where nothing sets it.
    """

    nets: Labels
    opens: Flags
    share: Floats
    potential: Floats


def in_position(
    circuit: Circuit, variants: Variants, static: Labels, position: Integers, *, with_potential: bool = False
) -> State:
    """Return what variants do in one position.

    Parameters
    ----------
    circuit : Circuit
    variants : Variants
    static : int array
        From `static_nets`.
    position : int array
        1 for up, 0 for down, in the order of the switches.
    with_potential : bool
        Also the potential of every point, for voltage readings.
    """
    nets = static.copy()
    closed = closed_at(variants.modes, position[circuit.contact_switch][None, :])
    for place, pair in enumerate(circuit.contact_ends):
        merged(nets, pair, closed[:, place])
    opens: Flags = np.asarray(nets[circuit.hot] == nets[circuit.neutral])
    ends = _load_ends(circuit, nets)
    patterns, inverse = _distinct(np.concatenate([ends, variants.loads.astype(np.uint8)], axis=1))
    volts, tied = _solved(circuit, patterns)
    count = len(circuit.load_names)
    share = np.abs(volts[:, 2 : 2 + count] - volts[:, 2 + count :])[inverse] * variants.loads
    share[opens] = 0.0
    potential = np.empty((0, 0))
    if with_potential:
        potential = _potential(circuit, nets, np.where(tied > 0.5, volts, np.nan)[inverse], opens)
    return State(nets=nets, opens=opens, share=share, potential=potential)


def _places(circuit: Circuit) -> list[int]:
    return [circuit.hot, circuit.neutral, *circuit.load_ends[:, 0], *circuit.load_ends[:, 1]]


def _load_ends(circuit: Circuit, nets: Labels) -> Labels:
    """Return for each variant, for hot, bar and all load ends, the first of them on the same net."""
    at = nets[_places(circuit)]
    first = np.empty(at.shape, dtype=np.uint8)
    for place in range(len(at) - 1, -1, -1):
        first[at == at[place]] = place
    return np.ascontiguousarray(first.T)


def _distinct(rows: Labels) -> tuple[Labels, Integers]:
    whole = np.ascontiguousarray(rows)
    view = whole.view(np.dtype((np.void, whole.dtype.itemsize * whole.shape[1]))).ravel()
    _, first, inverse = np.unique(view, return_index=True, return_inverse=True)
    return whole[first], inverse.ravel()


def _solved(circuit: Circuit, patterns: Labels) -> tuple[Floats, Floats]:
    """Return for each pattern the potential of hot, bar and every load end, and whether anything sets it."""
    loads = len(circuit.load_names)
    size = 2 + 2 * loads
    ends, alive = patterns[:, :size].astype(np.int64), patterns[:, size:].astype(bool)
    rows = np.arange(len(patterns))
    matrix = np.zeros((len(patterns), size, size))
    matrix[:, np.arange(size), np.arange(size)] = _LEAK
    for place in range(loads):
        siemens = alive[:, place] / circuit.load_ohm[place]
        a, b = ends[:, 2 + place], ends[:, 2 + loads + place]
        np.add.at(matrix, (rows, a, a), siemens)
        np.add.at(matrix, (rows, b, b), siemens)
        np.add.at(matrix, (rows, a, b), -siemens)
        np.add.at(matrix, (rows, b, a), -siemens)
    right = np.zeros((len(patterns), size, 2))
    for place in (0, 1):
        at = ends[:, place]
        matrix[rows, at, :] = 0.0
        matrix[rows, at, at] = 1.0
        right[rows, at, 1] = 1.0
    right[rows, ends[:, 0], 0] = 1.0
    right[rows, ends[:, 1], 0] = 0.0
    solved: Floats = np.asarray(np.linalg.solve(matrix, right), dtype=np.float64)
    by_end = np.take_along_axis(solved, ends[:, :, None].repeat(2, axis=2), axis=1)
    return by_end[:, :, 0], by_end[:, :, 1]


def _potential(circuit: Circuit, nets: Labels, volts: Floats, opens: Flags) -> Floats:
    every = np.arange(nets.shape[1])
    by_net = np.full((int(nets.max(initial=0)) + 1, nets.shape[1]), np.nan)
    for column, place in enumerate(_places(circuit)):
        by_net[nets[place], every] = volts[:, column]
    by_net[nets[circuit.hot], every] = 1.0
    by_net[nets[circuit.neutral], every] = 0.0
    potential = by_net[nets, every[None, :]]
    potential[:, opens] = np.nan
    return potential
