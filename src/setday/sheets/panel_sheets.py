"""Sheets of the panel's circuits: protection and why, box fill, voltage drop."""

from setday.cable import CableFigure, ProtectionKind
from setday.drawing import Table
from setday.sheets.blocks import Note, Sheet, TableBlock

__all__ = ["box_sheet", "protection_sheet"]

_MARK = {ProtectionKind.GROUND_FAULT: "GF", ProtectionKind.ARC_FAULT: "AF"}


def protection_sheet(figure: CableFigure) -> Sheet:
    """Return which circuits need ground-fault and arc-fault protection, and why.

    Parameters
    ----------
    figure : CableFigure
    """
    rows = tuple(
        (
            str(figure.number_of(circuit.name)),
            circuit.name,
            _MARK[protection.kind],
            reason.sentence,
            ", ".join(reason.devices),
            str(reason.source),
        )
        for circuit in figure.plan.circuits
        for protection in circuit.protections
        for reason in protection.reasons
    )
    table = Table(
        caption="GF: ground-fault protection; AF: arc-fault protection",
        head=("No.", "Circuit", "", "Asked for by", "Here", "Source"),
        rows=rows,
        figures=(True, False, False, False, False, False),
    )
    widths = ("auto", "auto", "auto", "1.2fr", "2fr", "1.6fr")
    return Sheet(
        title="Protection of the circuits",
        blocks=(
            TableBlock(table=table, widths=widths),
            Note(text="A breaker, or the first receptacle on the way, may give it; the electrician decides."),
        ),
        flipped=True,
        person_decides=True,
    )


def box_sheet(figure: CableFigure) -> Sheet:
    """Return the room each box needs, and the voltage lost on each circuit.

    Parameters
    ----------
    figure : CableFigure
    """
    tail = f"Leave at least {figure.worked.tail.result} of cable in each box, from where it enters."
    return Sheet(
        title="Boxes and voltage drop",
        blocks=(
            TableBlock(table=_drops(figure), widths=("auto", "1fr", "auto", "auto", "auto", "auto")),
            TableBlock(table=_boxes(figure), widths=("1fr", "auto", "1fr", "auto", "auto")),
            Note(text=tail),
        ),
        person_decides=True,
    )


def _boxes(figure: CableFigure) -> Table:
    return Table(
        caption="Box fill: what is in each box, and the smallest box as sold that takes it",
        head=("Box", "Needs", "Take", "Has", ""),
        rows=tuple(
            (
                fill.box,
                f"{fill.needed_in3:.2f} in3",
                fill.size,
                f"{fill.volume_in3:.1f} in3",
                "" if fill.fits else "too full",
            )
            for fill in figure.worked.fills
        ),
        figures=(False, True, False, True, False),
    )


def _drops(figure: CableFigure) -> Table:
    return Table(
        caption="Voltage drop at the farthest box; 3 % or less is advised, the code does not demand it",
        head=("Circuit", "Farthest box", "Way", "Current", "Lost", ""),
        rows=tuple(
            (
                drop.circuit,
                drop.box,
                f"{drop.length_ft:.0f} ft",
                f"{drop.current_a:.1f} A",
                f"{drop.volts:.2f} V",
                f"{drop.percent:.1f} %",
            )
            for drop in figure.worked.drops
        ),
        figures=(False, False, True, True, True, True),
    )
