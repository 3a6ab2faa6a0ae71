"""Where current goes: from every join into what hangs on it."""

from collections import defaultdict

from setday.switching.hookup import Point
from setday.switching.trial import Trial

__all__ = ["flows_at"]


def flows_at(trial: Trial, row: int) -> dict[Point, float]:
    """Return the current from each point's join into its conductor or device, in one position.

    Parameters
    ----------
    trial : Trial
    row : int
        Place of the position in `trial.positions`.

    Returns
    -------
    dict of Point to float
        Positive when it flows out of the join, into the conductor or the device [A].
    """
    circuit, solution = trial.circuit, trial.solution
    volts = solution.volts[row]
    closed = circuit.contacts_closed(solution.positions)[row]
    ohm = circuit.rules.number("switching.contact_ohm")
    contact_a = (volts[circuit.contact_ends[:, 0]] - volts[circuit.contact_ends[:, 1]]) * closed / ohm
    amps: defaultdict[Point, float] = defaultdict(float)
    for ends, currents in (
        (circuit.wire_ends, solution.wire_a[row]),
        (circuit.load_ends, solution.load_a[row]),
        (circuit.contact_ends, contact_a),
    ):
        for (first, second), current in zip(ends, currents, strict=True):
            amps[circuit.points[int(first)]] += float(current)
            amps[circuit.points[int(second)]] -= float(current)
    return dict(amps)
