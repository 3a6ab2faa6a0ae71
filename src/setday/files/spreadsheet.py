"""The buying list as CSV text, as a workbook, and as one plain record."""

import csv
import io
import re
import zipfile
from collections.abc import Iterable, Sequence
from datetime import datetime
from fractions import Fraction
from typing import Any

from setday.materials import BuyingLine, BuyingList, Delivery, write_money

__all__ = ["BUYING_COLUMNS", "buying_csv", "buying_record", "buying_xlsx"]

BUYING_COLUMNS = (
    "Item",
    "What",
    "Needed",
    "Waste",
    "On hand",
    "To buy",
    "Unit",
    "Count",
    "Sold as",
    "Price",
    "Cost",
    "Left over",
    "Supplier",
    "Key",
)
_DELIVERY_COLUMNS = ("Delivery", "Phases", "Count", "Sold as", "What", "Key", "Cost")
_SHARE_COLUMNS = ("Item", "What", "Place", "Phase", "Trade", "Needed", "Waste", "Unit")
_FINDING_COLUMNS = ("About", "Found", "Do")
_WIDTHS = {"What": 44, "Item": 26, "Key": 26, "Sold as": 18, "Place": 26, "Found": 70, "Do": 60, "About": 30}
_MONEY = {"Price", "Cost"}
_EARLIEST = (1980, 1, 1, 0, 0, 0)
_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")

Cell = str | int | float | None


def buying_csv(buying: BuyingList) -> str:
    """Return the buying list as CSV: one line for each sold unit, the total last.

    Text that a spreadsheet would take for a formula gets an apostrophe before it.

    Parameters
    ----------
    buying : BuyingList
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(BUYING_COLUMNS)
    for row in _rows(buying.lines):
        writer.writerow([_harmless(cell) for cell in row])
    writer.writerow(["Total", "", *[""] * 8, f"{buying.total_cents / 100:.2f}", "", "", ""])
    return out.getvalue()


def buying_xlsx(buying: BuyingList, *, made: datetime) -> bytes:
    """Return the buying list as a workbook with sheets for buying, deliveries, places and findings.

    Parameters
    ----------
    buying : BuyingList
    made : datetime
        Written into the workbook; the same list and moment give the same bytes.
    """
    from openpyxl import Workbook

    book = Workbook()
    book.properties.creator = "Setday"
    book.properties.created = made.replace(tzinfo=None)
    total = ["Total", None, *[None] * 8, buying.total_cents / 100, None, None, None]
    sheets: list[tuple[str, Sequence[str], list[list[Cell]]]] = [
        ("Buying list", BUYING_COLUMNS, [*_rows(buying.lines), total]),
        ("Deliveries", _DELIVERY_COLUMNS, list(_delivery_rows(buying.deliveries, buying.lines))),
        ("Places", _SHARE_COLUMNS, list(_share_rows(buying.lines))),
    ]
    if buying.findings:
        rows: list[list[Cell]] = [[f.about, f.found, f.do] for f in buying.findings]
        sheets.append(("Findings", _FINDING_COLUMNS, rows))
    book.remove(book.active)
    for title, columns, content in sheets:
        _fill(book.create_sheet(title), columns, content)
    out = io.BytesIO()
    book.save(out)
    return _settled(out.getvalue(), made)


def buying_record(buying: BuyingList) -> dict[str, Any]:
    """Return the buying list as plain values in a fixed order, for JSON.

    Parameters
    ----------
    buying : BuyingList
        Money in cents; quantities as numbers in the line's unit.
    """
    return {
        "price_list": buying.price_list,
        "lines": [_line_record(line) for line in buying.lines],
        "deliveries": [
            {
                "name": delivery.name,
                "phases": list(delivery.phases),
                "drops": [
                    {"item": d.item, "key": d.package.key, "sold_as": d.package.sold_as, "count": d.count}
                    for d in delivery.drops
                ],
                "cost_cents": delivery.cost_cents,
            }
            for delivery in buying.deliveries
        ],
        "by_phase": [{"phase": phase, "cost_cents": cents} for phase, cents in buying.by_phase()],
        "by_place": [{"place": place, "cost_cents": cents} for place, cents in buying.by_place()],
        "total_cents": buying.total_cents,
        "without_price": [line.item for line in buying.unpriced],
    }


def _line_record(line: BuyingLine) -> dict[str, Any]:
    return {
        "item": line.item,
        "label": line.label,
        "category": line.category,
        "unit": line.unit,
        "needed": _number(line.needed),
        "waste": _number(line.waste),
        "on_hand": _number(line.on_hand),
        "to_buy": _number(line.to_buy),
        "packages": [
            {
                "key": bought.package.key,
                "sold_as": bought.package.sold_as,
                "content": _number(bought.package.content),
                "count": bought.count,
                "price_cents": bought.package.price_cents,
                "supplier": bought.package.supplier,
            }
            for bought in line.packages
        ],
        "left_over": _number(line.left_over),
        "cost_cents": line.cost_cents,
        "places": [
            {
                "trade": share.trade,
                "place": share.place,
                "phase": share.phase,
                "needed": _number(share.quantity),
                "waste": _number(share.waste),
            }
            for share in line.shares
        ],
    }


def _rows(lines: Iterable[BuyingLine]) -> list[list[Cell]]:
    return [row for line in lines for row in _line_rows(line)]


def _line_rows(line: BuyingLine) -> list[list[Cell]]:
    quantities: list[Cell] = [
        line.item, line.label, _number(line.needed), _number(line.waste), _number(line.on_hand),
        _number(line.to_buy), line.unit,
    ]  # fmt: skip
    if not line.packages:
        nothing = "nothing to buy" if line.served else "not on the price list"
        return [[*quantities, 0, nothing, None, 0 if line.served else None, 0, None, None]]
    rows: list[list[Cell]] = []
    for place, bought in enumerate(line.packages):
        package = bought.package
        price = None if package.price_cents is None else package.price_cents / 100
        cost = None if bought.cost_cents is None else bought.cost_cents / 100
        left: Cell = _number(line.left_over) if not place else None
        shown: list[Cell] = quantities if not place else [line.item, line.label, *[None] * 4, line.unit]
        rows.append([*shown, bought.count, package.sold_as, price, cost, left, package.supplier, package.key])
    return rows


def _delivery_rows(deliveries: Iterable[Delivery], lines: Iterable[BuyingLine]) -> Iterable[list[Cell]]:
    labels = {line.item: line.label for line in lines}
    for delivery in deliveries:
        for drop in delivery.drops:
            cost = None if drop.cost_cents is None else drop.cost_cents / 100
            yield [
                delivery.name, ", ".join(delivery.phases), drop.count, drop.package.sold_as,
                labels.get(drop.item, drop.item), drop.package.key, cost,
            ]  # fmt: skip
        total = f"Total of {delivery.name}: {write_money(delivery.cost_cents)}"
        yield [total, None, None, None, None, None, delivery.cost_cents / 100]


def _share_rows(lines: Iterable[BuyingLine]) -> Iterable[list[Cell]]:
    for line in lines:
        for share in line.shares:
            yield [
                line.item, line.label, share.place, share.phase, share.trade,
                _number(share.quantity), _number(share.waste), line.unit,
            ]  # fmt: skip


def _fill(sheet: Any, columns: Sequence[str], rows: Iterable[list[Cell]]) -> None:
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    sheet.append(list(columns))
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    for number, row in enumerate(rows, start=2):
        for column, value in enumerate(row, start=1):
            cell = sheet.cell(row=number, column=column, value=_printable(value))
            if isinstance(value, str):
                cell.data_type = "s"  # never a formula, whatever it begins with
            if columns[column - 1] in _MONEY:
                cell.number_format = '"$"#,##0.00'
    for column, name in enumerate(columns, start=1):
        sheet.column_dimensions[get_column_letter(column)].width = _WIDTHS.get(name, 12)
    sheet.freeze_panes = "A2"
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = sheet.PAPERSIZE_LETTER
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True


def _settled(data: bytes, made: datetime) -> bytes:
    """Write the workbook anew with the given moment wherever the library put the present one."""
    moment = made.replace(tzinfo=None).isoformat(timespec="seconds").encode() + b"Z"
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + moment, content)
            new.writestr(zipfile.ZipInfo(name, date_time=_EARLIEST), content, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _harmless(cell: Cell) -> Cell:
    if isinstance(cell, float):
        return f"{cell:.2f}"
    if isinstance(cell, str) and cell.startswith(_FORMULA):
        return f"'{cell}"
    return "" if cell is None else cell


def _printable(value: Cell) -> Cell:
    return _UNPRINTABLE.sub("", value) if isinstance(value, str) else value


def _number(quantity: Fraction) -> int | float:
    return int(quantity) if quantity.denominator == 1 else round(float(quantity), 6)
