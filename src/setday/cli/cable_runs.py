"""``setday cable route``, ``panel`` and ``pulls``: runs through the framing, breakers, and what to cut."""

from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.boards import Prices, prices_at
from setday.cli.cable import AsJson, House, cable, caution
from setday.cli.check import tell_findings
from setday.cli.reading import bytes_of, house_at, write_text
from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable
    from setday.findings import Finding
    from setday.materials import CoilPlans
    from setday.switching import Hookup
    from setday.working import Working

__all__ = ["panel", "pulls", "route"]

ByHand = Annotated[
    list[Path] | None,
    typer.Option("--hookup", help="A hookup file of a switched group, wired by hand; may be given again."),
]
Workings = Annotated[bool, typer.Option("--working", help="Also show the working of every figure.")]


def _figured(house: Path, by_hand: list[Path] | None) -> "HouseCable":
    from setday.actions.cable.figured import figure_cable

    hookups = tuple(_hookup(path) for path in by_hand or ())
    return figure_cable(house_at(house), clock=perf_counter, by_hand=hookups)


def _hookup(path: Path) -> "Hookup":
    from setday.actions.switching.hookups import open_hookup

    return open_hookup(bytes_of(path, what="a hookup file"), name=str(path)).sound()


@cable.command("route", epilog="Example:  setday cable route my-house.yaml --hookups wiring/")
def route(
    house: House,
    by_hand: ByHand = None,
    hookups: Annotated[
        Path | None,
        typer.Option("--hookups", help="Write the hookup of every switched group into this folder."),
    ] = None,
    as_json: AsJson = False,
) -> int:
    """Route every run through the framing: order of boxes, switch legs, holes, plates, lengths.

    Devices are proposed where the house file has none. Ends with status 1 when something has no way or a
    rule is not met.
    """
    from setday.cli.cable_documents import route_document

    wired = _figured(house, by_hand)
    if hookups is not None:
        _write_hookups(wired, hookups)
    if as_json:
        say_json(route_document(wired))
        return _status(wired.figure.findings)
    _tell_routes(wired)
    tell_findings(wired.figure.findings)
    caution()
    return _status(wired.figure.findings)


def _tell_routes(wired: "HouseCable") -> None:
    figure = wired.figure
    heading(f"{figure.house.name}: {len(figure.routing.runs)} runs, {figure.routing.cut} of cable")
    rows = [
        (
            run.number,
            run.circuit,
            run.cable.kind,
            run.cable.start,
            run.cable.end,
            run.cut,
            run.staples,
            run.bored,
        )
        for run in figure.routing.runs
    ]
    table(("run", "circuit", "cable", "from", "to", "cut", "staples", "bored"), rows, right=(5, 6, 7))
    for name, order in figure.orders.items():
        proven = "no order is shorter" if order.proven else f"no order is under {order.bound}"
        say(f"{name}: {order.length} from box to box, {proven} ({order.method}).")
    _tell_switched(wired)
    holes, plates = figure.routing.holes, figure.routing.plates
    say(f"{len(holes)} holes; {len(plates) + sum(hole.plated for hole in holes)} steel plates.")


def _tell_switched(wired: "HouseCable") -> None:
    heading("Switched together")
    rows = [
        (
            each.group.name,
            each.hookup.feed.box,
            ", ".join(f"{leg.kind} {leg.start} to {leg.end}" for leg in each.legs),
            f"{each.plan.conductor_feet:.1f}" if each.plan else "by hand",
            f"{each.plan.bound_feet:.1f}" if each.plan else "",
            "works" if each.judgment.works else "does not work",
        )
        for each in wired.hookups
    ]
    table(("first", "supply at", "cables", "conductor-feet", "none less than", "tried"), rows, right=(3, 4))
    for scope in dict.fromkeys(each.plan.scope for each in wired.hookups if each.plan):
        say(scope)


def _write_hookups(wired: "HouseCable", folder: Path) -> None:
    from setday.actions.switching.house_hookups import hookup_texts

    for name, text in hookup_texts(wired.hookups).items():
        write_text(folder / name, text)


@cable.command("panel", epilog="Example:  setday cable panel my-house.yaml --working")
def panel(house: House, working: Workings = False, as_json: AsJson = False) -> int:
    """List the circuits, the breakers with their spaces, the load and the service.

    Ends with status 1 when a rule is not met.
    """
    from setday.cli.panel_document import panel_document

    wired = _figured(house, None)
    if as_json:
        say_json(panel_document(wired))
        return _status(wired.figure.findings)
    figure, worked = wired.figure, wired.figure.worked
    heading(f"{figure.house.name}: {len(figure.plan.circuits)} circuits")
    directory = figure.plan.directory
    rows = [
        (
            figure.number_of(circuit.name),
            circuit.name,
            f"{circuit.breaker} A",
            circuit.volts,
            circuit.cable,
            " ".join(str(space) for space in directory.spaces_of(circuit.name)),
            ", ".join(each.kind.value for each in circuit.protections),
            len(circuit.devices),
        )
        for circuit in figure.plan.circuits
    ]
    table(("", "circuit", "breaker", "volts", "cable", "spaces", "protected", "devices"), rows, right=(0, 7))
    legs = "as even as they can be" if directory.proven else "not proven to be as even as they can be"
    say(f"Legs {directory.leg_a_va:,.0f} and {directory.leg_b_va:,.0f} VA, {legs}.")
    say(f"{len(directory.spare)} spaces spare.")
    say(f"Load by the standard method: {worked.standard.result}; by the optional: {worked.optional.result}.")
    service = worked.service
    say(
        f"Service {service.rating} A; its conductors, for {service.sized_for} A, are "
        f"{service.conductor} copper."
    )
    if working:
        for each in worked.workings:
            _tell_working(each)
    tell_findings(figure.findings)
    caution()
    return _status(figure.findings)


def _tell_working(working: "Working") -> None:
    heading(f"{working.title}: {working.result}")
    rows = [(step.label, step.expression, step.result, step.source or "") for step in working.steps]
    table(("", "", "result", "source"), rows, right=(2,))
    for assumption in working.assumptions:
        say(f"* {assumption}")


@cable.command("pulls", epilog="Example:  setday cable pulls my-house.yaml --prices yard.csv")
def pulls(house: House, prices: Prices = None, by_hand: ByHand = None, as_json: AsJson = False) -> int:
    """Write the pull list, circuit by circuit, and from which coil each run is cut.

    Ends with status 1 when something has no way, or no coil is on the price list.
    """
    from setday.cli.cable_documents import pulls_document

    wired = _figured(house, by_hand)
    coils = _coils(wired, prices)
    if as_json:
        say_json(pulls_document(wired, coils))
        return _status((*wired.figure.findings, *coils.findings))
    figure = wired.figure
    coil_of = {number: coil.number for coil in coils.coils for number in coil.runs}
    for circuit in figure.plan.circuits:
        heading(f"{figure.number_of(circuit.name)} {circuit.name}")
        rows = [
            (
                p.number,
                p.kind,
                p.start,
                p.end,
                p.cut,
                coil_of.get(p.number, ""),
                p.staples,
                "; ".join(p.passes),
            )
            for p in figure.pulls
            if p.circuit == circuit.name
        ]
        table(("run", "cable", "from", "to", "cut", "coil", "staples", "passes"), rows, right=(4, 5, 6))
    _tell_coils(coils)
    tell_findings((*figure.findings, *coils.findings))
    caution()
    return _status((*figure.findings, *coils.findings))


def _coils(wired: "HouseCable", prices: Path | None) -> "CoilPlans":
    from setday.materials import coil_plans
    from setday.solving import Limits

    limits = Limits(seconds=5.0, clock=perf_counter, workers=1)
    return coil_plans(wired.figure.pulls, prices_at(prices), limits=limits)


def _tell_coils(coils: "CoilPlans") -> None:
    heading("Coils")
    rows = [
        (coil.number, coil.kind, coil.length, len(coil.runs), " ".join(coil.runs), coil.left)
        for coil in coils.coils
    ]
    table(("coil", "cable", "long", "runs", "which", "left"), rows, right=(0, 2, 3, 5))
    for plan in coils.plans:
        fewest = "no plan buys fewer" if plan.proven else f"no plan buys fewer than {plan.bound}"
        say(
            f"{plan.kind}: {plan.bought} bought, {fewest}; of {plan.left} left {plan.reserve} is for miscuts."
        )


def _status(findings: "tuple[Finding, ...]") -> int:
    from setday.findings import Severity

    return CHECK_FAILED if any(f.severity is not Severity.NOTE for f in findings) else 0
