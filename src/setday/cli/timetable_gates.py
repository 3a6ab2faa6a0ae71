"""The gates on record at the command line: read from a file, and what they hold until when."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.reading import bytes_of
from setday.cli.telling import heading, say, table

if TYPE_CHECKING:
    from datetime import date

    from setday.actions import OpenHouse
    from setday.actions.timetable.solving import Timetable
    from setday.closein import GateStanding

__all__ = ["GatesAt", "gates_at", "tell_gates"]

GatesAt = Annotated[
    Path | None, typer.Option("--gates", help="The gates on record: gates.yaml, as the site hands it out.")
]


def gates_at(path: Path | None) -> "tuple[GateStanding, ...]":
    """Read the gates on record; none where no file is named.

    Raises
    ------
    FileProblem
        With every problem of the file in its message.
    """
    from setday.errors import FileProblem
    from setday.files import read_gates

    if path is None:
        return ()
    read = read_gates(bytes_of(path, what="a file of gates"), name=str(path))
    if read.problems:
        listed = "\n".join(f"  {finding}" for finding in read.problems)
        raise FileProblem(f"The gates cannot be used:\n{listed}", where=str(path))
    return read.standings


def tell_gates(found: "Timetable", opened: "OpenHouse") -> None:
    """Write which gates hold what until when; nothing where none were given."""
    from setday.actions.timetable.gate_waits import gate_waits

    if not found.day.gates.standings:
        return
    heading("Gates before the boards")
    held = gate_waits(found, opened.built())
    rows = [
        (
            each.label,
            f"{each.open} of {each.surfaces}",
            each.to_see,
            _until(each.until) if each.waits else "free",
            _until(each.begins),
            "; ".join(each.waits) or "-",
        )
        for each in held
    ]
    head = ("boards", "gates open", "to be seen", "held until", "boards begin", "held by")
    table(head, rows, right=(1, 2))
    if not rows:
        say("All boards are on.")


def _until(day: "date | None") -> str:
    return f"{day:%a %d %b}" if day else "not planned"
