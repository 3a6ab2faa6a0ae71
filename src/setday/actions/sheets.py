"""Pages for the printer, from results."""

from collections.abc import Iterable, Sequence
from datetime import date

from setday.actions.buying import Buying
from setday.boards import BoardFigure, RoomStack, Status, WhatIf, needs
from setday.drawing import Table
from setday.house import House
from setday.measure import Length
from setday.sheets import (
    Book,
    Sheet,
    TableBlock,
    Way,
    boards_book,
    book_pdf,
    buying_sheet,
    plan_sheets,
    surface_sheets,
    wall_sheets,
)

__all__ = ["board_sheets", "buying_sheets", "house_sheets"]

_CAREFUL = (
    "Two carry a board; a lift holds ceiling boards. Cut and sand with dust kept down and a mask on, and "
    "know what is behind a wall before you cut into it: power off and tested by the instructor."
)


def house_sheets(house: House, *, dated: date) -> bytes:
    """Return the plan, every wall from both sides and every surface as PDF."""
    sheets = (*plan_sheets(house), *wall_sheets(house), *surface_sheets(house))
    return book_pdf(Book(house=house.name, dated=dated, sheets=sheets))


def board_sheets(
    house: House, figured: BoardFigure, *, dated: date, compared: Sequence[WhatIf] = ()
) -> bytes:
    """Return everything a class takes to the wall for its boards as PDF.

    Parameters
    ----------
    house : House
    figured : BoardFigure
    dated : date
        Printed in the head of every page.
    compared : sequence of WhatIf
        Variants to print beside the layout.
    """
    book = boards_book(
        house.name,
        problem=figured.prepared.problem,
        outcome=figured.outcome,
        dated=dated,
        needs=needs(figured),
        ways=(*_two_ways(figured), *_variants(compared)),
        workings=figured.workings,
        notes=tuple(_notes(figured)),
    )
    return book_pdf(book)


def buying_sheets(house: str, bought: Buying, *, dated: date) -> bytes:
    """Return the buying list and the cutting plans behind it as PDF."""
    sheets = [buying_sheet(bought.buying)]
    cut = [_cut_table(plan_number, bought) for plan_number in range(len(bought.plans))]
    blocks = tuple(TableBlock(table=table) for table in cut if table is not None)
    if blocks:
        sheets.append(Sheet(title="Lengths to cut", blocks=blocks))
    return book_pdf(Book(house=house, dated=dated, sheets=tuple(sheets)))


def _two_ways(figured: BoardFigure) -> tuple[Way, ...]:
    compared, counted = figured.comparison, figured.totals
    if compared is None or counted is None:
        return ()
    return (
        Way(
            label="by area",
            boards=compared.sheets,
            area_sqft=compared.sheets_sqft,
            cost_cents=compared.sheets_cents,
        ),
        Way(
            label="by layout",
            boards=compared.boards,
            area_sqft=compared.boards_sqft,
            cost_cents=compared.boards_cents,
            butt_joint_ft=counted.butt_joint / 768,
            pieces=counted.pieces,
            why=" ".join(compared.why),
        ),
    )


def _variants(compared: Sequence[WhatIf]) -> Iterable[Way]:
    for row in compared:
        if row.status is not Status.NONE:
            yield Way(
                label=row.label,
                boards=row.boards,
                cost_cents=row.cost_cents,
                butt_joint_ft=row.butt_joint_ft,
                pieces=row.pieces,
            )


def _notes(figured: BoardFigure) -> Iterable[str]:
    yield from (str(finding) for finding in figured.findings)
    if figured.hardware is not None:
        yield from (_stack(stack) for stack in figured.hardware.stacks)
    hours = sum(item.student_hours for item in figured.work)
    if hours:
        yield f"Hanging: {hours:,.1f} hours of one person, for planning and not for hurrying people."
    yield _CAREFUL


def _stack(stack: RoomStack) -> str:
    return (
        f"Stacked in {stack.room}: {stack.boards} boards, {stack.weight_lb:,.0f} lb, "
        f"in {stack.stacks} stack{'s' if stack.stacks != 1 else ''}; "
        f"{stack.load_psf:,.0f} lb on each square foot under one."
    )


def _cut_table(number: int, bought: Buying) -> Table | None:
    plan = bought.plans[number]
    if plan.outcome.plan is None:
        return None
    rows = tuple(
        (
            str(stick.number),
            stick.stock,
            "; ".join(f"{Length(piece.length)} {piece.label}" for piece in stick.pieces),
            str(Length(stick.remnant)),
        )
        for stick in plan.outcome.plan.sticks
    )
    return Table(
        caption=f"{plan.label}: how to cut the lengths",
        head=("Stick", "Length", "Pieces", "Rest"),
        rows=rows,
        figures=(True, False, False, True),
    )
