"""``setday timetable explain``: what stands in the way of a day, and what would help."""

import sys
from datetime import date
from typing import TYPE_CHECKING, Annotated, Any

import typer

from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table
from setday.cli.timetable import AsJson, ClassAt, House, Seed, Workers, caution, limits_of, timetable
from setday.cli.timetable_bells import day_from
from setday.cli.timetable_gates import GatesAt
from setday.cli.timetable_reading import LogAt, PlanAt, standing_at

if TYPE_CHECKING:
    from setday.actions.timetable.explain import Explained

__all__ = ["explain"]

_FIRST = 0.25
"""Share of the time in which a timetable is solved where none was named."""
_SHOWN = 8
"""So many helps are shown; the most helpful come first."""
ByDay = Annotated[str | None, typer.Option("--by", help="Ask about another day than set day: 2027-05-01.")]
Time = Annotated[float, typer.Option("--time-limit", min=1, max=86400, help="Seconds for everything.")]


@timetable.command(
    "explain",
    short_help="Why a day cannot be made, and what would help.",
    epilog="Example:  setday timetable explain my-house.yaml class.yaml --by 2027-05-01",
)
def explain(
    house: House,
    class_file: ClassAt,
    plan: PlanAt = None,
    log: LogAt = None,
    gates: GatesAt = None,
    by: ByDay = None,
    time_limit: Time = 60.0,
    seed: Seed = 1,
    workers: Workers = 2,
    as_json: AsJson = False,
) -> int:
    """Say which demands clash with set day, as few as prove it, and try what would help most.

    Ends with status 1 when it is proven that the day cannot be made.
    """
    from setday.actions.timetable.explain import explain_timetable

    asked = day_from(by, option="--by") if by is not None else None
    read = standing_at(
        house,
        class_file,
        plan,
        log,
        gates=gates,
        planning=True,
        time_limit=_FIRST * time_limit,
        seed=seed,
        workers=workers,
    )
    found = explain_timetable(
        read.day,
        read.stand,
        local=read.opened.local,
        limits=limits_of(time_limit, seed, workers),
        by=asked,
        on_progress=_follow(),
    )
    if as_json:
        say_json(explained_document(found))
    else:
        _tell(found)
    return CHECK_FAILED if found.clash.proven else 0


def _follow() -> Any:
    def follow(done: int, many: int) -> None:
        sys.stderr.write(f"{done} of {many} helps tried{chr(10) if done == many else chr(13)}")

    return follow if sys.stderr.isatty() else None


def explained_document(found: "Explained") -> dict[str, Any]:
    """Return what stands in the way and what would help, as plain data."""
    return {
        "house": found.day.work.house,
        "by": found.by.isoformat(),
        "cannot_be": found.clash.proven,
        "said": found.clash.said,
        "smallest": found.clash.smallest,
        "demands": [{"kind": each.kind.value, "about": each.about} for each in found.clash.demands],
        "tasks": list(found.clash.tasks),
        "helps": [
            {
                "help": each.label,
                "ready": _iso(found.ready(each.finish)),
                "ready_without": _iso(found.ready(each.finish_without)),
                "periods_earlier": round(each.periods, 2),
                "chance": round(each.chance, 3),
                "chance_without": round(each.chance_without, 3),
            }
            for each in found.helps
        ],
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _tell(found: "Explained") -> None:
    heading(f"{found.day.work.house}: all done before {found.by:%A %-d %B %Y}?")
    say(found.clash.said)
    if found.clash.proven and not found.clash.smallest:
        say("Time ran out before every demand was tried; fewer may do.")
    rows = [
        (
            each.label,
            f"{day:%a %d %b}" if (day := found.ready(each.finish)) else "after the calendar",
            f"{each.periods:+.1f}",
            f"{each.chance:.0%}",
            f"{each.chance - each.chance_without:+.0%}",
        )
        for each in found.helps[:_SHOWN]
    ]
    if rows:
        heading("What would help")
        table(("help", "ready at best", "periods earlier", "chance", "gained"), rows, right=(2, 3, 4))
        without = found.ready(found.helps[0].finish_without)
        best = f"{without:%A %-d %B %Y}" if without else "after the calendar"
        say(f"Without any: ready at best {best}, chance {found.helps[0].chance_without:.0%}.")
    caution()
