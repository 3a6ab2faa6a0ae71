"""``setday check``: everything wrong with a house file, at once."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from setday.cli.app import app
from setday.cli.reading import house_at
from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table

if TYPE_CHECKING:
    from setday.actions import OpenHouse
    from setday.findings import Finding

__all__ = ["check", "findings_document", "tell_aside", "tell_findings"]

_EXAMPLE = "Example:  setday check my-house.yaml"


@app.command(epilog=_EXAMPLE)
def check(
    house: Annotated[Path, typer.Argument(help="The house file; - reads standard input.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON document.")] = False,
) -> int:
    """List everything found in a house file, with its line and what to do.

    Ends with status 1 when there are problems.
    """
    opened = house_at(house)
    if as_json:
        say_json(_document(opened))
    else:
        _tell(opened)
    return CHECK_FAILED if opened.problems else 0


def findings_document(findings: "tuple[Finding, ...]") -> list[dict[str, Any]]:
    """Return findings as plain data, in order."""
    return [
        {
            "severity": f.severity.value,
            "rule": f.rule,
            "file": f.where.file,
            "line": f.where.line,
            "column": f.where.column,
            "about": f.about,
            "found": f.found,
            "expected": f.expected,
            "do": f.do,
            "source": str(f.source) if f.source else "",
        }
        for f in findings
    ]


def tell_findings(findings: "tuple[Finding, ...]") -> None:
    """Write findings for a person, one under the other."""
    for f in findings:
        place = f"line {f.where.line}" if f.where.line else "file"
        say(f"{place}: {f.severity.value}: {f.about}: {f.found}")
        if f.expected:
            say(f"    expected: {f.expected}")
        if f.do:
            say(f"    do: {f.do}")


def tell_aside(findings: "tuple[Finding, ...]") -> None:
    """Write findings on a list beside the answer, to standard error, so that the answer stays alone."""
    for finding in findings:
        sys.stderr.write(f"{finding.severity.value}: {finding}\n")


def _document(opened: "OpenHouse") -> dict[str, Any]:
    house = opened.house
    return {
        "file": opened.name,
        "house": house.name if house else "",
        "problems": len(opened.problems),
        "findings": findings_document(opened.findings),
        "rooms": [
            {"name": r.name, "use": r.use, "area_sqft": round(r.area.sqft, 2), "surfaces": list(r.surfaces)}
            for r in (house.rooms if house else ())
        ],
    }


def _tell(opened: "OpenHouse") -> None:
    tell_findings(opened.findings)
    house = opened.house
    if house is None:
        say(f"{opened.name}: {len(opened.problems)} to put right before the house can be figured.")
        return
    counts = ((len(house.rooms), "room"), (len(house.walls), "wall"), (len(house.surfaces), "surface"))
    counted = ", ".join(f"{count} {word}{'s' if count != 1 else ''}" for count, word in counts)
    heading(f"{house.name}: {counted}")
    rows = [(r.name, r.use, f"{r.area.sqft:,.1f}", len(r.surfaces)) for r in house.rooms]
    table(("room", "use", "floor, ft2", "surfaces"), rows, right=(2, 3))
    say("Nothing stands in the way of figuring it." if not opened.findings else "It can be figured as it is.")
