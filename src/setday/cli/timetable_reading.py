"""Reading what the verbs of the timetable share: house, class, saved timetable, log."""

from dataclasses import dataclass
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.reading import bytes_of, house_at
from setday.cli.timetable import limits_of, plan_at
from setday.cli.timetable_gates import gates_at
from setday.cli.timetable_progress import following_dates

if TYPE_CHECKING:
    from setday.actions import OpenHouse
    from setday.actions.timetable.problem import ClassDay
    from setday.actions.timetable.standing import Standing

__all__ = ["LogAt", "PlanAt", "Read", "standing_at"]

PlanAt = Annotated[
    Path | None, typer.Option("--plan", help="A timetable kept with solve --keep or repair --keep.")
]
LogAt = Annotated[Path | None, typer.Option("--log", help="The log: what was done in every period so far.")]


@dataclass(frozen=True, kw_only=True)
class Read:
    """Everything that was named on the command line."""

    opened: "OpenHouse"
    day: "ClassDay"
    stand: "Standing"


def standing_at(
    house: Path,
    class_file: Path,
    plan: Path | None,
    log: Path | None,
    *,
    gates: Path | None = None,
    planning: bool = False,
    time_limit: float,
    seed: int,
    workers: int,
) -> Read:
    """Read house, class, saved timetable and log; without a saved timetable one is solved.

    Raises
    ------
    FileProblem
        With every problem of a file in its message.
    NoAnswer
        When no timetable can be made, or the log cannot be used.
    """
    from setday.actions.timetable.problem import class_day
    from setday.actions.timetable.standing import standing
    from setday.errors import FileProblem
    from setday.files import read_log, read_timetable

    opened, written = house_at(house), plan_at(class_file, planning=planning or plan is None)
    read = read_log(bytes_of(log, what="a log"), name=str(log)) if log else None
    if read is not None and read.problems:
        listed = "\n".join(f"  {finding}" for finding in read.problems)
        raise FileProblem(f"The log cannot be used:\n{listed}", where=str(log))
    entries = read.periods if read else ()
    stands = gates_at(gates)
    day = class_day(opened, written, clock=perf_counter, gates=stands)
    if plan is not None:
        saved = read_timetable(bytes_of(plan, what="a saved timetable"), name=str(plan))
        stand = standing(day, saved, entries)
        if stand.since:  # who may do what, and who can be booked, is asked as of the next period
            day = class_day(opened, written, clock=perf_counter, since=stand.since, gates=stands)
            stand = standing(day, saved, entries)
        return Read(opened=opened, day=day, stand=stand)
    from setday.actions.timetable.solving import solve_timetable
    from setday.actions.timetable.standing import saved_of

    with following_dates(limit=time_limit) as follow:
        found = solve_timetable(day, limits=limits_of(time_limit, seed, workers), on_progress=follow)
    return Read(opened=opened, day=day, stand=standing(day, saved_of(found), entries))
