"""What a hookup does in one position, ready to be drawn into its diagram."""

from dataclasses import dataclass, field

from setday.switching import Point, Trial, contacts_closed, position_words

__all__ = ["Shown", "shown_at"]

_LEAST_A = 1e-3


@dataclass(frozen=True, kw_only=True)
class Shown:
    """One position of the switches; the empty one draws the hookup at rest.

    Parameters
    ----------
    words : str
        The position, and what the breaker does.
    live : frozenset of Point
        Ends and terminals with a voltage to ground.
    flow_a : mapping of (cable, color) to float
        Current from the cable's first box to its second [A].
    closed : mapping of switch to pairs of terminals
    says : mapping of device to text
        Where the handle is, or what the lamp does.
    opened : bool
        The breaker has opened.
    """

    words: str = ""
    live: frozenset[Point] = frozenset()
    flow_a: dict[tuple[str, str], float] = field(default_factory=dict)
    closed: dict[str, tuple[tuple[str, str], ...]] = field(default_factory=dict)
    says: dict[str, str] = field(default_factory=dict)
    opened: bool = False


def shown_at(trial: Trial, position: tuple[int, ...]) -> Shown:
    """Return what a tried hookup does in a position.

    Parameters
    ----------
    trial : Trial
    position : tuple of int
        1 for up (on), 0 for down (off), in the order of the switches.
    """
    hookup = trial.hookup
    row = [tried.position for tried in trial.positions].index(position)
    tried = trial.positions[row]
    says = {
        switch.name: position_words(switch.kind)[state]
        for switch, state in zip(hookup.switches, position, strict=True)
    }
    looks = {seen.load: seen.look.value for seen in tried.loads}
    for device in hookup.devices:
        if device.loads:
            says[device.name] = "/".join(looks[name] for name, _, _ in device.loads)
    closed = {
        switch.name: contacts_closed(switch.kind, state)
        for switch, state in zip(hookup.switches, position, strict=True)
    }
    if tried.breaker.opens:
        words = f"{tried.words}: the breaker {tried.breaker}."
        return Shown(words=words, closed=closed, says=says, opened=True)
    flow = {
        (wire.cable, wire.color): float(current)
        for wire, current in zip(trial.circuit.wires, trial.solution.wire_a[row], strict=True)
        if abs(current) > _LEAST_A
    }
    return Shown(
        words=f"{tried.words}: the breaker holds.",
        live=frozenset(tried.live),
        flow_a=flow,
        closed=closed,
        says=says,
    )
