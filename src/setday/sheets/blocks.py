"""What a sheet is put together from: headings, notes, pictures, tables and workings."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from setday.drawing import Table
from setday.sheets.markup import array, call, escaped, flag
from setday.sheets.working_text import source_marks, working_lines
from setday.working import Working

__all__ = [
    "UNITS_PER_INCH",
    "Block",
    "Heading",
    "Note",
    "Picture",
    "PictureGrid",
    "PictureRow",
    "Sheet",
    "TableBlock",
    "WorkingBlock",
    "write_block",
]

PICTURE_WIDTH_IN = 7.5
PICTURE_HEIGHT_IN = 9.1
UNITS_PER_INCH = 96
_VIEW = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
_TITLE = re.compile(r"<title[^>]*>([^<]*)</title>")


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading within a sheet."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A sentence or two."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing, put on paper at its own size where it fits, so that its scale holds.

    One without a scale may be enlarged up to `largest` times.
    """

    svg: str
    widest_in: float = PICTURE_WIDTH_IN
    highest_in: float = PICTURE_HEIGHT_IN
    largest: float = 1.0

    @property
    def size_in(self) -> tuple[float, float]:
        """Width and height at full size [in]."""
        found = _VIEW.search(self.svg)
        if not found:
            raise ValueError("a drawing without a viewBox")
        return float(found[1]) / UNITS_PER_INCH, float(found[2]) / UNITS_PER_INCH

    @property
    def shrunk(self) -> float:
        """The share of its size it is printed at: 1 where it fits and may not be enlarged."""
        wide, high = self.size_in
        return min(self.largest, self.widest_in / wide, self.highest_in / high)

    @property
    def title(self) -> str:
        """Its title, for readers that do not see it."""
        found = _TITLE.search(self.svg)
        text = found[1] if found else ""
        return text.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureGrid:
    """Small drawings side by side, each under its own title."""

    pictures: tuple[Picture, ...]
    columns: int = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureRow:
    """Drawings side by side, each under its own title, that stay on one page."""

    pictures: tuple[Picture, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TableBlock:
    """A table.

    Parameters
    ----------
    table : Table
    widths : tuple of str
        Column widths as Typst has them ("1fr", "auto"); empty for as wide as needed.
    columns : int
        Columns of the page a long narrow table runs through.
    """

    table: Table
    widths: tuple[str, ...] = ()
    columns: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingBlock:
    """A working with its steps, result and sources."""

    working: Working


Block = Heading | Note | Picture | PictureGrid | PictureRow | TableBlock | WorkingBlock


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet of a book; it runs on to further pages where it must.

    Parameters
    ----------
    title : str
    blocks : tuple of Block
    flipped : bool
        Paper on its side.
    person_decides : bool
        Print in the foot that local code and the licensed person decide.
    """

    title: str
    blocks: tuple[Block, ...]
    flipped: bool = False
    person_decides: bool = False


def write_block(block: Block, *, pictures: dict[str, str]) -> str:
    """Write a block as Typst source; its drawings are added to `pictures`, by the names it calls."""
    if isinstance(block, Heading):
        return call("title-line", escaped(block.text))
    if isinstance(block, Note):
        return call("note", escaped(block.text))
    if isinstance(block, Picture):
        return _picture(block, pictures)
    if isinstance(block, PictureGrid):
        return _grid(block, pictures)
    if isinstance(block, PictureRow):
        return call("beside", array(_cells(block.pictures, pictures)))
    if isinstance(block, TableBlock):
        return _table(block)
    return _working(block.working)


def _name(svg: str, pictures: dict[str, str]) -> str:
    name = f"figure-{len(pictures) + 1}"
    pictures[name] = svg
    return name


def _picture(block: Picture, pictures: dict[str, str]) -> str:
    width = f"{block.size_in[0] * block.shrunk:.3f}in"
    written = call("picture", escaped(_name(block.svg, pictures)), width, escaped(block.title))
    if block.shrunk > 0.999 or "Scale " not in block.svg:
        return written
    smaller = f"Printed at {block.shrunk:.0%} of its scale to fit the paper; measure by the bar."
    return f"{written}\n{call('note', escaped(smaller))}"


def _grid(block: PictureGrid, pictures: dict[str, str]) -> str:
    return call("pictures", array(_cells(block.pictures, pictures)), columns=str(block.columns))


def _cells(drawings: Iterable[Picture], pictures: dict[str, str]) -> Iterator[str]:
    for drawing in drawings:
        width = f"{drawing.size_in[0] * drawing.shrunk:.3f}in"
        yield array((escaped(_name(drawing.svg, pictures)), width, escaped(drawing.title)))


def _table(block: TableBlock) -> str:
    table = block.table
    figures = table.figures or (False,) * len(table.head)
    named = {
        "caption": escaped(table.caption) if table.caption else "none",
        "head": array(escaped(cell) for cell in table.head),
        "rows": array(array(escaped(cell) for cell in row) for row in table.rows),
        "figures": array(flag(value=value) for value in figures),
    }
    if block.widths:
        named["widths"] = array(block.widths)
    written = call("ledger", **named)
    return call("in-columns", str(block.columns), f"[{written}]") if block.columns > 1 else written


def _working(working: Working) -> str:
    steps = (
        array(escaped(text) for text in (line.label, line.expression, line.result, line.source))
        for line in working_lines(working)
    )
    sources = (array((escaped(mark), escaped(text))) for mark, text in source_marks(working).items())
    return call(
        "working",
        title=escaped(working.title),
        steps=array(steps),
        result=escaped(working.result),
        assumptions=array(map(escaped, working.assumptions)),
        sources=array(sources),
    )
