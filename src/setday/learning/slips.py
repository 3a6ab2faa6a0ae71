"""Every slip that can befall a figure: operations on places of its correct working."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from setday.learning.digits import places_to_swap, swapped_digits
from setday.learning.kinds import SENTENCES, SlipKind
from setday.learning.tree import Figure, Line, Node, Number, Of, Over, Product, Role, Sum, Up, nodes
from setday.learning.working_out import Change, How, work_out

__all__ = ["Slip", "slips_of"]

_SQFT = 144
_SHIFTS = (10.0, 0.1)
_CARRIES = (1.0, 10.0, 100.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One slip at one place.

    Parameters
    ----------
    kind : SlipKind
    line : str
        Key of the line it happens on.
    label : str
        That line in words.
    about : str
        What on it: a wall, an opening, a measure; may be empty.
    changes : tuple of (str, Change)
        What it does, by path.
    """

    kind: SlipKind
    line: str
    label: str
    about: str
    changes: tuple[tuple[str, Change], ...]

    @property
    def place(self) -> tuple[SlipKind, str, str]:
        """Which slip it is, whatever number came of it."""
        return self.kind, self.line, self.about

    @property
    def sentence(self) -> str:
        """What a teacher would say."""
        said = SENTENCES[self.kind] % {"line": f"'{self.label}'", "about": self.about or "it"}
        return said[0].upper() + said[1:]


def slips_of(figure: Figure) -> tuple[Slip, ...]:
    """Return every single slip that changes some line of a figure, in order of its lines.

    Parameters
    ----------
    figure : Figure
    """
    right = work_out(figure)
    found: dict[tuple[object, ...], Slip] = {}
    for line in figure.lines:
        for slip in _on_line(line, right[line.key], figure):
            wrong = work_out(figure, dict(slip.changes))
            if any(abs(wrong[key] - right[key]) > 1e-9 for key in right):
                effect = tuple(round(value, 9) for value in wrong.values())
                found.setdefault((*slip.place, effect), slip)
    return tuple(found.values())


def _on_line(line: Line, value: float, figure: Figure) -> Iterator[Slip]:
    for path, node in nodes(line.node, line.key):
        for of_node in _OF_NODES:
            yield from of_node(node, path, line, figure)
    if line.measured is not None:
        yield from _measured(line)
        yield from _everywhere(line, figure)
    else:
        yield from _result(line, value, figure)


def _everywhere(line: Line, figure: Figure) -> Iterator[Slip]:
    """Yield what goes wrong alike wherever a measure is read, the measure itself written down right."""
    reads = [
        (path, later)
        for later in figure.lines
        for path, node in nodes(later.node, later.key)
        if isinstance(node, Of) and node.line == line.key and node.feet
    ]
    if len(reads) > 1:
        for kind, how in _FEET:
            changes = ((path, Change(how=how)) for path, _ in reads)
            yield _slip(kind, reads[0][1], line.label, *changes)


def _slip(kind: SlipKind, line: Line, about: str, *changes: tuple[str, Change]) -> Slip:
    return Slip(kind=kind, line=line.key, label=line.label, about=about, changes=changes)


_TIMES_0 = Change(how=How.TIMES, number=0)
_TIMES_2 = Change(how=How.TIMES, number=2)
_NEGATED = Change(how=How.TIMES, number=-1)
_ONE = Change(how=How.SET, number=1)
_SQUARE = Change(how=How.SQUARE)

_IN_SUMS: dict[Role, tuple[tuple[SlipKind, Change], ...]] = {
    Role.SIDE: ((SlipKind.PART_FORGOTTEN, _TIMES_0), (SlipKind.PART_TWICE, _TIMES_2)),
    Role.OPENING: ((SlipKind.OPENING_FORGOTTEN, _TIMES_0), (SlipKind.OPENING_ADDED, _NEGATED)),
    Role.CEILING: ((SlipKind.CEILING_FORGOTTEN, _TIMES_0), (SlipKind.PART_TWICE, _TIMES_2)),
    Role.ALLOWANCE: ((SlipKind.ALLOWANCE_FORGOTTEN, _TIMES_0), (SlipKind.ALLOWANCE_TWICE, _TIMES_2)),
    Role.END: ((SlipKind.END_FORGOTTEN, _TIMES_0), (SlipKind.END_TWICE, _TIMES_2)),
}
_IN_PRODUCTS: dict[Role, tuple[tuple[SlipKind, Change], ...]] = {
    Role.WASTE: ((SlipKind.WASTE_FORGOTTEN, _ONE), (SlipKind.WASTE_TWICE, _SQUARE)),
    Role.FACES: ((SlipKind.ONE_FACE, _ONE), (SlipKind.FACES_TWICE, _SQUARE)),
    Role.HALF: ((SlipKind.HALF_FORGOTTEN, _ONE),),
}


def _parts(node: Node, path: str, line: Line, _figure: Figure) -> Iterator[Slip]:
    if not isinstance(node, Sum | Product):
        return
    table = _IN_SUMS if isinstance(node, Sum) else _IN_PRODUCTS
    for place, part in enumerate(node.parts):
        for kind, change in table.get(part.role, ()):
            yield _slip(kind, line, part.about, (f"{path}/{place}", change))
    openings = [place for place, part in enumerate(node.parts) if part.role is Role.OPENING]
    if len(openings) > 1:
        about = "Every opening"
        for kind, change in _IN_SUMS[Role.OPENING]:
            yield _slip(kind, line, about, *((f"{path}/{place}", change) for place in openings))


def _rounding(node: Node, path: str, line: Line, _figure: Figure) -> Iterator[Slip]:
    if isinstance(node, Up):
        yield _slip(SlipKind.ROUNDED_DOWN, line, "", (path, Change(how=How.FLOOR)))
        yield _slip(SlipKind.UNROUNDED, line, "", (path, Change(how=How.UNROUNDED)))


def _square_inches(node: Node, path: str, line: Line, _figure: Figure) -> Iterator[Slip]:
    if isinstance(node, Over) and isinstance(node.bottom, Number) and node.bottom.value == _SQFT:
        yield _slip(SlipKind.BY_TWELVE, line, "", (f"{path}/1", Change(how=How.SET, number=12)))
        yield _slip(SlipKind.WRONG_UNIT, line, "", (f"{path}/1", _ONE))


def _readings(node: Node, path: str, line: Line, figure: Figure) -> Iterator[Slip]:
    """Yield what can go wrong where a measure is read on one line."""
    if not isinstance(node, Of):
        return
    read = figure.by_key[node.line]
    if node.feet and read.unit == "in":
        for kind, how in _FEET:
            yield _slip(kind, line, read.label, (path, Change(how=how)))
    for one, other in figure.swaps:
        for mine, its in ((one, other), (other, one)):
            if node.line == mine:
                taken = Change(how=How.TAKE, line=its)
                yield _slip(SlipKind.OTHER_MEASURE, line, read.label, (path, taken))


_FEET = (
    (SlipKind.DECIMAL_FEET, How.DECIMAL),
    (SlipKind.DECIMAL_FEET, How.DECIMAL_WHOLE),
    (SlipKind.INCHES_AS_FEET, How.INCHES),
    (SlipKind.INCHES_AS_FEET, How.SUMMED),
)
_OF_NODES: tuple[Callable[[Node, str, Line, Figure], Iterator[Slip]], ...] = (
    _parts,
    _rounding,
    _square_inches,
    _readings,
)


def _measured(line: Line) -> Iterator[Slip]:
    """Yield what can go wrong with a measure for the whole of a figure."""
    result = f"={line.key}"
    for kind, how in _FEET:
        yield _slip(kind, line, "", (result, Change(how=how)))
    inches = line.measured.inches if line.measured is not None else 0.0
    for foot in (12, -12):
        if inches + foot > 0:
            yield _slip(SlipKind.TAPE_FOOT, line, "", (result, Change(how=How.PLUS, number=foot)))
    feet, rest = divmod(inches, 12)
    swapped = swapped_digits(feet, place=0, decimals=0) if 10 <= feet < 100 else feet
    if swapped != feet:
        change = Change(how=How.PLUS, number=12 * (swapped - feet))
        yield _slip(SlipKind.DIGITS_SWAPPED, line, "", (result, change))
    if rest == int(rest) and rest:
        yield _slip(SlipKind.DIGITS_SWAPPED, line, "", (result, Change(how=How.FEET_INCHES)))


def _result(line: Line, value: float, figure: Figure) -> Iterator[Slip]:
    """Yield what can go wrong with the number that comes out of a line."""
    for kind, change in (
        *((SlipKind.DIGITS_SWAPPED, change) for change in _digits(line, value)),
        *((SlipKind.ARITHMETIC, change) for change in _arithmetic(line, value)),
        *((SlipKind.WRONG_UNIT, change) for change in _units(line, figure)),
        *((SlipKind.CORNER_TWICE, change) for change in _corners(line)),
    ):
        yield _slip(kind, line, "", (f"={line.key}", change))


def _digits(line: Line, value: float) -> Iterator[Change]:
    for decimals in range(1 if isinstance(line.node, Up) else 3):
        for place in range(places_to_swap(value, decimals=decimals)):
            yield Change(how=How.DIGITS, number=place, decimals=decimals)


def _arithmetic(line: Line, value: float) -> Iterator[Change]:
    """Yield a carry too many or too few, and the point set one place off."""
    if not isinstance(line.node, Sum | Product | Over):
        return
    for step in (each for each in _CARRIES if each < abs(value)):
        yield from (Change(how=How.PLUS, number=sign * step) for sign in (1, -1))
    yield from (Change(how=How.TIMES, number=times) for times in _SHIFTS)


def _units(line: Line, figure: Figure) -> Iterator[Change]:
    if line is figure.last:
        yield from (Change(how=How.TIMES, number=times) for times in _OTHER_UNITS.get(line.unit, ()))


def _corners(line: Line) -> Iterator[Change]:
    if line.corner:
        yield from (Change(how=How.PLUS, number=corners * line.corner) for corners in (1, 4))


_OTHER_UNITS: dict[str, tuple[float, ...]] = {
    "ft2": (144.0, 1 / 9),
    "ft": (12.0, 1 / 3),
    "in": (1 / 12,),
}
"""The answer in square inches or square yards, inches or yards, feet."""
