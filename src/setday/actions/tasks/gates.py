"""Gates between the tasks of the house and those the instructor typed.

What the house's own work waits for, and what it opens, has a name; so has what a typed task opens or needs.
A typed task that needs a gate without a room waits for all who open it in any room.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from setday.findings import Finding, Severity
from setday.roster import TypedTask, plain
from setday.timetable.tasks import After, Work

__all__ = ["HOUSE_GATES", "NEEDED_GATES", "Gates", "close_gates"]

HOUSE_GATES = {
    "wired": "all cable made up, every hookup tried, the rough and the framing inspections passed",
    "looked": "what is behind the boards was looked at, room by room",
    "hung": "boards are hung",
    "finished": "joints are coated and sanded",
    "devices": "devices are set",
}
"""Gates that the house's own work opens; with a room behind them they are that room's alone."""

NEEDED_GATES = {
    "rough-in": "boxes are set and cable pulled behind it",
    "framing": "the framing inspection comes behind it",
    "close-in": "boards are hung behind it",
    "finishing": "joints are taped behind it",
    "trim": "devices are set behind it",
}
"""Gates that the house's own work waits for where a typed task opens them."""


@dataclass(slots=True)
class Gates:
    """Who opens what: typed tasks by their word, the house's own work as it is gathered."""

    typed: Sequence[TypedTask]
    opened: dict[str, list[str]]
    needed: dict[str, list[str]]

    def __init__(self, typed: Sequence[TypedTask]) -> None:
        self.typed = typed
        self.opened, self.needed = {}, {}
        for task in typed:
            for gate in task.opens_gates:
                self.opens(gate, task.key)
            if task.needs_gates:
                self.needed[task.key] = [plain(gate) for gate in task.needs_gates]

    def opens(self, gate: str, key: str) -> None:
        """Note that a work opens a gate."""
        self.opened.setdefault(plain(gate), []).append(key)

    def needs(self, key: str, *gates: str) -> None:
        """Note that a work waits for gates; one that nobody opens stands open."""
        self.needed.setdefault(key, []).extend(plain(gate) for gate in gates)

    def openers(self, gate: str) -> list[str]:
        """Return who opens a gate; for a gate without a room, all who open it in any room too."""
        rooms = [key for name, keys in self.opened.items() if name.startswith(f"{gate} ") for key in keys]
        return [*self.opened.get(gate, []), *rooms]


def close_gates(works: Iterable[Work], gates: Gates) -> tuple[tuple[Work, ...], tuple[Finding, ...]]:
    """Return the works with their gates as waits, and what was found about gates nobody opens."""
    listed = tuple(works)
    known = {work.key for work in listed}
    asked = {task.key for task in gates.typed}
    findings: list[Finding] = []
    closed = []
    for work in listed:
        waits = {after.key: after for after in work.after}
        for gate in gates.needed.get(work.key, ()):
            opening = gates.openers(gate) if work.key in asked else gates.opened.get(gate, [])
            openers = [key for key in opening if key in known and key != work.key]
            if not openers and work.key in asked and not _known(gate):
                findings.append(_nobody(work, gate, gates))
            for key in openers:
                waits.setdefault(key, After(key=key, why=f"gate: {gate}"))
        closed.append(replace(work, after=tuple(waits.values())))
    return tuple(closed), tuple(findings)


def _known(gate: str) -> bool:
    """Tell whether a gate is one of the house's, with a room behind it or without."""
    return any(f"{gate} ".startswith(f"{name} ") for name in (*HOUSE_GATES, *NEEDED_GATES))


def _nobody(work: Work, gate: str, gates: Gates) -> Finding:
    names = dict.fromkeys([*HOUSE_GATES, *(gate for task in gates.typed for gate in task.opens_gates)])
    return Finding(
        rule="timetable.gate",
        about=f"task '{work.label}'",
        found=f"it waits for the gate '{gate}', which no task opens.",
        expected=f"one of: {', '.join(names)}.",
        do="Correct the gate, or let a task open it (opens gates).",
        severity=Severity.PROBLEM,
    )
