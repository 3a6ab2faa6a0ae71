"""The gates in the records as the timetable reads them, and what they hold until when."""

from dataclasses import replace
from typing import TYPE_CHECKING

from setday.web.gates.house import GateSheet
from setday.web.houses.opening import opened
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.models import House, HouseVersion, TimetableRun
from setday.web.timetable.figured import day_of, timetable_of

if TYPE_CHECKING:
    from setday.actions.timetable.gate_waits import HeldBoards
    from setday.closein import GateStanding

__all__ = ["gates_standing", "held_boards"]


def gates_standing(house: House, version: HouseVersion) -> "tuple[GateStanding, ...]":
    """Return how far the gates of a house are, as one version of its file asks for them.

    Raises
    ------
    FileProblem
        When that version cannot be built.
    """
    from setday.closein import standings_of

    sheet = HouseSheet(house=house, version=version, newest=version.number)
    return standings_of(GateSheet(sheet).gates)


def held_boards(run: TimetableRun) -> "tuple[HeldBoards, ...]":
    """Return what the gates hold as they stand now, beside the days of a timetable.

    Parameters
    ----------
    run : TimetableRun
        That has kept a timetable.

    Raises
    ------
    SetdayError
        When house, class and gates no longer go together.
    """
    from setday.actions.timetable.gate_waits import gate_waits

    kept = timetable_of(run)
    gates = gates_standing(run.house, run.version)
    day = day_of(run.version, run.class_file, since=kept.since, gates=gates)
    return gate_waits(replace(kept, day=day), opened(run.version).built())
