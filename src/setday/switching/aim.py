"""Whether lamps do what is wanted, in every position, for many variants at once."""

import numpy as np

from setday.switching.circuit import Circuit, every_position
from setday.switching.hookup import Want
from setday.switching.kinds import DeviceKind
from setday.switching.nets import Flags, Variants, in_position, static_nets

__all__ = ["expected_lit", "meets"]


def expected_lit(circuit: Circuit, want: Want) -> tuple[Flags, ...]:
    """Return the patterns over all positions that fulfil a want: lit or not, in counting order.

    One switch: lit when it is on.  Several: every flip of any of them changes the lamp, which leaves
    two patterns, one the other's reverse (parity).
    """
    switches = circuit.hookup.switches
    positions = every_position(len(switches))
    columns = [place for place, switch in enumerate(switches) if switch.name in want.switches]
    if not columns:
        return (np.ones(len(positions), dtype=bool),)
    odd = positions[:, columns].sum(axis=1) % 2 == 1
    if len(columns) == 1 and switches[columns[0]].kind is DeviceKind.SINGLE_POLE:
        return (odd,)
    return (odd, ~odd)


def meets(circuit: Circuit, variants: Variants) -> Flags:
    """Return which variants do all that is wanted, with no short in any position.

    Position by position: what has failed already is asked no further.
    """
    rules = circuit.rules
    static = static_nets(circuit, variants)
    left = np.arange(len(variants))
    patterns = [(circuit.load_names.index(w.load), expected_lit(circuit, w)) for w in circuit.hookup.wants]
    fits = [np.ones((len(variants), len(lit)), dtype=np.bool_) for _, lit in patterns]
    for row, position in enumerate(every_position(len(circuit.hookup.switches))):
        state = in_position(circuit, variants.rows(left), static[:, left], position)
        full = state.share >= rules.number("switching.full_share")
        dark = state.share <= rules.number("switching.dark_share")
        good = ~state.opens
        for (load, lit), fit in zip(patterns, fits, strict=True):
            for column, pattern in enumerate(lit):
                fit[left, column] &= full[:, load] if pattern[row] else dark[:, load]
            good = good & np.asarray(fit[left].any(axis=1))
        left = left[good]
        if not len(left):
            break
    found: Flags = np.zeros(len(variants), dtype=np.bool_)
    found[left] = True
    return found
