"""``setday timetable bells``: who does what on one day, a page a crew."""

from dataclasses import asdict
from datetime import date
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Annotated, Any

import typer

from setday.cli.boards import Prices, prices_at
from setday.cli.buying import kept_layout
from setday.cli.reading import write_bytes
from setday.cli.telling import heading, say, say_json, table
from setday.cli.timetable import AsJson, ClassAt, House, Seed, TimeLimit, Workers, caution, timetable, today
from setday.cli.timetable_gates import GatesAt
from setday.cli.timetable_reading import LogAt, PlanAt, Read, standing_at
from setday.errors import SetdayError

if TYPE_CHECKING:
    from setday.actions.bells.pictures import Pictures
    from setday.actions.timetable.problem import ClassDay
    from setday.actions.timetable.solving import Timetable
    from setday.sheets import BellPeriod

__all__ = ["OnDay", "bells", "day_from", "day_of"]

_EXAMPLE = "Example:  setday timetable bells my-house.yaml class.yaml --plan plan.json --pdf bells.pdf"
OnDay = Annotated[str | None, typer.Option("--on", help="The day, like 2027-02-09; the next one without it.")]
AsPages = Annotated[Path | None, typer.Option("--pdf", help="Write the pages of crews, wall, instructor.")]
OfBoards = Annotated[
    Path | None, typer.Option("--layout", help="Draw the boards of a layout kept with: setday boards --keep.")
]
OfClass = Annotated[str, typer.Option("--class", help="One class only, by its key.")]


@timetable.command(
    "bells",
    short_help="Who does what on one day: a page a crew.",
    epilog="Example:  setday timetable bells HOUSE CLASS --plan plan.json --pdf b.pdf",
)
def bells(
    house: House,
    class_file: ClassAt,
    plan: PlanAt = None,
    log: LogAt = None,
    gates: GatesAt = None,
    on: OnDay = None,
    school_class: OfClass = "",
    layout: OfBoards = None,
    prices: Prices = None,
    time_limit: TimeLimit = 15.0,
    seed: Seed = 1,
    workers: Workers = 2,
    pdf: AsPages = None,
    as_json: AsJson = False,
) -> int:
    """Tell every crew of one day where, what, how much, with what, how, who signs, and what next.

    Without --plan a timetable is solved first. With --layout those who hang boards see every piece.
    """
    from setday.actions.bells.sheets import bell_periods, bells_pdf
    from setday.actions.timetable.standing import timetable_at

    read = standing_at(
        house, class_file, plan, log, gates=gates, time_limit=time_limit, seed=seed, workers=workers
    )
    found = timetable_at(read.day, read.stand)
    day = day_of(on, found)
    _there(school_class, read.day)
    pictures = _pictures(read, layout=layout, prices=prices)
    periods = bell_periods(found, day, pictures=pictures, school_class=school_class)
    if not periods:
        raise SetdayError(
            f"Nothing is planned on {day:%A %-d %B %Y}.",
            do="No class meets then, or all work is done; see setday timetable solve.",
        )
    if pdf is not None:
        write_bytes(pdf, bells_pdf(found, periods, dated=today()))
    if as_json:
        say_json(bells_document(periods, day))
    else:
        _tell(periods)
    return 0


def _there(school_class: str, day: "ClassDay") -> None:
    """Refuse a class that the class file does not have."""
    known = [group.key for group in day.plan.classes]
    if school_class and school_class not in known:
        keys = ", ".join(known)
        raise SetdayError(f"There is no class '{school_class}'.", do=f"The classes are: {keys}.")


def _pictures(read: Read, *, layout: Path | None, prices: Path | None) -> "Pictures":
    """Return who draws the places, with the boards of a kept layout."""
    from setday.actions.bells.pictures import Pictures
    from setday.boards import Limits

    limits = Limits(seconds=1.0, clock=perf_counter)
    kept = kept_layout(layout, read.opened, prices_at(prices), limits) if layout else None
    return Pictures(read.opened, zones=read.day.work.zones, clock=perf_counter, boards=kept)


def day_of(on: str | None, found: "Timetable") -> date:
    """Return the day asked for, or that of the next period.

    Raises
    ------
    SetdayError
        For what is no day.
    """
    if on is None:
        meetings = found.day.meetings
        return meetings[min(found.since, len(meetings) - 1)].date
    return day_from(on, option="--on")


def day_from(text: str, *, option: str) -> date:
    """Read a day that was asked for.

    Raises
    ------
    SetdayError
        For what is no day.
    """
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise SetdayError(f"{option} {text!r} is not a day.", do="Write it like 2027-02-09.") from error


def bells_document(periods: "tuple[BellPeriod, ...]", day: date) -> dict[str, Any]:
    """Return bell sheets as plain data, drawings left out."""
    listed = []
    for period in periods:
        record = asdict(period)
        for crew in record["crews"]:
            del crew["pictures"], crew["more_pictures"]
        listed.append(record)
    return {"date": day.isoformat(), "periods": listed}


def _tell(periods: "tuple[BellPeriod, ...]") -> None:
    for period in periods:
        heading(f"{period.title}, {period.minutes} minutes")
        rows = [
            (
                crew.number,
                crew.what,
                crew.where,
                crew.how_much,
                ", ".join(crew.members),
                f"{crew.attention}/10",
            )
            for crew in period.crews
        ]
        table(("crew", "what", "where", "how much", "who", "eyes"), rows, right=(0, 5))
        for words, names in (("Away", period.absent), ("Guests", period.guests), ("No task", period.without)):
            if names:
                say(f"{words}: {', '.join(names)}.")
        for crew in period.crews:
            say(f"Crew {crew.number}, done early: {crew.early}")
    caution()
