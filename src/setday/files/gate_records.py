"""How far the gates of a house are, as a file: handed out by the site, read where a timetable is made."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import Field, WithJsonSchema

from setday.closein import GateStanding, GateState
from setday.files.class_file.scalars import OneOrMore
from setday.files.written.fields import FreeText, Misread, Name, YesNo, count_of, read_by
from setday.files.written.kind import FileKind
from setday.files.written.notebook import Notebook
from setday.files.written.opening import few_enough, open_written
from setday.files.written.part import Part, says
from setday.files.written.shaped import shaped
from setday.findings import Finding, Severity

__all__ = ["GateFile", "read_gates", "write_gates"]

_SHORT = {"ready": GateState.READY, "waiting": GateState.WAITING}
_MOST = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class GateFile:
    """Gates as read: surface by surface in the order of the file, and everything found."""

    name: str
    house: str
    standings: tuple[GateStanding, ...]
    findings: tuple[Finding, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """The findings that must be put right first."""
        return tuple(each for each in self.findings if each.severity is Severity.PROBLEM)


def _state(text: str) -> GateState:
    known = {state.value: state for state in GateState} | _SHORT
    found = known.get(" ".join(text.lower().split()))
    if found is None:
        expected = f"one of: {', '.join(state.value for state in GateState)}."
        raise Misread(f"'{text[:60]}' is no state of a gate.", expected, "Write one of these.")
    return found


_count = count_of(0, _MOST)
_Count = Annotated[int, _count[0], _count[1]]
_StateText = Annotated[
    GateState, read_by(_state), WithJsonSchema({"type": "string", "enum": [s.value for s in GateState]})
]


class _SurfacePart(Part):
    """The gate of one surface."""

    state: _StateText = Field(description="How far it is.", examples=["ready to close"])
    label: FreeText | None = says("The surface in words.", "bath, north wall")
    things: _Count | None = says("What must be in and seen behind it; none if not written.", "12")
    seen: _Count | None = says("How many of them are confirmed or overruled.", "8")
    checked_off: _Count | None = says("How many are checked off and not seen yet.", "2")
    refused: _Count | None = says("How many were refused.", "1")
    inspections_passed: Annotated[list[Name], OneOrMore] | None = says(
        "Inspections that passed here.", "[inspection/electrical]"
    )
    inspections_awaited: Annotated[list[Name], OneOrMore] | None = says(
        "Inspections still to come.", "[inspection/framing]"
    )
    boards_came_off: YesNo | None = says("Boards came off again and are not on yet.", "yes")
    held_by: Annotated[list[FreeText], OneOrMore] | None = says("The first things that hold it.")


class _GatesPart(Part):
    """The gates of one house."""

    form: Name = Field(alias="setday gates", description="The form of the file.", examples=["1"])
    house: FreeText | None = says("The house.", "Plover Lane house")
    surfaces: dict[Name, _SurfacePart] = Field(description="The gates, by surface.")


_GATE_FILE = FileKind(
    name="file of gates",
    mark="setday gates",
    form="1",
    guide="docs/gates.md",
    shape=_GatesPart,
    most_entries=40_000,
    called={("surfaces",): "surface {}"},
)
"""What Setday reads as the gates of a house."""


def read_gates(data: bytes | str, *, name: str) -> GateFile:
    """Read a file of gates; whatever arrives, nothing is raised and all that is wrong with it is listed.

    Parameters
    ----------
    data : bytes or str
    name : str
        Its name, for the findings.
    """
    opened = open_written(data, name=name, kind=_GATE_FILE)
    found = list(opened.findings)
    house, standings = "", tuple[GateStanding, ...]()
    if opened.root is not None:
        notebook = Notebook(file=name, root=opened.root, kind=_GATE_FILE)
        part = shaped(_GatesPart, opened.root, notebook)
        if part is not None:
            house, standings = part.house or "", tuple(_standings(part, notebook))
        found += notebook.findings
    findings = few_enough(found, name=name, kind=_GATE_FILE)
    return GateFile(name=name, house=house, standings=standings, findings=findings)


def _standings(part: _GatesPart, notebook: Notebook) -> Iterator[GateStanding]:
    for surface, each in part.surfaces.items():
        facts: dict[str, Any] = {
            "things": each.things or 0,
            "seen": each.seen or 0,
            "checked_off": each.checked_off or 0,
            "refused": each.refused or 0,
        }
        more = sum(facts.values()) - facts["things"]
        if more > facts["things"]:
            notebook.find(
                ("surfaces", surface),
                rule="file.entry",
                found=f"{more} are seen, checked off or refused, of {facts['things']} things.",
                do="Correct the counts: a thing is counted once.",
                at_key=True,
            )
            continue
        yield GateStanding(
            surface=surface,
            label=each.label or surface,
            state=each.state,
            passed=tuple(each.inspections_passed or ()),
            awaited=tuple(each.inspections_awaited or ()),
            reopened=bool(each.boards_came_off),
            held_by=tuple(each.held_by or ()),
            **facts,
        )


def write_gates(standings: Iterable[GateStanding], *, house: str) -> str:
    """Return the text of a file of gates, a line a surface.

    Parameters
    ----------
    standings : iterable of GateStanding
    house : str
        Its name.
    """
    lines = ["setday gates: 1", f"house: {_text(house)}", "surfaces:"]
    for each in standings:
        facts = ", ".join(f"{key}: {_text(value)}" for key, value in _facts(each).items())
        lines.append(f"  {_text(each.surface)}: {{{facts}}}")
    return "\n".join(lines) + "\n"


def _facts(each: GateStanding) -> dict[str, object]:
    facts: dict[str, object] = {
        "state": each.state.value,
        "label": each.label,
        "things": each.things,
        "seen": each.seen,
        "checked off": each.checked_off,
        "refused": each.refused,
        "inspections passed": list(each.passed),
        "inspections awaited": list(each.awaited),
        "boards came off": "yes" if each.reopened else "",
        "held by": list(each.held_by),
    }
    return {key: value for key, value in facts.items() if value not in ("", [], 0) or key == "things"}


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)
