"""``setday timetable repair``: after a period was logged, the rest planned anew with few changes."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from setday.cli.reading import write_bytes, write_text
from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table
from setday.cli.timetable import (
    AsJson,
    ClassAt,
    House,
    KeepAt,
    PdfAt,
    Seed,
    TimeLimit,
    Workers,
    caution,
    kept_text,
    limits_of,
    timetable,
    today,
)
from setday.cli.timetable_gates import GatesAt, tell_gates
from setday.cli.timetable_progress import following_dates
from setday.cli.timetable_reading import LogAt, PlanAt, standing_at
from setday.errors import SetdayError

if TYPE_CHECKING:
    from setday.actions import OpenHouse
    from setday.actions.timetable.repair import Repaired
    from setday.actions.timetable.solving import Timetable

__all__ = ["repair"]

_EXAMPLE = "Example:  setday timetable repair my-house.yaml class.yaml --plan plan.json --log log.yaml"
_SHOWN = 15
"""So many moves are shown; the near ones come first."""
Pins = Annotated[
    list[str] | None,
    typer.Option("--pin", help="Hold a task on a day: 'shingles on 2027-02-08 with Ana, Ben'. Repeatable."),
]
AtOnce = Annotated[bool, typer.Option("--at-once", help="Repair without a search.")]


@timetable.command(
    "repair", short_help="Plan the rest anew after a period, with few changes.", epilog=_EXAMPLE
)
def repair(
    house: House,
    class_file: ClassAt,
    plan: PlanAt = None,
    log: LogAt = None,
    gates: GatesAt = None,
    pin: Pins = None,
    at_once: AtOnce = False,
    time_limit: TimeLimit = 12.0,
    seed: Seed = 1,
    workers: Workers = 2,
    keep: KeepAt = None,
    pdf: PdfAt = None,
    as_json: AsJson = False,
) -> int:
    """Keep what is done, go on with what runs, and plan the rest anew near the old timetable.

    To undo a repair, go back to the file it was made from. Ends with status 1 when set day is not made.
    """
    from setday.actions.timetable.document import timetable_document
    from setday.actions.timetable.repair import pin_from, repair_timetable

    if plan is None:
        raise SetdayError(
            "A repair needs the timetable that was planned.", do="Name it with --plan; see solve --keep."
        )
    how = {"seed": seed, "workers": workers}
    read = standing_at(house, class_file, plan, log, gates=gates, planning=True, time_limit=time_limit, **how)
    pins = tuple(each for text in pin or () for each in pin_from(text, read.day))
    limits = None if at_once else limits_of(time_limit, seed, workers)
    with following_dates(limit=time_limit) as follow:
        found = repair_timetable(read.day, read.stand, limits=limits, pins=pins, on_progress=follow)
    _write(found.timetable, keep=keep, pdf=pdf)
    if as_json:
        say_json({"repair": repair_record(found), "timetable": timetable_document(found.timetable)})
    else:
        _tell(found, read.opened)
    return 0 if found.timetable.in_time and not found.timetable.undone else CHECK_FAILED


def _write(found: "Timetable", *, keep: Path | None, pdf: Path | None) -> None:
    if keep is not None:
        write_text(keep, kept_text(found))
    if pdf is not None:
        from setday.actions.timetable.sheets import timetable_pdf

        write_bytes(pdf, timetable_pdf(found, dated=today()))


def repair_record(found: "Repaired") -> dict[str, Any]:
    """Return what a repair changed, as plain data."""
    day = found.timetable.day
    before = found.ready_before

    def on(period: int | None) -> str | None:
        date = day.date_of(period) if period is not None else None
        return date.isoformat() if date else None

    return {
        "said": list(found.said),
        "ready_before": before.isoformat() if before else None,
        "tasks_waiting": found.tasks,
        "places_changed": found.places_changed,
        "places": found.places,
        "moves": [
            {"task": m.task, "label": m.label, "was": on(m.was), "now": on(m.now), "reason": m.reason}
            for m in found.moves
        ],
    }


def _tell(found: "Repaired", opened: "OpenHouse") -> None:
    day = found.timetable.day
    heading(f"Repaired: {day.work.house}, set day {day.plan.calendar.set_day:%a %-d %B %Y}")
    for line in found.said:
        say(line)

    def on(period: int | None) -> str:
        date = day.date_of(period) if period is not None else None
        return f"{date:%a %d %b}" if date else "-"

    if found.moves:
        rows = [(move.label, on(move.was), on(move.now), move.reason) for move in found.moves[:_SHOWN]]
        table(("task", "was to begin", "begins", "why"), rows)
    if len(found.moves) > _SHOWN:
        say(f"{len(found.moves) - _SHOWN} more move; --json lists them all.")
    tell_gates(found.timetable, opened)
    ready = found.timetable.ready
    say(f"All is done on {ready:%A %-d %B %Y}." if ready else "Not all is done within the calendar.")
    for said in found.timetable.to_book:
        say(f"To do: {said}.")
    for said in found.timetable.undone:
        say(f"Not kept: {said}.")
    caution()
