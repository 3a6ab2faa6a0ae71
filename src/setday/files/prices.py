"""The price list as a CSV file the user owns; its columns are described in docs/materials.md."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from setday.errors import MeasureError
from setday.files.delimited import Complaints, Layout, Row, read_table
from setday.files.money import parse_number, parse_price
from setday.findings import Finding, Severity
from setday.materials import PIECES, PriceItem, PriceList
from setday.measure import ZERO, Length, parse_length

__all__ = ["PRICE_COLUMNS", "PriceFile", "read_prices"]

PRICE_COLUMNS = (
    "key",
    "item",
    "label",
    "category",
    "sold_as",
    "content",
    "unit",
    "price",
    "supplier",
    "board_kind",
    "width",
    "length",
    "waste",
)
"""Every column a price list may have."""

_LAYOUT = Layout(what="price list", prefix="prices", columns=PRICE_COLUMNS, needed=("key", "price"))
_MOST_CONTENT = 1_000_000_000
_LONGEST_TEXT = 200
_SPACED = re.compile(r"\s*-\s*|\s+")

Read = TypeVar("Read")


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceFile:
    """A price list as read.

    Parameters
    ----------
    text : str
        What the file says.
    prices : PriceList or None
        The lines that could be read; None when there are none.
    findings : tuple of Finding
        Everything found, by line.
    """

    text: str
    prices: PriceList | None
    findings: tuple[Finding, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """The findings that must be put right before the list is used."""
        return tuple(finding for finding in self.findings if finding.severity is Severity.PROBLEM)


def read_prices(data: bytes | str, *, name: str) -> PriceFile:
    """Read a price list.

    Parameters
    ----------
    data : bytes or str
        The file as it came; anything at all.
    name : str
        Its name, for findings and for the list.

    Returns
    -------
    PriceFile
        Never raises for any content; every fault is a finding with its line.
    """
    table = read_table(data, name=name, layout=_LAYOUT)
    complaints = Complaints(name, _LAYOUT)
    items: dict[str, PriceItem] = {}
    for row in table.rows:
        item = _Reading(row, complaints).item()
        if item is None:
            continue
        if item.key in items:
            complaints.say(
                "key-twice",
                f"the key {item.key!r} stands on line {items[item.key].line} already.",
                line=row.line,
                about=f"line {row.line}",
                do="Give every sold unit a key of its own; several packages of one thing share the item.",
            )
        else:
            items[item.key] = item
    _check_whole(tuple(items.values()), complaints)
    prices = PriceList(name=name, items=tuple(items.values())) if items else None
    findings = sorted((*table.findings, *complaints.findings), key=lambda f: (f.where, f.rule))
    return PriceFile(text=table.text, prices=prices, findings=tuple(findings))


def _check_whole(items: tuple[PriceItem, ...], complaints: Complaints) -> None:
    if items and not any(item.price_cents is not None for item in items):
        complaints.say("no-prices", "not one line has a price.", do="Fill in the column price.")
    units: dict[str, PriceItem] = {}
    for item in items:
        first = units.setdefault(item.item, item)
        if first.unit != item.unit:
            complaints.say(
                "two-units",
                f"{item.item!r} is listed in {item.unit} here and in {first.unit} on line {first.line}.",
                line=item.line,
                about=f"line {item.line}",
                do="Needs in one unit are never served by a line in another: use one unit for one item.",
                severity=Severity.ASK,
            )


class _Reading:
    """Reads one row; every fault in it is said, the rest of it read on."""

    def __init__(self, row: Row, complaints: Complaints) -> None:
        self._row, self._complaints = row, complaints

    def item(self) -> PriceItem | None:
        """Return the line of the list, or None when it has no key or cannot be counted."""
        cell = self._row.cell
        key = cell("key") or cell("item")
        if not key:
            self._say("no-key", "the line has no key.", do="Give it a short name of its own: tape-paper-500.")
            return None
        unit = cell("unit") or PIECES
        content, price = self._content(unit), self._price()
        width, length, waste = self._length("width"), self._length("length"), self._waste()
        if content is None:
            return None
        item = PriceItem(
            key=key[:_LONGEST_TEXT],
            item=(cell("item") or key)[:_LONGEST_TEXT],
            label=(cell("label") or key)[:_LONGEST_TEXT],
            category="board" if self._is_board() else cell("category").lower(),
            sold_as=cell("sold_as") or unit,
            content=content,
            unit=unit,
            price_cents=price,
            supplier=cell("supplier"),
            board_kind=_SPACED.sub("-", cell("board_kind")),
            width=width,
            length=length,
            waste=waste,
            line=self._row.line,
        )
        self._check_board(item)
        return item

    def _is_board(self) -> bool:
        category = self._row.cell("category").lower()
        return category == "board" or bool(not category and self._row.cell("board_kind"))

    def _price(self) -> int | None:
        text = self._row.cell("price")
        if not text:
            do = "Totals leave it out until one is written."
            if self._is_board():
                do = "No board of this line is laid out, and totals leave it out, until one is written."
            self._say("no-price", "there is no price.", do=do, severity=Severity.ASK)
            return None
        cents = self._try("price", parse_price, text)
        if cents == 0:
            self._say("free", "the price is nothing.", do="Leave it if it is given.", severity=Severity.ASK)
        return cents

    def _content(self, unit: str) -> Fraction | None:
        text = self._row.cell("content")
        if not text:
            return Fraction(1)
        read = self._try("content", _feet if unit == "ft" else parse_number, text)
        if read is not None and not 0 < read <= _MOST_CONTENT:
            found = f"one sold unit cannot hold {text} {unit}."
            self._say("content", found, expected=f"more than 0 and at most {_MOST_CONTENT:,}.")
            return None
        return read

    def _length(self, column: str) -> Length | None:
        text = self._row.cell(column)
        read = self._try(column, parse_length, text) if text else None
        if read is not None and read <= ZERO:
            self._say(column, f"the {column} {text} is no size.", expected="a length above nothing.")
            return None
        return read

    def _waste(self) -> Fraction | None:
        text = self._row.cell("waste")
        if not text:
            return None
        percent = self._try("waste", parse_number, text.replace("%", ""))
        if percent is None:
            return None
        if percent > 100:
            self._say("waste", f"{text} is more waste than work.", expected="a percentage from 0 to 100.")
            return None
        if 0 < percent < 1 and "%" not in text:
            do = f"If not {float(percent):g} percent but {float(percent) * 100:g} was meant, write that."
            self._say("waste", f"{text} percent is hardly anything.", do=do, severity=Severity.ASK)
        return percent / 100

    def _check_board(self, item: PriceItem) -> None:
        if item.category != "board":
            return
        lacking = [
            column
            for column, value in (
                ("board_kind", item.board_kind), ("width", item.width), ("length", item.length),
            )
            if not value and not (column != "board_kind" and self._row.cell(column))
        ]  # fmt: skip
        if lacking:
            do = "Write them like: regular-1/2, 48\", 12'. Without them no board of this line is laid out."
            self._say("board", f"a board without {' and '.join(lacking)}.", do=do)
        if item.width and item.length and item.width > item.length:
            found = f"the board is wider ({item.width}) than long ({item.length})."
            self._say("board", found, do="Were the columns exchanged?", severity=Severity.ASK)

    def _try(self, column: str, read: Callable[[str], Read], text: str) -> Read | None:
        try:
            return read(text)
        except MeasureError as error:
            self._say(column, f"{column}: {error.message}", do=error.do)
            return None

    def _say(
        self,
        rule: str,
        found: str,
        *,
        do: str = "",
        expected: str = "",
        severity: Severity = Severity.PROBLEM,
    ) -> None:
        key = self._row.cell("key") or self._row.cell("item")
        about = f"{key!r}" if key else f"line {self._row.line}"
        self._complaints.say(
            rule, found, line=self._row.line, about=about, do=do, expected=expected, severity=severity
        )


def _feet(text: str) -> Fraction:
    """Read a content in feet: a bare number of feet, or a length with its unit."""
    try:
        return parse_number(text)
    except MeasureError:
        return parse_length(text).exact_inches / 12
