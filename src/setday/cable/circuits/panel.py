"""The panel directory: which breaker sits where, the two legs as even as can be."""

from collections.abc import Sequence

from setday.cable.circuit import Circuit, Leg, PanelDirectory, PanelSlot
from setday.cable.loads.legs import split_evenly
from setday.findings import Finding, Severity
from setday.house import PanelPlace
from setday.rules import RuleBook

__all__ = ["check_panel", "directory", "leg_of_space"]

_COLUMNS = 2


def leg_of_space(space: int) -> Leg:
    """Return the leg that feeds a breaker space: the rows of a panel take turns.

    Examples
    --------
    >>> [leg_of_space(space).value for space in (1, 2, 3, 4, 5)]
    ['A', 'A', 'B', 'B', 'A']
    """
    return Leg.A if (space - 1) // _COLUMNS % 2 == 0 else Leg.B


def directory(circuits: Sequence[Circuit], *, spaces: int) -> PanelDirectory:
    """Give every circuit its space, so that the legs differ as little as they can.

    Circuits between the legs go first, two spaces each on one side; those of one leg follow in the order
    given.  The legs are divided by an exact method, so no directory with this many spaces is more even.

    Parameters
    ----------
    circuits : sequence of Circuit
    spaces : int
        Of the panel; more are counted where the circuits need more, which `check_panel` finds.
    """
    spaces = max(spaces, least_spaces(circuits))
    double = [circuit for circuit in circuits if circuit.poles == 2]
    single = [circuit for circuit in circuits if circuit.poles == 1]
    taken = _across(double)
    free = [space for space in range(1, spaces + 1) if space not in taken]
    rooms = {leg: [space for space in free if leg_of_space(space) is leg] for leg in Leg}
    loads = [round(circuit.load_va) for circuit in single]
    legs = split_evenly(loads, most_a=len(rooms[Leg.A]), most_b=len(rooms[Leg.B]))
    if legs is None:
        raise ValueError("a panel too small for its circuits")  # least_spaces saw to it
    for circuit, leg in zip(single, legs, strict=True):
        taken[rooms[leg].pop(0)] = circuit.name
    slots = tuple(
        PanelSlot(space=space, leg=leg_of_space(space), circuit=taken.get(space, ""))
        for space in range(1, spaces + 1)
    )
    return _weighed(slots, circuits, least=_difference(loads, legs))


def least_spaces(circuits: Sequence[Circuit]) -> int:
    """Return how many spaces a panel for these circuits must have; an even number [count]."""
    needed = sum(circuit.poles for circuit in circuits)
    double = sum(circuit.poles == 2 for circuit in circuits)
    rows = _COLUMNS * (double + double % 2)  # two circuits side by side fill two rows
    return max(needed + needed % 2, rows)


def _across(double: Sequence[Circuit]) -> dict[int, str]:
    """Put the circuits between the legs at the top, left and right in turn."""
    taken = {}
    for index, circuit in enumerate(double):
        row, side = divmod(index, _COLUMNS)
        first = row * 2 * _COLUMNS + 1 + side
        taken[first] = taken[first + _COLUMNS] = circuit.name
    return taken


def _difference(loads: Sequence[int], legs: Sequence[Leg]) -> int:
    return abs(sum(load if leg is Leg.A else -load for load, leg in zip(loads, legs, strict=True)))


def _weighed(slots: tuple[PanelSlot, ...], circuits: Sequence[Circuit], *, least: float) -> PanelDirectory:
    """Add up what stands in the slots, from the slots themselves."""
    loads = {circuit.name: circuit.load_va / circuit.poles for circuit in circuits}
    by_leg = {leg: sum(loads[s.circuit] for s in slots if s.circuit and s.leg is leg) for leg in Leg}
    apart = abs(by_leg[Leg.A] - by_leg[Leg.B])
    return PanelDirectory(
        slots=slots,
        leg_a_va=by_leg[Leg.A],
        leg_b_va=by_leg[Leg.B],
        least_difference_va=least,
        proven=apart <= least + len(circuits),  # loads are divided in whole volt-amperes
    )


def check_panel(
    circuits: Sequence[Circuit], panel: PanelPlace | None, rules: RuleBook
) -> tuple[Finding, ...]:
    """Find a panel with too few spaces, or with too few to spare.

    Parameters
    ----------
    circuits : sequence of Circuit
    panel : PanelPlace or None
    rules : RuleBook
        The rules of cable.
    """
    if panel is None:
        return ()
    needed = least_spaces(circuits)
    used = sum(circuit.poles for circuit in circuits)
    spare = rules.number("cable.spare_spaces")
    if needed > panel.spaces:
        return (
            Finding(
                rule="cable.panel-spaces",
                about="the panel",
                found=f"it has {panel.spaces} spaces; {len(circuits)} circuits take {used}.",
                expected=f"{needed} spaces or more.",
                do=f"Write a panel of {needed + int(spare)} spaces, or join circuits.",
                where=panel.where,
            ),
        )
    if panel.spaces - used < spare:
        return (
            Finding(
                rule="cable.panel-spare",
                about="the panel",
                found=f"{panel.spaces - used} of its {panel.spaces} spaces stay free.",
                expected=f"{spare:g} to spare.",
                do="Write a larger panel, or set cable.spare_spaces.",
                where=panel.where,
                severity=Severity.NOTE,
                source=rules["cable.spare_spaces"].source,
            ),
        )
    return ()
