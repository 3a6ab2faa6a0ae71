"""The correct working of a figure as lines of arithmetic that can be done again with one step done wrong.

A line is what a student would set down: a measure read off the tape, an area, a sum, a count.  Each is an
expression over numbers and earlier lines.  A place in it has a path, "net/1": the second part of the line
"net".  `setday.learning.working_out` does the arithmetic.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from setday.measure import Length
from setday.rules import Source

__all__ = [
    "Figure",
    "Line",
    "Node",
    "Number",
    "Of",
    "Over",
    "Part",
    "Product",
    "Role",
    "Sum",
    "Up",
    "nodes",
]


class Role(StrEnum):
    """What a part of a sum or a product stands for; says which slips can befall it."""

    PLAIN = "plain"
    SIDE = "side"
    """A side, a wall, a room, a run: one of several alike that are added up."""
    OPENING = "opening"
    CEILING = "ceiling"
    ALLOWANCE = "allowance"
    """What is added beyond the way itself: drape, tail, slack."""
    END = "end"
    """The one more that stands at the end of a row."""
    WASTE = "waste"
    FACES = "faces"
    """A wall has two."""
    HALF = "half"
    """A triangle is half its rectangle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A number that is not measured: a rule, a size as sold, a count.

    `words` is how it is written in the working; `about` what it is.
    """

    value: float
    about: str = ""
    words: str = ""
    source: Source | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Of:
    """The result of an earlier line, in feet where the line is in inches and `feet` says so."""

    line: str
    feet: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of a sum (`sign` 1 or -1) or of a product, and what it stands for."""

    node: "Node"
    role: Role = Role.PLAIN
    about: str = ""
    sign: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """Parts added up or taken off."""

    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Product:
    """Factors multiplied."""

    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Over:
    """One thing divided by another."""

    top: "Node"
    bottom: "Node"


@dataclass(frozen=True, slots=True, kw_only=True)
class Up:
    """Rounded up to whole pieces."""

    node: "Node"


Node = Number | Of | Sum | Product | Over | Up


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a working.

    Parameters
    ----------
    key : str
        Short and unique in its figure: "north".
    label : str
        "north wall, gross area".
    node : Node
    unit : str
        "in" for every measure and length in inches; "ft", "ft2", "in2", "in3", "boards" ...
    measured : Length or None
        What the tape says, where the line is a measure.
    decimals : int
        Digits after the point that are usually written.
    corner : float
        What one corner counts for when it is counted with both walls; 0 where there is none.
    source : Source or None
    """

    key: str
    label: str
    node: Node
    unit: str
    measured: Length | None = None
    decimals: int = 1
    corner: float = 0.0
    source: Source | None = None


@dataclass(frozen=True, kw_only=True)
class Figure:
    """A figure that students can try: what is asked, and the correct working as lines.

    Parameters
    ----------
    key : str
        "room/bath/boards".
    kind : str
        "boards by area", "studs" ...
    title : str
        "Boards of the bath, by area".
    ask : str
        What students are asked to find, in a sentence, with its unit.
    lines : tuple of Line
        In the order a person would do them; the last is the answer.
    swaps : tuple of (str, str)
        Measures that are easily taken for each other: length and width of a room.
    surfaces : tuple of str
        Surfaces it is about.
    room : str
        The room it is about, "" where it is not about one.
    wall : str
        The wall it is about.
    assumptions : tuple of str
    """

    key: str
    kind: str
    title: str
    ask: str
    lines: tuple[Line, ...]
    swaps: tuple[tuple[str, str], ...] = ()
    surfaces: tuple[str, ...] = ()
    room: str = ""
    wall: str = ""
    assumptions: tuple[str, ...] = ()

    @cached_property
    def by_key(self) -> dict[str, Line]:
        """The lines by their keys."""
        return {line.key: line for line in self.lines}

    @property
    def last(self) -> Line:
        """The line that is the answer."""
        return self.lines[-1]

    @property
    def unit(self) -> str:
        """The unit of the answer."""
        return self.last.unit


def nodes(node: Node, path: str) -> Iterator[tuple[str, Node]]:
    """Yield every node of an expression with its path, the outermost first.

    Parameters
    ----------
    node : Node
    path : str
        Path of `node` itself.
    """
    yield path, node
    for place, inner in enumerate(_inside(node)):
        yield from nodes(inner, f"{path}/{place}")


def _inside(node: Node) -> tuple[Node, ...]:
    if isinstance(node, Sum | Product):
        return tuple(part.node for part in node.parts)
    if isinstance(node, Over):
        return node.top, node.bottom
    return (node.node,) if isinstance(node, Up) else ()
