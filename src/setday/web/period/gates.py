"""Which tasks would cover a surface whose gate is not open."""

from collections.abc import Iterable

from setday.closein import Gates, GateState
from setday.findings import Finding
from setday.house import Surface, SurfaceKind
from setday.web.gates.house import gates_in_force
from setday.web.houses.opening import opened
from setday.web.keeping.models import House, HouseTask

__all__ = ["gate_finding", "shut_gates"]

_HANG = "boards/hang/"
_CEILINGS = "ceilings"
_NAMED = 3


def shut_gates(house: House, tasks: Iterable[HouseTask]) -> dict[str, tuple[str, ...]]:
    """Return for each task the surfaces it covers whose gate is not open.

    A surface that is closed already does not count: what was to be seen in it was seen.

    Raises
    ------
    FileProblem
        When the house file in force cannot be built.
    """
    covering = {task.key: list(_covered(task)) for task in tasks}
    covering = {key: asked for key, asked in covering.items() if asked}
    if not covering:
        return {}
    gates, surfaces = gates_in_force(house), opened(house.newest).built().surfaces
    found = {key: tuple(_shut(gates, surfaces, asked)) for key, asked in covering.items()}
    return {key: surfaces for key, surfaces in found.items() if surfaces}


def _covered(task: HouseTask) -> Iterable[tuple[str, bool]]:
    """Yield the rooms a task covers, and whether their ceilings or their walls."""
    for part in task.parts:
        if part.startswith(_HANG):
            room, _slash, which = part.removeprefix(_HANG).rpartition("/")
            yield room, which == _CEILINGS


def _shut(gates: Gates, surfaces: Iterable[Surface], asked: list[tuple[str, bool]]) -> Iterable[str]:
    for surface in surfaces:
        gate = gates.by_surface.get(surface.id)
        if gate is None or gate.state is GateState.CLOSED or gate.state.may_close:
            continue
        if (surface.room, surface.kind is SurfaceKind.CEILING) in asked:
            yield surface.id


def gate_finding(task: HouseTask, surfaces: tuple[str, ...]) -> Finding:
    """Return what is said where a task would cover surfaces whose gate is not open."""
    named = ", ".join(surfaces[:_NAMED]) + (
        f" and {len(surfaces) - _NAMED} more" if len(surfaces) > _NAMED else ""
    )
    return Finding(
        rule="period.gate",
        about=f"'{task.label}'",
        found=f"the gate is not open: {named}.",
        expected="everything behind the boards done and seen, or overruled with a reason.",
        do="Open the sheet of gates: it says what is missing.",
    )
