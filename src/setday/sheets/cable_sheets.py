"""Sheets of a house's cable: wiring plan, a pull list a circuit, labels, home runs, the panel."""

from collections.abc import Mapping, Sequence
from itertools import zip_longest

from setday.cable import CableFigure, Circuit, PanelSlot, Pull
from setday.drawing import (
    LANDSCAPE,
    Table,
    circuit_table,
    device_table,
    home_run_map,
    home_run_table,
    wiring_key,
    wiring_plan,
)
from setday.materials import CoilCut
from setday.measure import write_feet_inches
from setday.sheets.blocks import Block, Note, Picture, Sheet, TableBlock
from setday.sheets.panel_sheets import box_sheet, protection_sheet
from setday.sheets.summary_sheets import workings_sheet

__all__ = [
    "CABLE_CAUTIONS",
    "cable_sheets",
    "coil_sheet",
    "home_run_sheets",
    "label_sheet",
    "panel_sheet",
    "pull_sheet",
    "wiring_sheets",
]

CABLE_CAUTIONS = (
    "Cable is pulled and boxes are opened dead: off, locked out, tested. Only the instructor energizes.",
    "Nothing is covered before it is inspected. Local code and the licensed electrician decide.",
)
_FLIPPED = {"widest_in": 10.0, "highest_in": 6.5}
_TICK = "\N{WHITE SQUARE}"


def cable_sheets(figure: CableFigure, *, coils: Sequence[CoilCut] = ()) -> tuple[Sheet, ...]:
    """Return all sheets of a house's cable, in the order they are used.

    Parameters
    ----------
    figure : CableFigure
    coils : sequence of CoilCut
        From which each run is cut.
    """
    coil_of = {number: str(coil.number) for coil in coils for number in coil.runs}
    pulls = [
        pull_sheet(circuit, number, [pull for pull in figure.pulls if pull.circuit == circuit.name], coil_of)
        for number, circuit in enumerate(figure.plan.circuits, start=1)
    ]
    return (
        *wiring_sheets(figure),
        *pulls,
        *([coil_sheet(coils)] if coils else []),
        label_sheet(figure),
        *home_run_sheets(figure),
        panel_sheet(figure),
        protection_sheet(figure),
        box_sheet(figure),
        workings_sheet(figure.worked.workings[:5]),
    )


def _notes() -> tuple[Note, ...]:
    return tuple(Note(text=caution) for caution in CABLE_CAUTIONS)


def wiring_sheets(figure: CableFigure) -> tuple[Sheet, ...]:
    """Return the wiring plan on paper laid on its side, and the tables of circuits and devices."""
    svg = wiring_plan(
        figure.house,
        circuits=figure.plan.circuits,
        runs=figure.routing.runs,
        with_key=False,
        paper=LANDSCAPE,
    )
    reading = wiring_key(figure.house, figure.plan.circuits, width=940.0)
    tables: list[Block] = [
        TableBlock(table=circuit_table(figure.plan.circuits)),
        TableBlock(table=device_table(figure.house, figure.plan.circuits)),
    ]
    return (
        Sheet(title="Wiring plan", blocks=(Picture(svg=svg, **_FLIPPED),), flipped=True, person_decides=True),
        Sheet(
            title="Circuits and devices",
            blocks=(Picture(svg=reading, **_FLIPPED), *tables, *_notes()),
            flipped=True,
            person_decides=True,
        ),
    )


def pull_sheet(
    circuit: Circuit, number: int, pulls: list[Pull], coil_of: Mapping[str, str] | None = None
) -> Sheet:
    """Return the page of one circuit: its runs, with room to tick each and to write what it took.

    Parameters
    ----------
    circuit : Circuit
    number : int
        As on the wiring plan.
    pulls : list of Pull
    coil_of : mapping or None
        Run number to the number of the coil it is cut from.
    """
    rows = tuple(
        (
            _TICK,
            pull.number,
            pull.kind,
            (coil_of or {}).get(pull.number, ""),
            write_feet_inches(pull.cut),
            pull.start,
            pull.end,
            "; ".join(pull.passes),
            str(pull.staples),
            "",
        )
        for pull in pulls
    )
    table = Table(
        caption=f"{circuit.breaker} A, {circuit.volts} V, {circuit.cable}: {len(pulls)} runs to pull",
        head=("", "Run", "Cable", "Coil", "Cut", "From", "To", "Passes", "Staples", "Measured"),
        rows=rows,
        figures=(False, False, False, True, True, False, False, False, True, False),
    )
    widths = ("auto", "auto", "auto", "auto", "auto", "1fr", "1fr", "2fr", "auto", "0.8in")
    return Sheet(
        title=f"Circuit {number}: {circuit.name}",
        blocks=(TableBlock(table=table, widths=widths), *_notes()),
        flipped=True,
        person_decides=True,
    )


def coil_sheet(coils: Sequence[CoilCut]) -> Sheet:
    """Return which runs are cut from which coil, and what each has left."""
    rows = tuple(
        (
            str(coil.number),
            coil.kind,
            write_feet_inches(coil.length),
            ", ".join(coil.runs),
            write_feet_inches(coil.left),
            "",
        )
        for coil in coils
    )
    table = Table(
        caption="From which coil each run is cut, the longest first; left: with what is kept for miscuts",
        head=("Coil", "Cable", "Long", "Runs", "Left", "Really left"),
        rows=rows,
        figures=(True, False, True, False, True, False),
    )
    widths = ("auto", "auto", "auto", "1fr", "auto", "0.9in")
    return Sheet(title="Coils", blocks=(TableBlock(table=table, widths=widths),))


def label_sheet(figure: CableFigure) -> Sheet:
    """Return the labels for both ends of every run, to be cut out."""
    rows = tuple((pull.start_label, pull.end_label) for pull in figure.pulls)
    table = Table(
        caption="Labels for the ends of the runs: cut out, tape one to each end",
        head=("At its start", "At its other end"),
        rows=rows,
        figures=(False, False),
    )
    return Sheet(title="End labels", blocks=(TableBlock(table=table, widths=("1fr", "1fr")),))


def home_run_sheets(figure: CableFigure) -> tuple[Sheet, ...]:
    """Return the map of the home runs under the floor, and what is coiled of each."""
    names = [circuit.name for circuit in figure.plan.circuits]
    svg = home_run_map(figure.house, figure.routing.runs, circuits=names, paper=LANDSCAPE)
    table = TableBlock(table=home_run_table(figure.routing.runs))
    return (
        Sheet(title="Home runs", blocks=(Picture(svg=svg, **_FLIPPED),), flipped=True, person_decides=True),
        Sheet(title="Home runs: lengths", blocks=(table, *_notes()), person_decides=True),
    )


def panel_sheet(figure: CableFigure) -> Sheet:
    """Return the panel's directory."""
    directory = figure.plan.directory
    circuits = {circuit.name: circuit for circuit in figure.plan.circuits}
    numbers = {circuit.name: str(n) for n, circuit in enumerate(figure.plan.circuits, start=1)}

    def cells(slot: PanelSlot | None) -> tuple[str, str, str]:
        if slot is None:
            return ("", "", "")
        circuit = circuits.get(slot.circuit)
        if circuit is None:
            return (f"{slot.space} {slot.leg}", "spare", "")
        return (f"{slot.space} {slot.leg}", f"{numbers[circuit.name]} {circuit.name}", f"{circuit.breaker} A")

    sides = zip_longest(directory.slots[0::2], directory.slots[1::2])
    table = Table(
        caption=f"Leg A {directory.leg_a_va:,.0f} VA, leg B {directory.leg_b_va:,.0f} VA",
        head=("Space", "Circuit", "Breaker", "Space", "Circuit", "Breaker"),
        rows=tuple((*cells(left), *cells(right)) for left, right in sides),
        figures=(True, False, True, True, False, True),
    )
    least = f"{directory.least_difference_va:,.0f} VA"
    proof = (
        "No directory of these circuits brings the legs nearer to each other."
        if directory.proven
        else f"No directory of these circuits brings the legs nearer than {least}."
    )
    widths = ("auto", "1fr", "auto", "auto", "1fr", "auto")
    return Sheet(
        title="Panel directory",
        blocks=(TableBlock(table=table, widths=widths), Note(text=proof), *_notes()),
        person_decides=True,
    )
