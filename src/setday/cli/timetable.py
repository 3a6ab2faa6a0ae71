"""``setday timetable``: who does what in every period until set day."""

from datetime import datetime
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.app import app
from setday.cli.check import tell_findings
from setday.cli.reading import bytes_of, house_at, write_bytes, write_text
from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table
from setday.cli.timetable_gates import GatesAt, gates_at, tell_gates
from setday.cli.timetable_progress import following_dates

if TYPE_CHECKING:
    from datetime import date

    from setday.actions import OpenHouse
    from setday.actions.timetable.solving import Timetable
    from setday.roster import ClassPlan
    from setday.solving import Limits

__all__ = ["AsJson", "ClassAt", "House", "caution", "limits_of", "plan_at", "timetable", "today"]

timetable = typer.Typer(
    name="timetable",
    help="The timetable: who does what in every period until set day.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
app.add_typer(timetable)

House = Annotated[Path, typer.Argument(help="The house file; - reads standard input.")]
ClassAt = Annotated[Path, typer.Argument(help="The class file: classes, students, calendar, tasks, rates.")]
TimeLimit = Annotated[float, typer.Option("--time-limit", min=0.1, max=86400, help="Seconds to search.")]
Seed = Annotated[
    int, typer.Option("--seed", min=0, help="The same seed and one worker give the same timetable.")
]
Workers = Annotated[int, typer.Option("--workers", min=1, max=64, help="Threads.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document.")]
KeepAt = Annotated[
    Path | None, typer.Option("--keep", help="Keep the timetable in this file, for repair, odds and bells.")
]

PdfAt = Annotated[Path | None, typer.Option("--pdf", help="Also write pictures and lists as sheets.")]

_ENDED = {
    "optimal": "no earlier finish is possible",
    "feasible": "stopped by the time limit",
    "stopped": "stopped by hand",
}
_CAUTION = (
    "Rates are for planning, never for hurrying people. Sign-offs and limits for minors were kept as the "
    "class file states them; state and district rules may be stricter, and the instructor decides."
)


def caution() -> None:
    """Write what stands under every timetable."""
    say()
    say(f"* {_CAUTION}")


def today() -> "date":
    """Return the day on this machine."""
    return datetime.now().astimezone().date()


def plan_at(path: Path, *, planning: bool = False) -> "ClassPlan":
    """Read the class file; what is doubtful goes to standard error.

    Where something is to be planned, set day must lie after today.

    Raises
    ------
    FileProblem
        With every problem of the file in its message.
    """
    from setday.actions.classes import usable_plan
    from setday.cli.check import tell_aside

    day = today() if planning else None
    plan, read = usable_plan(bytes_of(path, what="a class file"), name=str(path), today=day)
    tell_aside(read.findings)
    return plan


def limits_of(seconds: float, seed: int, workers: int) -> "Limits":
    """Return the limits of a search."""
    from setday.solving import Limits

    return Limits(seconds=seconds, clock=perf_counter, seed=seed, workers=workers)


@timetable.command(
    "solve",
    short_help="Put every task into periods, and prove how early it could end.",
    epilog="Example:  setday timetable solve my-house.yaml class.yaml --keep plan.json",
)
def solve(
    house: House,
    class_file: ClassAt,
    time_limit: TimeLimit = 30.0,
    seed: Seed = 1,
    workers: Workers = 2,
    gates: GatesAt = None,
    keep: KeepAt = None,
    pdf: PdfAt = None,
    as_json: AsJson = False,
) -> int:
    """Put every task of the house into the periods of its classes, and prove how early it could end.

    Ctrl-C stops the search and keeps the best timetable. Ends with status 1 when set day is not made.
    """
    from setday.actions.timetable.document import timetable_document
    from setday.actions.timetable.problem import class_day
    from setday.actions.timetable.solving import solve_timetable

    opened = house_at(house)
    day = class_day(opened, plan_at(class_file, planning=True), clock=perf_counter, gates=gates_at(gates))
    with following_dates(limit=time_limit) as follow:
        found = solve_timetable(day, limits=limits_of(time_limit, seed, workers), on_progress=follow)
    if keep is not None:
        write_text(keep, kept_text(found))
    if pdf is not None:
        from setday.actions.timetable.sheets import timetable_pdf

        write_bytes(pdf, timetable_pdf(found, dated=today()))
    if as_json:
        say_json(timetable_document(found))
    else:
        tell_timetable(found, opened)
    return 0 if found.in_time and not found.undone else CHECK_FAILED


def kept_text(found: "Timetable") -> str:
    """Return the text of a saved timetable."""
    import json

    from setday.actions.timetable.document import timetable_document

    return json.dumps(timetable_document(found), ensure_ascii=False, indent=1) + "\n"


def tell_timetable(found: "Timetable", opened: "OpenHouse") -> None:
    """Write a timetable for a person: when it is ready, what is proven, every task, what gates hold."""
    from setday.actions.timetable.solving import spans

    day = found.day
    heading(f"Timetable: {day.work.house}, set day {day.plan.calendar.set_day:%a %-d %B %Y}")
    tell_findings(day.findings)
    rows = []
    for work, periods in spans(found):
        first, last = (day.date_of(periods[0]), day.date_of(periods[-1])) if periods else (None, None)
        rows.append(
            (
                work.label,
                work.place,
                f"{first:%a %d %b}" if first else "done" if work.done >= 1 else "not planned",
                f"{last:%a %d %b}" if last else "-",
                len(periods),
                f"{work.left / 60:,.1f}",
            )
        )
    table(("task", "place", "begins", "ends", "periods", "student-hours"), rows, right=(4, 5))
    tell_gates(found, opened)
    _tell_end(found)
    caution()


def _tell_end(found: "Timetable") -> None:
    day = found.day
    if found.ready is None:
        say(f"Not all is done within the calendar: {'; '.join(found.undone) or 'it is too short'}.")
    else:
        margin = found.margin_days or 0
        when = f"{margin} days before set day" if margin > 0 else f"{-margin} days after set day: too late"
        say(f"All is done on {found.ready:%A %-d %B %Y}, {when}.")
        for said in found.undone:
            say(f"Not kept: {said}.")
    for said in found.to_book:
        say(f"To do: {said}.")
    earliest = day.ready_on(found.bound)
    said = f"{earliest:%A %-d %B %Y}" if earliest else "the end of the calendar"
    say(
        f"Proven: never before {said}; {found.finish} periods here, at least {found.bound}, "
        f"{found.plain} by a plain list ({_ENDED.get(found.status, found.status)}, {found.seconds:.1f} s)."
    )
    idle = f"{found.idle} times somebody present has no task." if found.idle else "Nobody present is idle."
    aims = found.tally
    say(
        f"{idle} Hours wanted and not reached: {aims.short / 60:,.0f} of all students together; "
        f"{aims.leaves} changes of crew within a task; {aims.alone} crews with nobody who knows the trade."
    )
