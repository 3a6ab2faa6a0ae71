"""``setday switching house``: the hookups of a house's switched groups, listed and written as files."""

import sys
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Annotated, Any

import typer

from setday.cli.check import findings_document, tell_findings
from setday.cli.reading import house_at, write_text
from setday.cli.start import CHECK_FAILED
from setday.cli.switching import Json, switching, tell_cautions
from setday.cli.telling import heading, say, say_json, table

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable
    from setday.actions.switching.switch_legs import HouseHookup

__all__ = ["house_hookups"]


@switching.command(
    "house", epilog='Example:  setday switching house my-house.yaml --circuit "general 2" --out wiring/'
)
def house_hookups(
    house: Annotated[Path, typer.Argument(help="The house file; - reads standard input.")],
    circuit: Annotated[str, typer.Option("--circuit", help="Only the groups of this circuit.")] = "",
    group: Annotated[str, typer.Option("--group", help="Only this group, as the list names it.")] = "",
    out: Annotated[
        Path | None, typer.Option("--out", help="Write a hookup file for each group into this folder.")
    ] = None,
    print_it: Annotated[
        bool, typer.Option("--print", help="Print one group's hookup file, for another verb to read.")
    ] = False,
    as_json: Json = False,
) -> int:
    """List the switched groups of a house's circuits, and write them as hookup files.

    Each is planned from the house's switches, lights and boxes. Devices are proposed where the house file
    has none. Ends with status 1 when a group cannot be planned.
    """
    from setday.actions.cable.figured import figure_cable
    from setday.actions.switching.house_hookups import hookup_texts, picked

    wired = figure_cable(house_at(house), clock=perf_counter)
    found = picked(wired.hookups, circuit=circuit, group=group)
    texts = hookup_texts(found)
    if print_it:
        return _print(texts)
    if out is not None:
        for name, text in texts.items():
            write_text(out / name, text)
    if as_json:
        say_json(_document(wired, found, texts, out))
    else:
        _tell(wired, found, texts, out)
    return CHECK_FAILED if wired.unplanned else 0


def _print(texts: dict[str, str]) -> int:
    from setday.errors import SetdayError

    if len(texts) != 1:
        raise SetdayError(
            f"One hookup file can be printed at a time; {len(texts)} were picked.",
            do="Name one with --group, or write all of them into a folder with --out.",
        )
    sys.stdout.write(next(iter(texts.values())))
    return 0


def _tell(
    wired: "HouseCable", found: "tuple[HouseHookup, ...]", texts: dict[str, str], out: Path | None
) -> None:
    heading(f"{wired.figure.house.name}: {len(found)} switched groups")
    if wired.proposed:
        say("The house file names no devices: they are proposed.")
    rows = [
        (
            each.group.circuit,
            each.group.name,
            "; ".join(f"{' + '.join(w.switches)}: {', '.join(w.served)}" for w in each.group.wanted),
            len(each.group.boxes),
            str(out / name) if out else "",
        )
        for each, name in zip(found, texts, strict=True)
    ]
    table(("circuit", "group", "switched by: what", "boxes", "written" if out else ""), rows, right=(3,))
    tell_findings(wired.unplanned)
    tell_cautions()


def _document(
    wired: "HouseCable", found: "tuple[HouseHookup, ...]", texts: dict[str, str], out: Path | None
) -> dict[str, Any]:
    from setday.switching import CAUTIONS

    return {
        "house": wired.figure.house.name,
        "cautions": list(CAUTIONS),
        "proposed": wired.proposed,
        "groups": [
            {
                "circuit": each.group.circuit,
                "group": each.group.name,
                "hookup": each.hookup.name,
                "boxes": list(each.group.boxes),
                "wants": [str(want) for want in each.hookup.wants],
                "works": each.judgment.works,
                "written": str(out / name) if out else "",
            }
            for each, name in zip(found, texts, strict=True)
        ],
        "findings": findings_document(wired.unplanned),
    }
