"""``setday cable``: devices proposed and checked, runs routed, the panel, the pull list."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.app import app
from setday.cli.check import tell_aside, tell_findings
from setday.cli.reading import house_at, write_text
from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table

if TYPE_CHECKING:
    from setday.actions.cable.devices import Proposal
    from setday.findings import Finding

__all__ = ["cable", "caution"]

cable = typer.Typer(
    name="cable",
    help="Cable: devices proposed and checked, runs routed, the panel, the pull list.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
app.add_typer(cable)

House = Annotated[Path, typer.Argument(help="The house file; - reads standard input.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document.")]

_CAUTIONS = (
    "Checked as typed, by the edition named in the rules; local code and the licensed electrician decide.",
    "Work dead, locked out and tested; only the instructor energizes; inspected before it is covered.",
)


def caution() -> None:
    """Write the cautions that stand under everything on cable."""
    say()
    for each in _CAUTIONS:
        say(f"* {each}")


@cable.command("propose", epilog="Example:  setday cable propose my-house.yaml --write")
def propose(
    house: House,
    write: Annotated[
        bool, typer.Option("--write", help="Write the devices into the house file, all else as typed.")
    ] = False,
    to: Annotated[
        Path | None, typer.Option("--to", help="Write the house file with its devices under this name.")
    ] = None,
    as_json: AsJson = False,
) -> int:
    """Propose receptacles, lights, switches, alarms and appliances for a house that has none.

    Ends with status 1 when a rule is not met with what was proposed.
    """
    from setday.actions.cable.devices import propose_for, with_proposed
    from setday.cli.cable_documents import proposal_document
    from setday.errors import FileProblem

    opened = house_at(house)
    proposal = propose_for(opened)
    if write and str(house) == "-" and to is None:
        raise FileProblem("Standard input cannot be written to.", do="Name a file with --to.")
    target = to or (house if write else None)
    if target is not None:
        write_text(target, with_proposed(opened, proposal))
    if as_json:
        say_json(proposal_document(proposal))
    else:
        _tell_proposal(proposal, target)
    return _status(proposal.check.findings)


def _tell_proposal(proposal: "Proposal", target: Path | None) -> None:
    heading(f"{proposal.house.name}: {len(proposal.devices)} devices proposed")
    rows = [
        (
            device.room or "outdoors",
            device.name,
            device.typed.what or device.kind.value,
            device.typed.wall or device.typed.mount.value,
            str(device.typed.along) if device.typed.wall else str(device.plan),
            str(device.height),
            ", ".join(device.typed.serves),
        )
        for device in proposal.house.devices
    ]
    table(("room", "device", "what", "on", "along, from the start", "up", "serves"), rows)
    tell_findings(proposal.check.findings)
    if target is not None:
        say(f"{target}: written.")
    caution()


@cable.command("check", epilog="Example:  setday cable check my-house.yaml")
def check(house: House, as_json: AsJson = False) -> int:
    """Check the devices of a house against the spacing rules and the rules on what each room must have.

    Ends with status 1 when a rule is not met.
    """
    from setday.actions.cable.devices import check_open_house
    from setday.cli.cable_documents import check_document

    opened = house_at(house)
    checked, findings = check_open_house(opened)
    if as_json:
        say_json(check_document(opened, checked, findings))
        return _status(findings)
    if opened.house is None:
        tell_aside(opened.problems)
        return CHECK_FAILED
    heading(f"{opened.house.name}: {len(opened.house.devices)} devices checked")
    tell_findings(findings)
    rows = [
        (bare.room, part.surface, str(part.x_from), str(part.x_to), bare.rule)
        for bare in checked.bare
        for part in bare.parts
    ]
    if rows:
        heading("Wall without a receptacle near enough")
        table(("room", "surface", "from its left end", "to", "rule"), rows)
    if not findings:
        say("Every rule that was checked is met." if opened.house.devices else "It has no devices to check.")
    caution()
    return _status(findings)


def _status(findings: "tuple[Finding, ...]") -> int:
    from setday.findings import Severity

    return CHECK_FAILED if any(f.severity is not Severity.NOTE for f in findings) else 0
