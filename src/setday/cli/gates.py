"""``setday gates``: what must be inside every surface before it is closed."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.app import app
from setday.cli.reading import house_at, write_text
from setday.cli.telling import heading, say, say_json, table

if TYPE_CHECKING:
    from setday.actions.gates.gathering import GateHouse
    from setday.closein import Asked, Item

__all__ = ["gates"]

_CAUTION = "Local code and the inspector decide what may be covered."


@app.command(epilog="Example:  setday gates my-house.yaml --out drawings")
def gates(
    house: Annotated[Path, typer.Argument(help="The house file; - reads standard input.")],
    surface: Annotated[str, typer.Option("--surface", help="One surface only: bath/south.")] = "",
    out: Annotated[
        Path | None, typer.Option("--out", help="Folder for drawings of what is behind each surface.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON document.")] = False,
) -> None:
    """List what every wall and ceiling must hold before it is closed, and the inspections asked for.

    Who checked what off is kept by the site; this lists what is asked for.
    """
    import time

    from setday.actions.gates.gathering import gate_house
    from setday.errors import FileProblem

    place = gate_house(house_at(house), clock=time.monotonic)
    asked = place.asked()
    if surface and surface not in asked.labels:
        raise FileProblem(
            f"The house has no surface {surface!r}.", do=f"Its surfaces are: {', '.join(asked.labels)}."
        )
    wanted = [surface] if surface else list(asked.labels)
    drawings = _draw(place, asked, wanted, out) if out is not None else {}
    if as_json:
        say_json(_document(place, asked, wanted, drawings))
        return
    for each in wanted:
        heading(asked.labels[each])
        table(("trade", "what must be in", "where"), [_row(item) for item in asked.items[each]])
        _tell_behind(asked, each)
        say()
    for inspection in place.inspections:
        say(f"{inspection.label}: before {len(inspection.surfaces)} surfaces; {inspection.source}")
    count = sum(len(asked.items[each]) for each in wanted)
    places = asked.labels[surface] if surface else f"{len(wanted)} surfaces"
    say(f"{count} things asked for at {places}. {_CAUTION}")


def _row(item: "Item") -> tuple[str, str, str]:
    return (item.trade or item.kind.value, item.label, str(item.spot or ""))


def _tell_behind(asked: "Asked", surface: str) -> None:
    behind = asked.behind[surface]
    if behind:
        say(f"In the same wall, of the other side ({', '.join(asked.other_sides[surface])}):")
        table(("trade", "what must be in", "where, seen from there"), [_row(item) for item in behind])


def _draw(place: "GateHouse", asked: "Asked", wanted: list[str], out: Path) -> dict[str, str]:
    """Write a drawing of what is behind each surface, and the plan; return their files by surface."""
    from setday.actions.gates.closing import behind_drawing
    from setday.closein import gates_of
    from setday.drawing import gate_plan

    gates_now = gates_of(asked, ())
    states = {each: gate.state for each, gate in gates_now.by_surface.items()}
    write_text(out / "gates.svg", gate_plan(place.house, states))
    files = {}
    for each in wanted:
        name = "".join(c if c.isalnum() else "-" for c in each.lower())
        path = out / f"behind-{name}.svg"
        write_text(path, behind_drawing(place, gates_now[each]))
        files[each] = str(path)
    return files


def _document(
    place: "GateHouse", asked: "Asked", wanted: list[str], drawings: dict[str, str]
) -> dict[str, object]:
    return {
        "house": place.house.name,
        "surfaces": [
            {
                "surface": each,
                "label": asked.labels[each],
                "other_sides": list(asked.other_sides[each]),
                "items": [_written(item) for item in asked.items[each]],
                "behind": [_written(item) for item in asked.behind[each]],
                **({"drawing": drawings[each]} if each in drawings else {}),
            }
            for each in wanted
        ],
        "inspections": [
            {
                "key": each.key,
                "label": each.label,
                "notice_days": each.notice_days,
                "surfaces": list(each.surfaces),
                "after": list(each.after),
                "source": str(each.source),
            }
            for each in place.inspections
        ],
    }


def _written(item: "Item") -> dict[str, object]:
    spot = item.spot
    return {
        "key": item.key,
        "surface": item.surface,
        "kind": item.kind.value,
        "trade": item.trade,
        "label": item.label,
        "x_in": spot.x.inches if spot else None,
        "y_in": spot.y.inches if spot else None,
    }
