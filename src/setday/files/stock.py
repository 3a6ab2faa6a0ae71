"""What lies in the yard, as a CSV file: quantities, and sticks and remnants with their lengths."""

from dataclasses import dataclass
from fractions import Fraction

from setday.errors import MeasureError
from setday.files.delimited import Complaints, Layout, Row, read_table
from setday.files.money import parse_number
from setday.findings import Finding, Severity
from setday.materials import PIECES, PriceItem, PriceList, StockItem, StockLength
from setday.measure import ZERO, Length, parse_length

__all__ = ["STOCK_COLUMNS", "LengthOnHand", "StockFile", "read_stock"]

STOCK_COLUMNS = ("item", "quantity", "unit", "length", "note")
"""Every column a stock list may have."""

_LAYOUT = Layout(what="stock list", prefix="stock", columns=STOCK_COLUMNS, needed=("item", "quantity"))
_MOST = 1_000_000_000
_MOST_STICKS = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthOnHand:
    """Sticks or remnants of one length: of which item, and as stock for a cutting plan."""

    item: str
    stock: StockLength


@dataclass(frozen=True, slots=True, kw_only=True)
class StockFile:
    """A stock list as read.

    Parameters
    ----------
    text : str
        What the file says.
    stock : tuple of StockItem
        What is counted by quantity.
    lengths : tuple of LengthOnHand
        What is counted in sticks of one length, for cutting plans.
    findings : tuple of Finding
        Everything found, by line.
    """

    text: str
    stock: tuple[StockItem, ...]
    lengths: tuple[LengthOnHand, ...]
    findings: tuple[Finding, ...]


def read_stock(data: bytes | str, *, name: str, prices: PriceList | None = None) -> StockFile:
    """Read a stock list.

    Parameters
    ----------
    data : bytes or str
        The file as it came; anything at all.
    name : str
        Its name, for findings.
    prices : PriceList or None
        Settles the unit where a line names none, and turns counts of sold units into pieces of them.

    Returns
    -------
    StockFile
        Never raises for any content; every fault is a finding with its line.
    """
    table = read_table(data, name=name, layout=_LAYOUT)
    complaints = Complaints(name, _LAYOUT)
    stock: list[StockItem] = []
    lengths: list[LengthOnHand] = []
    for row in table.rows:
        quantity = _quantity(row, complaints)
        length = _length(row, complaints)
        if not row.cell("item"):
            _say(complaints, row, "no-item", "the line names no item.", "Name it as on the price list.")
        elif quantity is not None and length is not None:
            lengths += _sticks(row, quantity, length, complaints)
        elif quantity is not None and not row.cell("length"):
            stock.append(_counted(row, quantity, prices, complaints))
    findings = sorted((*table.findings, *complaints.findings), key=lambda f: (f.where, f.rule))
    return StockFile(text=table.text, stock=tuple(stock), lengths=tuple(lengths), findings=tuple(findings))


def _quantity(row: Row, complaints: Complaints) -> Fraction | None:
    text = row.cell("quantity")
    try:
        quantity = parse_number(text)
    except MeasureError as error:
        _say(complaints, row, "quantity", f"quantity: {error.message}", error.do)
        return None
    if quantity > _MOST:
        _say(complaints, row, "quantity", f"{text} is more than any yard holds.", "Check the number.")
        return None
    return quantity


def _length(row: Row, complaints: Complaints) -> Length | None:
    text = row.cell("length")
    if not text:
        return None
    try:
        length = parse_length(text)
    except MeasureError as error:
        _say(complaints, row, "length", f"length: {error.message}", error.do)
        return None
    if length <= ZERO:
        _say(complaints, row, "length", f"the length {text} is no size.", "Write a length above nothing.")
        return None
    return length


def _sticks(row: Row, quantity: Fraction, length: Length, complaints: Complaints) -> list[LengthOnHand]:
    if quantity.denominator != 1 or quantity > _MOST_STICKS:
        found = f"{row.cell('quantity')} sticks of {length}."
        _say(complaints, row, "quantity", found, f"Count whole sticks, at most {_MOST_STICKS:,}.")
        return []
    stock = StockLength(
        key=f"on hand, line {row.line}",
        length=length.sixtyfourths,
        cost_cents=0,
        available=int(quantity),
        label=row.cell("note") or f"{row.cell('item')}, {length}",
    )
    return [LengthOnHand(item=row.cell("item"), stock=stock)]


def _counted(row: Row, quantity: Fraction, prices: PriceList | None, complaints: Complaints) -> StockItem:
    item, unit = row.cell("item"), row.cell("unit")
    units = prices.units_of(item) if prices else ()
    sold = _sold_unit(item, unit, prices) if prices else None
    if sold is not None:
        item, unit = sold.key, PIECES
        if sold.item == sold.key and sold.unit != PIECES:
            quantity, unit = quantity * sold.content, sold.unit
    elif unit and units and unit not in units:
        _ask_unit(row, prices, complaints)
    return StockItem(
        item=item,
        quantity=quantity,
        unit=unit or (units[0] if units else PIECES),
        note=row.cell("note"),
        line=row.line,
    )


def _sold_unit(item: str, unit: str, prices: PriceList) -> PriceItem | None:
    """Return the line of the price list whose sold units are counted; None for a count in its unit."""
    named = prices.find(item)
    if named is not None and unit == PIECES and named.unit != PIECES:
        return named
    if not unit:
        return named if named is not None and named.item != item else None
    asked = _plain(unit)
    listed = [
        line for line in prices.items if item in {line.item, line.key} and _plain(line.sold_as) == asked
    ]
    if unit in prices.units_of(item):
        return None
    return next(iter(listed), None)


def _plain(words: str) -> str:
    return " ".join(words.casefold().replace("-", " ").split())


def _ask_unit(row: Row, prices: PriceList | None, complaints: Complaints) -> None:
    item, unit = row.cell("item"), row.cell("unit")
    lines = [line for line in prices.items if item in {line.item, line.key}] if prices else []
    words = dict.fromkeys([line.unit for line in lines] + [line.sold_as for line in lines])
    complaints.say(
        "unit",
        f"it is counted in {unit!r}, and the price list knows no such unit of it.",
        line=row.line,
        about=repr(item),
        expected=f"one of: {'; '.join(words)}.",
        do="As it stands it is taken off nothing.",
        severity=Severity.ASK,
    )


def _say(complaints: Complaints, row: Row, rule: str, found: str, do: str) -> None:
    about = repr(row.cell("item")) if row.cell("item") else f"line {row.line}"
    complaints.say(rule, found, line=row.line, about=about, do=do, severity=Severity.PROBLEM)
