"""Saying results: one JSON document, a table on a terminal, plain text in a pipe."""

import json
import sys
from collections.abc import Iterable, Sequence
from typing import Any

__all__ = ["heading", "is_terminal", "say", "say_json", "table"]


def is_terminal() -> bool:
    """Tell whether a person is looking, and not a pipe or a file."""
    return sys.stdout.isatty()


def say(line: str = "") -> None:
    """Write one line to standard output."""
    sys.stdout.write(line + "\n")


def say_json(document: dict[str, Any]) -> None:
    """Write one JSON document and nothing else."""
    json.dump(document, sys.stdout, ensure_ascii=False, indent=2)
    sys.stdout.write("\n")


def heading(text: str) -> None:
    """Write a heading."""
    if is_terminal():
        from rich.console import Console
        from rich.text import Text

        Console().print(Text(text, style="bold"))
    else:
        say(text)


def table(columns: Sequence[str], rows: Iterable[Sequence[object]], *, right: Sequence[int] = ()) -> None:
    """Write a table: ruled on a terminal, columns apart by two spaces in a pipe.

    Parameters
    ----------
    columns : sequence of str
    rows : iterable of sequences
    right : sequence of int
        Columns set flush right, counted from 0.
    """
    cells = [[str(cell) for cell in row] for row in rows]
    if is_terminal():
        _ruled(columns, cells, right)
        return
    widths = [max([len(head), *(len(row[n]) for row in cells)]) for n, head in enumerate(columns)]
    for row in [list(columns), *cells]:
        padded = [
            c.rjust(w) if n in right else c.ljust(w) for n, (c, w) in enumerate(zip(row, widths, strict=True))
        ]
        say("  ".join(padded).rstrip())


def _ruled(columns: Sequence[str], cells: list[list[str]], right: Sequence[int]) -> None:
    from rich import box
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    shown = Table(box=box.SIMPLE_HEAD, header_style="bold", pad_edge=False)
    for n, head in enumerate(columns):
        shown.add_column(head, justify="right" if n in right else "left", overflow="fold")
    for row in cells:
        shown.add_row(*(Text(cell) for cell in row))
    Console().print(shown)
