"""Whether lamps do what is wanted, in every position, for many variants at once."""

from dataclasses import dataclass

import numpy as np

from setday.switching.circuit import Circuit, every_position
from setday.switching.hookup import Want
from setday.switching.kinds import DeviceKind
from setday.switching.nets import Flags, Floats, Variants, in_position, static_nets

__all__ = ["Behavior", "behavior", "expected_lit", "meets"]


@dataclass(frozen=True, kw_only=True, eq=False)
class Behavior:
    """What variants do in every position: rows are variants, then positions, then loads."""

    share: Floats
    opens: Flags


def behavior(circuit: Circuit, variants: Variants) -> Behavior:
    """Return what variants do in every position of the switches."""
    static = static_nets(circuit, variants)
    states = [
        in_position(circuit, variants, static, position)
        for position in every_position(len(circuit.hookup.switches))
    ]
    return Behavior(
        share=np.stack([state.share for state in states], axis=1),
        opens=np.stack([state.opens for state in states], axis=1),
    )


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


def meets(circuit: Circuit, seen: Behavior) -> Flags:
    """Return which variants do all that is wanted, with no short in any position."""
    rules = circuit.rules
    full = seen.share >= rules.number("switching.full_share")
    dark = seen.share <= rules.number("switching.dark_share")
    good: Flags = np.logical_not(np.asarray(seen.opens.any(axis=1)))
    for want in circuit.hookup.wants:
        load = circuit.load_names.index(want.load)
        fits: Flags = np.zeros(len(good), dtype=np.bool_)
        for lit in expected_lit(circuit, want):
            fits = fits | np.asarray(np.where(lit, full[:, :, load], dark[:, :, load]).all(axis=1))
        good = good & fits
    return good
