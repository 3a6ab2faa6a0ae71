"""``setday draw``: the plan, every wall and every surface as SVG."""

from pathlib import Path
from typing import Annotated

import typer

from setday.cli.app import app
from setday.cli.reading import house_at, write_bytes, write_text
from setday.cli.telling import say, say_json, table

__all__ = ["draw"]

_EXAMPLE = "Example:  setday draw my-house.yaml --out drawings"


@app.command(epilog=_EXAMPLE)
def draw(
    house: Annotated[Path, typer.Argument(help="The house file; - reads standard input.")],
    out: Annotated[Path, typer.Option("--out", help="Folder for the drawings.")] = Path("drawings"),
    pdf: Annotated[Path | None, typer.Option("--pdf", help="Also write one PDF of letter pages.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON document.")] = False,
) -> None:
    """Draw the plan, every wall from both sides and every surface as seen from inside."""
    from setday.actions.drawings import house_drawings

    built = house_at(house).built()
    rows = []
    for drawing in house_drawings(built):
        path = out / drawing.file
        write_text(path, drawing.svg)
        rows.append((drawing.kind, drawing.about, str(path)))
    if pdf is not None:
        from datetime import datetime

        from setday.actions.sheets import house_sheets

        write_bytes(pdf, house_sheets(built, dated=datetime.now().astimezone().date()))
    if as_json:
        keys = ("kind", "about", "file")
        say_json({"house": built.name, "drawings": [dict(zip(keys, row, strict=True)) for row in rows]})
        return
    table(("kind", "shows", "file"), rows)
    say(f"{len(rows)} drawings in {out}{f', pages in {pdf}' if pdf else ''}.")
