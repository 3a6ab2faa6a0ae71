"""``setday timetable ahead``: what has to be ordered, delivered and booked by when."""

from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.boards import Prices
from setday.cli.buying import AtLayout, AtStock, house_material
from setday.cli.reading import write_bytes
from setday.cli.telling import heading, say, say_json, table
from setday.cli.timetable import AsJson, ClassAt, House, Seed, TimeLimit, Workers, timetable, today
from setday.cli.timetable_bells import OnDay, day_of
from setday.cli.timetable_gates import GatesAt
from setday.cli.timetable_reading import LogAt, PlanAt, standing_at

if TYPE_CHECKING:
    from setday.actions.timetable.ahead import AheadItem
    from setday.sheets import Ahead

__all__ = ["ahead"]

_EXAMPLE = "Example:  setday timetable ahead my-house.yaml class.yaml --plan plan.json"
AsPages = Annotated[Path | None, typer.Option("--pdf", help="Write the list and the pictures.")]
Days = Annotated[int, typer.Option("--days", min=1, max=1000, help="How many days to look ahead.")]


@timetable.command(
    "ahead",
    short_help="What to order, book and confirm by when, and how much.",
    epilog="Example:  setday timetable ahead my-house.yaml class.yaml --plan plan.json",
)
def ahead(
    house: House,
    class_file: ClassAt,
    plan: PlanAt = None,
    log: LogAt = None,
    gates: GatesAt = None,
    on: OnDay = None,
    days: Days = 14,
    prices: Prices = None,
    stock: AtStock = None,
    layout: AtLayout = None,
    time_limit: TimeLimit = 15.0,
    seed: Seed = 1,
    workers: Workers = 2,
    pdf: AsPages = None,
    as_json: AsJson = False,
) -> int:
    """List what has to be ordered, delivered and booked in the next two weeks, and what is late.

    How much is that of the wiring, and of the boards where --layout names a kept layout; what --stock
    counts is taken off. Without --plan a timetable is solved first.
    """
    from setday.actions.timetable.ahead import ahead_of, ahead_rows
    from setday.actions.timetable.sheets import ahead_pdf
    from setday.actions.timetable.standing import timetable_at

    read = standing_at(
        house, class_file, plan, log, gates=gates, time_limit=time_limit, seed=seed, workers=workers
    )
    found = timetable_at(read.day, read.stand)
    since = day_of(on, found)
    until = since + timedelta(days=days)
    material = house_material(read.opened, prices=prices, stock=stock, layout=layout)
    looked = ahead_of(found, since=since, until=until, local=read.opened.local, material=material)
    listed = ahead_rows(looked, since=since, until=until)
    if pdf is not None:
        write_bytes(pdf, ahead_pdf(found, listed, dated=today()))
    if as_json:
        items = [_record(item) for item in looked.items]
        say_json({"since": f"{since}", "until": f"{until}", "items": items, "notes": list(looked.notes)})
    else:
        heading(f"Ahead: {since:%A %-d %B %Y} to {until:%A %-d %B %Y}")
        _tell(listed)
    return 0


def _tell(listed: "Ahead") -> None:
    table(("by", "what", "for", "why then"), listed.rows)
    if not listed.rows:
        say("Nothing has to be ordered or booked.")
    if listed.orders:
        heading("What to order")
        table(("order by", "how many", "what", "first needed", "for"), listed.orders, right=(1,))
    for note in listed.notes:
        say(f"* {note}")


def _record(item: "AheadItem") -> dict[str, object]:
    return {
        "goods": item.goods,
        "item": item.item,
        "sold_unit": item.sold,
        "count": item.count if item.sold else None,
        "needed": item.needed.isoformat() if item.needed else None,
        "by": item.by.isoformat(),
        "what": item.what,
        "task": item.task,
        "label": item.label,
        "why": item.why,
    }
