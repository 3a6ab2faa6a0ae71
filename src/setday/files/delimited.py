"""Tables people keep in spreadsheets and save as CSV: from bytes to rows with their line numbers.

Read sensibly: UTF-8 with or without its mark, UTF-16, Windows-1252; commas, semicolons, tabs or bars
between cells; quotes where a spreadsheet sets them.  What cannot be read is a finding with its line, and
the rows around it are read all the same.
"""

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from setday.findings import Finding, Severity, Where

__all__ = ["LARGEST_BYTES", "Complaints", "Layout", "Row", "TableFile", "read_table", "text_of"]

LARGEST_BYTES = 5_000_000
"""No list of one school's supplier comes near."""

_MOST_FINDINGS = 200
_LONGEST_CELL_LINES = 10
_SEPARATORS = (",", ";", "\t", "|")
_MARKS = ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe\x00\x00", "utf-32"), (b"\x00\x00\xfe\xff", "utf-32"))
_WIDE_MARKS = (b"\xff\xfe", b"\xfe\xff")
_BINARY = (
    (b"PK\x03\x04", "a spreadsheet or another zip archive"),
    (b"\xd0\xcf\x11\xe0", "an old spreadsheet"),
    (b"%PDF", "a PDF"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """What a table is and which columns it may have.

    Parameters
    ----------
    what : str
        In words: "price list".
    prefix : str
        Of the rule keys in findings: "prices".
    columns : tuple of str
        Every column it may have, in the order of the documentation.
    needed : tuple of str
        Those without which nothing can be read.
    """

    what: str
    prefix: str
    columns: tuple[str, ...]
    needed: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: the line it begins on, and its cells by column, blanks around them removed."""

    line: int
    cells: Mapping[str, str]

    def cell(self, column: str) -> str:
        """Return a cell, empty when the row or the table lacks it."""
        return self.cells.get(column, "")


@dataclass(frozen=True, slots=True, kw_only=True)
class TableFile:
    """A table as read: its text, its rows, and what was found."""

    text: str
    rows: tuple[Row, ...]
    findings: tuple[Finding, ...]


class Complaints:
    """Gathers findings on one file, and stops counting them out where a file is wrong throughout.

    Parameters
    ----------
    name : str
        File name.
    layout : Layout
    """

    def __init__(self, name: str, layout: Layout) -> None:
        self._name, self._layout = name, layout
        self._findings: list[Finding] = []
        self._more = 0

    def say(
        self,
        rule: str,
        found: str,
        *,
        line: int = 0,
        about: str = "",
        expected: str = "",
        do: str = "",
        severity: Severity = Severity.PROBLEM,
    ) -> None:
        """Add one finding; `rule` comes without the table's prefix."""
        if len(self._findings) >= _MOST_FINDINGS:
            self._more += 1
            return
        self._findings.append(
            Finding(
                rule=f"{self._layout.prefix}.{rule}",
                about=about or f"the {self._layout.what}",
                found=found,
                expected=expected,
                do=do,
                where=Where(file=self._name, line=line),
                severity=severity,
            )
        )

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was found, and how much more there is."""
        if not self._more:
            return tuple(self._findings)
        rest = Finding(
            rule=f"{self._layout.prefix}.more",
            about=f"the {self._layout.what}",
            found=f"{self._more:,} more findings are not listed.",
            do="Put the first ones right and check again.",
            where=Where(file=self._name),
        )
        return (*self._findings, rest)


def read_table(data: bytes | str, *, name: str, layout: Layout) -> TableFile:
    """Read a table.

    Parameters
    ----------
    data : bytes or str
        The file as it came; anything at all.
    name : str
        Its name, for findings.
    layout : Layout
        Columns it may and must have.

    Returns
    -------
    TableFile
        Never raises for any content; what is wrong is in the findings.
    """
    complaints = Complaints(name, layout)
    text = text_of(data, complaints, layout)
    if text is None:
        return TableFile(text="", rows=(), findings=complaints.findings)
    lines = re.split(r"\r\n|\r|\n", text)
    separator = _separator(lines, layout)
    written = _records(lines, separator, complaints)
    header = next(written, None)
    if header is None:
        complaints.say("empty", "nothing is written in it.", expected=_header_in_words(layout), line=1)
        return TableFile(text=text, rows=(), findings=complaints.findings)
    columns = _columns(header, complaints, layout)
    rows = tuple(_rows(written, columns, complaints)) if columns else ()
    if columns and not rows:
        complaints.say("no-rows", "there is no row below the header.", do="Write one line for each thing.")
    return TableFile(text=text, rows=rows, findings=complaints.findings)


def text_of(data: bytes | str, complaints: Complaints, layout: Layout) -> str | None:
    """Return a file's text, or None where it is none.

    Parameters
    ----------
    data : bytes or str
        The file as it came.
    complaints : Complaints
        Takes what is found.
    layout : Layout
        What the file should be.
    """
    if len(data) > LARGEST_BYTES:
        found = f"it has {len(data):,} {'bytes' if isinstance(data, bytes) else 'characters'}."
        expected = f"at most {LARGEST_BYTES:,}."
        complaints.say("size", found, expected=expected, do=f"Check that it is the right {layout.what}.")
        return None
    kind = next((k for magic, k in _BINARY if isinstance(data, bytes) and data.startswith(magic)), "")
    if kind:
        complaints.say("kind", f"this is {kind}.", do="Save the sheet as CSV and give that file.")
        return None
    text = data.removeprefix("\ufeff") if isinstance(data, str) else _decoded(data, complaints)
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        found = "it holds characters of code 0, which no text does."
        complaints.say("kind", found, line=line, do="Save the sheet as CSV again and give that file.")
        return None
    return text


def _decoded(data: bytes, complaints: Complaints) -> str:
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return data.decode(encoding, errors="replace").removeprefix("\ufeff")
    if data.startswith(_WIDE_MARKS):
        return data.decode("utf-16", errors="replace")
    start = data[:400]
    if len(start) > 3 and (not any(start[1::2]) or not any(start[::2])):
        return data.decode("utf-16-le" if not any(start[1::2]) else "utf-16-be", errors="replace")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        complaints.say(
            "encoding",
            "it is not UTF-8 and was read as Windows-1252.",
            line=line,
            do="Look whether accents and signs came out right; saving it as UTF-8 settles it.",
            severity=Severity.NOTE,
        )
        return data.decode("cp1252", errors="replace")


def _separator(lines: Sequence[str], layout: Layout) -> str:
    """Choose the separator under which the header names the most known columns."""
    first = next((line for line in lines if line.strip() and not line.startswith("#")), "")

    def known(separator: str) -> int:
        return len({_column_name(cell) for cell in first.split(separator)} & set(layout.columns))

    return max(_SEPARATORS, key=known)


def _records(lines: Sequence[str], separator: str, complaints: Complaints) -> Iterator[tuple[int, list[str]]]:
    """Yield each row with the line it begins on; blank lines and lines of remarks are passed over."""
    at = 0
    while at < len(lines):
        taken, cells = _record(lines, at, separator)
        if cells is None:
            complaints.say(
                "quotes",
                f"the quotes do not pair: {lines[at].strip()[:60]}",
                line=at + 1,
                about=f"line {at + 1}",
                expected='quotes around a whole cell only, a quote inside one written twice: "1/2"" board".',
                do="The line was passed over.",
            )
        elif any(cell.strip() for cell in cells) and not cells[0].startswith("#"):
            yield at + 1, cells
        at += taken


def _record(lines: Sequence[str], at: int, separator: str) -> tuple[int, list[str] | None]:
    """Read one row, which may run over several lines inside quotes; return how many lines it took."""
    for taken in range(1, _LONGEST_CELL_LINES + 1):
        if at + taken > len(lines):
            return 1, None
        piece = [f"{line}\n" for line in lines[at : at + taken]]
        try:
            return taken, next(csv.reader(piece, delimiter=separator, strict=True), [""])
        except csv.Error as error:
            if "unexpected end" not in str(error):
                return 1, None
    return 1, None


def _columns(header: tuple[int, list[str]], complaints: Complaints, layout: Layout) -> list[str]:
    line, cells = header
    names = [_column_name(cell) for cell in cells]
    missing = [column for column in layout.needed if column not in names]
    if missing:
        first = ", ".join(cell.strip() for cell in cells)[:80]
        complaints.say(
            "header",
            f"the first line does not name the columns {', '.join(missing)}; it says: {first}",
            line=line,
            expected=_header_in_words(layout),
        )
        return []
    twice = sorted({name for name in names if name and names.count(name) > 1})
    if twice:
        complaints.say(
            "header", f"columns named twice: {', '.join(twice)}.", line=line, do="Keep one of each."
        )
    unknown = [c.strip() for c, n in zip(cells, names, strict=True) if n and n not in layout.columns]
    if unknown:
        complaints.say(
            "unknown-column",
            f"columns that are not read: {', '.join(unknown)[:200]}.",
            line=line,
            expected=_header_in_words(layout),
            severity=Severity.NOTE,
        )
    return names


def _rows(
    written: Iterator[tuple[int, list[str]]], columns: list[str], complaints: Complaints
) -> Iterator[Row]:
    for line, cells in written:
        extra = [cell for cell in cells[len(columns) :] if cell.strip()]
        if extra:
            complaints.say(
                "cells",
                f"{len(cells)} cells, and the header has {len(columns)}.",
                line=line,
                about=f"line {line}",
                do="A separator inside a cell needs quotes around the cell.",
            )
        paired = zip(columns, cells, strict=False)
        yield Row(line=line, cells={column: " ".join(cell.split()) for column, cell in paired if column})


def _column_name(cell: str) -> str:
    return re.sub(r"[\s_\-]+", "_", cell.strip().strip('"').strip().lower())


def _header_in_words(layout: Layout) -> str:
    optional = [column for column in layout.columns if column not in layout.needed]
    return f"a first line with the columns {', '.join(layout.needed)}, and perhaps {', '.join(optional)}."
