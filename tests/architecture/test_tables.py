"""Every table of numbers says where each of its rows comes from, and in which unit each number is."""

import csv
import re
import tomllib
from pathlib import Path

import pytest

from tests.architecture.source import SRC

TABLES = tuple(sorted(SRC.glob("**/tables/*.csv")))
SOURCES = tuple(sorted(SRC.glob("**/tables/*.source.toml")))
CERTAINTIES = {"published", "from memory", "common practice, no source", "local"}
UNIT = re.compile(
    r"(_|^)(in|in2|in3|in4|in64|ft|sqft|sqin|cuft|mm|cm|m|lb|lbs|psf|psi|pcf|plf|ksi|oz|gal|gpm|fps|a|v|w|va|ohm|hz|awg"
    r"|kcmil|f|deg|hours?|hr|min|minutes?|days?|weeks?|years?|s|per_\w+|percent|pct|factor|ratio|count|number|no|id"
    r"|year|edition|row|page|key|units?|price|cost|dollars?)$"
)


def named(path: Path) -> str:
    """Return a table's path below the package."""
    return path.relative_to(SRC).as_posix()


def rows_of(table: Path) -> list[dict[str, str]]:
    """Return the rows of a table."""
    with table.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("table", TABLES, ids=named)
def test_a_table_has_its_sources_beside_it(table):
    assert table.with_name(table.stem + ".source.toml").exists()


@pytest.mark.parametrize("source", SOURCES, ids=named)
def test_sources_have_their_table_beside_them(source):
    assert source.with_name(source.name.replace(".source.toml", ".csv")).exists()


@pytest.mark.parametrize("table", TABLES, ids=named)
def test_every_row_cites_a_described_source(table):
    described = tomllib.loads(table.with_name(table.stem + ".source.toml").read_text(encoding="utf-8"))
    assert [row for row in rows_of(table) if row.get("source") not in described] == []


@pytest.mark.parametrize("table", TABLES, ids=named)
def test_every_described_source_is_cited(table):
    described = tomllib.loads(table.with_name(table.stem + ".source.toml").read_text(encoding="utf-8"))
    cited = {row.get("source") for row in rows_of(table)}
    assert {key for key, entry in described.items() if isinstance(entry, dict)} - cited == set()


@pytest.mark.parametrize("source", SOURCES, ids=named)
def test_a_source_can_be_looked_up(source):
    lacking = []
    for key, entry in tomllib.loads(source.read_text(encoding="utf-8")).items():
        if not isinstance(entry, dict):
            continue
        certainty = entry.get("certainty", "published")
        if certainty not in CERTAINTIES:
            lacking.append(f"{key}: certainty {certainty!r} is none of {sorted(CERTAINTIES)}")
        needed = ("title", "publisher", "edition", "section") if certainty == "published" else ("title",)
        lacking += [f"{key}: no {field}" for field in needed if not str(entry.get(field, "")).strip()]
    assert lacking == [], "where the copy that was read does not show one, say so in its place"


@pytest.mark.parametrize("table", TABLES, ids=named)
def test_every_column_of_numbers_names_its_unit(table):
    rows = rows_of(table)
    columns = [] if "unit" in rows[0] else list(rows[0])
    bare = [name for name in columns if not UNIT.search(name) and all(_is_number(row[name]) for row in rows)]
    assert bare == [], "end the column's name with its unit, or give the table a column `unit`"


@pytest.mark.parametrize("table", TABLES, ids=named)
def test_no_row_is_ragged(table):
    assert [row for row in rows_of(table) if None in row or None in row.values()] == []


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
