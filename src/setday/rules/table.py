"""Code tables: a CSV of numbers beside a TOML file of sources."""

import csv
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from importlib.resources import files
from io import StringIO

from setday.errors import RuleError
from setday.rules.source import Source

__all__ = ["Table", "load_table", "read_sources"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A code table: rows as text by column name, and the sources its rows cite.

    Each row's column ``source`` names one key of `sources`.
    """

    name: str
    rows: tuple[Mapping[str, str], ...]
    sources: Mapping[str, Source]

    def source_of(self, row: Mapping[str, str]) -> Source:
        """Return the source a row cites."""
        return self.sources[row["source"]]


def load_table(package: str, name: str) -> Table:
    """Read ``<package>/tables/<name>.csv`` and ``<name>.source.toml``.

    Parameters
    ----------
    package : str
        Dotted name of the trade's package, like ``setday.boards``.
    name : str
        Name of the table without ending.

    Raises
    ------
    RuleError
        When the table is missing, or a row cites a source that is not described.
    """
    folder = files(package) / "tables"
    try:
        text = (folder / f"{name}.csv").read_text(encoding="utf-8")
        described = (folder / f"{name}.source.toml").read_text(encoding="utf-8")
    except OSError as error:
        raise RuleError(f"The code table {name!r} of {package} cannot be read.") from error
    sources = read_sources(described)
    rows = tuple(csv.DictReader(StringIO(text)))
    for number, row in enumerate(rows, start=2):
        if row.get("source") not in sources:
            raise RuleError(
                f"Row {number} of {name}.csv cites {row.get('source')!r}, which {name}.source.toml lacks."
            )
    return Table(name=name, rows=rows, sources=sources)


def read_sources(text: str) -> dict[str, Source]:
    """Read the sources of a ``.source.toml``: one table per key."""
    known = {field.name for field in fields(Source)} - {"key"}
    result = {}
    for key, entry in tomllib.loads(text).items():
        if not isinstance(entry, dict):
            continue
        result[key] = Source(key=key, **{name: str(value) for name, value in entry.items() if name in known})
    return result
