"""``setday timetable odds``: the chance of making set day."""

import sys
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Annotated, Any

import typer

from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table
from setday.cli.timetable import AsJson, ClassAt, House, Seed, TimeLimit, Workers, caution, timetable
from setday.cli.timetable_gates import GatesAt
from setday.cli.timetable_reading import LogAt, PlanAt, standing_at

if TYPE_CHECKING:
    from setday.actions.timetable.odds import ClassOdds

__all__ = ["odds"]

Simulations = Annotated[
    int, typer.Option("--simulations", min=100, max=1_000_000, help="How many times it is played.")
]

ChanceOnly = Annotated[bool, typer.Option("--chance-only", help="Leave out which tasks carry the finish.")]


@timetable.command(
    "odds",
    short_help="The chance of making set day, and what carries it.",
    epilog="Example:  setday timetable odds my-house.yaml class.yaml --plan plan.json",
)
def odds(
    house: House,
    class_file: ClassAt,
    plan: PlanAt = None,
    log: LogAt = None,
    gates: GatesAt = None,
    simulations: Simulations = 20_000,
    time_limit: TimeLimit = 15.0,
    seed: Seed = 1,
    workers: Workers = 2,
    svg: Annotated[Path | None, typer.Option("--svg", help="Also write the picture of the spread.")] = None,
    chance_only: ChanceOnly = False,
    as_json: AsJson = False,
) -> int:
    """Play a timetable thousands of times with doubtful durations, absences, weather and late material.

    Without --plan one is solved first. Ends with status 1 when set day is made in fewer than half.
    """
    from setday.actions.timetable.odds import class_odds

    read = standing_at(
        house, class_file, plan, log, gates=gates, time_limit=time_limit, seed=seed, workers=workers
    )
    found = class_odds(
        read.day,
        read.stand,
        rows=read.stand.rows,
        local=read.opened.local,
        clock=perf_counter,
        simulations=simulations,
        seed=seed,
        workers=workers,
        carried=not chance_only,
        on_progress=_follow(simulations),
    )
    if svg is not None:
        from setday.actions.timetable.pictures import odds_picture
        from setday.cli.reading import write_text

        write_text(svg, odds_picture(found))
    if as_json:
        say_json(odds_document(found))
    else:
        _tell(found)
    return 0 if found.odds.chance >= 0.5 else CHECK_FAILED


def _follow(simulations: int) -> Any:
    """Show how the simulations get on, on a terminal only."""

    def follow(done: int, chance: float) -> None:
        end = "\n" if done >= simulations else "\r"
        sys.stderr.write(f"{done:,} of {simulations:,} played, {chance:.1%} make set day{end}")

    return follow if sys.stderr.isatty() else None


def odds_document(found: "ClassOdds") -> dict[str, Any]:
    """Return the odds as plain data."""
    low, high = found.odds.between
    ready = {f"ready_{share:.0%}".replace("%", "_percent"): found.ready(share) for share in (0.5, 0.8, 0.95)}
    planned = found.as_planned
    return {
        "house": found.day.work.house,
        "set_day": found.day.plan.calendar.set_day.isoformat(),
        "simulations": found.odds.simulations,
        "chance": round(found.odds.chance, 4),
        "chance_between": [round(low, 4), round(high, 4)],
        "as_planned": planned.isoformat() if planned else None,
        **{key: day.isoformat() if day else None for key, day in ready.items()},
        "spread": [
            {
                "finish_periods": finish + found.since,
                "date": day.isoformat() if (day := found.day.ready_on(finish + found.since)) else None,
                "simulations": many,
            }
            for finish, many in found.odds.counts
        ],
        "carriers": [
            {
                "task": each.task,
                "label": found.day.works[each.task].label,
                "carries": round(each.carries, 4),
                "gain_student_minutes": each.gain,
                "periods_earlier": round(each.periods, 3),
                "periods_error": round(each.periods_error, 3),
                "chance_gained": round(each.chance, 4),
                "chance_error": round(each.chance_error, 4),
            }
            for each in found.carriers
        ],
        "absent_share": round(found.chances.absent, 4),
        "seconds": round(found.seconds, 2),
    }


def _tell(found: "ClassOdds") -> None:
    day = found.day
    heading(f"Odds: {day.work.house}, set day {day.plan.calendar.set_day:%a %-d %B %Y}")
    low, high = found.odds.between
    say(
        f"{found.odds.chance:.0%} of {found.odds.simulations:,} plays are ready before set day "
        f"(between {low:.1%} and {high:.1%} by the number of plays alone)."
    )
    for share in (0.5, 0.8, 0.95):
        ready = found.ready(share)
        say(f"{share:.0%} are ready by {f'{ready:%A %-d %B %Y}' if ready else 'a day after the calendar'}.")
    if found.carriers:
        _tell_carriers(found)
    say(
        "Tasks are played in the order of the timetable with whoever is there; nothing is planned anew on "
        "the way, as an instructor would: the true odds are rather better."
    )
    say(f"Taken for granted: {found.chances.absent:.0%} of places empty; more stands in docs/timetable.md.")
    caution()


def _tell_carriers(found: "ClassOdds") -> None:
    heading("What one period gained on a task would be worth")
    day = found.day
    rows = [
        (
            day.works[each.task].label,
            f"{each.carries:.0%}",
            f"{each.periods:+.2f}",
            f"{each.chance:+.1%}",
        )
        for each in found.carriers[:10]
    ]
    table(("task", "carries the finish", "periods earlier", "chance gained"), rows, right=(1, 2, 3))
