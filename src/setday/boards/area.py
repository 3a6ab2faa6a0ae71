"""The count by area, as taught: each wall and ceiling, openings taken off, sheets and waste."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import ceil

from setday.boards.choices import BoardChoices
from setday.boards.specified import Cover, covers
from setday.house import House, Surface, SurfaceKind
from setday.measure import Area, Length
from setday.rules import RuleBook
from setday.working import Step, Working

__all__ = ["AreaCount", "AreaGroup", "AreaLine", "AreaOrder", "TakenOff", "count_by_area"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenOff:
    """An opening or a bare place taken off a surface, as far as nothing took it off before."""

    name: str
    width: Length
    height: Length
    area: Area


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaLine:
    """One layer of one surface in the count: its gross area, what is taken off, what is left.

    `part` is "outside walls", "inside walls" or "ceilings"; `size` says how the gross area was come by.
    """

    surface: str
    label: str
    part: str
    board_kind: str
    size: str
    gross: Area
    off: tuple[TakenOff, ...]

    @property
    def net(self) -> Area:
        """What is left to cover."""
        return sum((taken.area * -1 for taken in self.off), start=self.gross)


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaGroup:
    """All lines of one part of the house and one kind of board, and the sheets they come to, rounded up."""

    part: str
    board_kind: str
    net: Area
    sheets: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaOrder:
    """Sheets to order for walls or for ceilings of one kind of board, with waste, rounded up."""

    part: str
    board_kind: str
    counted: int
    ordered: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaCount:
    """The count by area of a house.

    Parameters
    ----------
    lines : tuple of AreaLine
    groups : tuple of AreaGroup
    orders : tuple of AreaOrder
    net_area : Area
    sheet_width, sheet_length : Length
    waste_factor : float
        What the sheets are multiplied by: 1.10 for ten in a hundred.
    working : Working
    """

    lines: tuple[AreaLine, ...]
    groups: tuple[AreaGroup, ...]
    orders: tuple[AreaOrder, ...]
    net_area: Area
    sheet_width: Length
    sheet_length: Length
    waste_factor: float
    working: Working

    @property
    def sheets(self) -> int:
        """Sheets to order, all together."""
        return sum(order.ordered for order in self.orders)


def count_by_area(house: House, *, choices: BoardChoices, rules: RuleBook) -> AreaCount:
    """Count the boards of a house by area, the way it is taught.

    Every surface is measured to the framing faces of its room.  The area of the outside walls, of the
    inside walls and of the ceilings is each divided by the area of a sheet and rounded up; waste is then
    added to the walls and to the ceilings, rounded up again.

    Parameters
    ----------
    house : House
    choices : BoardChoices
    rules : RuleBook
        From `setday.boards.board_rules`.

    Returns
    -------
    AreaCount
        With its working, line by line.

    References
    ----------
    Dagostino and Peterson, Estimating in Building Construction, example 16-3, page 203.
    """
    decided, _ = covers(house, choices=choices, rules=rules)
    lines = tuple(line for s in house.surfaces for line in _lines(s, house, decided[s.id], rules))
    sheet = Area.rectangle(rules.length("boards.by_area_width"), rules.length("boards.by_area_length"))
    waste = 1 + Fraction(str(rules.number("boards.by_area_waste"))) / 100
    groups = _groups(lines, sheet)
    orders = _orders(groups, waste)
    count = AreaCount(
        lines=lines,
        groups=groups,
        orders=orders,
        net_area=sum((line.net for line in lines), start=Area(Fraction(0))),
        sheet_width=rules.length("boards.by_area_width"),
        sheet_length=rules.length("boards.by_area_length"),
        waste_factor=float(waste),
        working=Working(key="", title="", steps=(), result="", value=0.0, unit=""),
    )
    return _with_working(count, sheet, rules)


def _with_working(count: AreaCount, sheet: Area, rules: RuleBook) -> AreaCount:
    steps = (
        *(step for line in count.lines for step in _line_steps(line)),
        *(_group_step(group, sheet, rules) for group in count.groups),
        *(_order_step(order, count.waste_factor, rules) for order in count.orders),
    )
    working = Working(
        key="boards/by-area",
        title="Sheets for the house, by area",
        steps=steps,
        result=f"{count.sheets} sheets",
        value=float(count.sheets),
        unit="sheets",
        assumptions=(
            "Surfaces are measured to the framing, without the thickness of neighbouring boards.",
            "Every sheet can be used up to its waste; how the sheets are cut is not looked at.",
        ),
    )
    return replace(count, working=working)


def _lines(surface: Surface, house: House, cover: Cover, rules: RuleBook) -> Iterable[AreaLine]:
    """Return a line a layer for the surface, and one for each wet area that takes another board."""
    whole = (Length(0), Length(0), surface.width, surface.height)
    patches = [p for p in surface.wet if p.board != "none"]
    take_off = rules.flag("boards.by_area_openings")
    openings = [(o.name, (o.x, o.y, o.w, o.h)) for o in surface.openings] if take_off else []
    bare = openings + [(p.name, (p.x, p.y, p.w, p.h)) for p in surface.wet if p.board == "none"]
    rest_off = bare + [(p.name, (p.x, p.y, p.w, p.h)) for p in patches]
    for layer in range(1, cover.layers + 1):
        label = surface.label if layer == 1 else f"{surface.label}, layer {layer}"
        yield AreaLine(
            surface=surface.id, label=label, part=_part(surface, house), board_kind=cover.board_kind,
            size=_size(surface), gross=surface.gross_area, off=_taken_off(rest_off, whole),
        )  # fmt: skip
        for patch in patches:
            box = (patch.x, patch.y, patch.w, patch.h)
            yield AreaLine(
                surface=surface.id, label=f"{label}, {patch.name}", part=_part(surface, house),
                board_kind=replace(cover, kind=patch.board).board_kind,
                size=f"{patch.w} x {patch.h}", gross=Area.rectangle(patch.w, patch.h),
                off=_taken_off(bare, box),
            )  # fmt: skip


def _part(surface: Surface, house: House) -> str:
    if surface.kind is SurfaceKind.CEILING:
        return "ceilings"
    outside = {wall.name for wall in house.walls if wall.kind.outside}
    return "outside walls" if any(span.wall in outside for span in surface.spans) else "inside walls"


def _size(surface: Surface) -> str:
    if len(surface.outline) == 4 and surface.gross_area == Area.rectangle(surface.width, surface.height):
        return f"{surface.width} x {surface.height}"
    return f"area inside {len(surface.outline)} corners, {surface.width} wide and {surface.height} high"


Box = tuple[Length, Length, Length, Length]


def _taken_off(named: list[tuple[str, Box]], inside: Box) -> tuple[TakenOff, ...]:
    """Return what is taken off, each only as far as it lies inside and nothing took it off before."""
    found: list[TakenOff] = []
    before: list[tuple[int, int, int, int]] = []
    for name, box in named:
        clipped = _overlap(_corners(box), _corners(inside))
        if clipped is None:
            continue
        area = _union([*before, clipped]) - _union(before)
        before.append(clipped)
        found.append(TakenOff(name=name, width=box[2], height=box[3], area=Area(Fraction(area, 64 * 64))))
    return tuple(found)


def _corners(box: Box) -> tuple[int, int, int, int]:
    x, y, w, h = (value.sixtyfourths for value in box)
    return x, y, x + w, y + h


def _overlap(a: tuple[int, int, int, int], b: tuple[int, int, int, int]) -> tuple[int, int, int, int] | None:
    left, bottom, right, top = max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])
    return (left, bottom, right, top) if left < right and bottom < top else None


def _union(boxes: list[tuple[int, int, int, int]]) -> int:
    """Return the area that boxes cover together."""
    xs = sorted({x for box in boxes for x in (box[0], box[2])})
    area = 0
    for left, right in pairwise(xs):
        reached, height = None, 0
        for low, high in sorted((b[1], b[3]) for b in boxes if b[0] <= left and right <= b[2]):
            start = low if reached is None else max(low, reached)
            height += max(0, high - start)
            reached = high if reached is None else max(reached, high)
        area += height * (right - left)
    return area


def _groups(lines: tuple[AreaLine, ...], sheet: Area) -> tuple[AreaGroup, ...]:
    keys = sorted({(line.part, line.board_kind) for line in lines}, key=_group_rank)
    groups = []
    for part, kind in keys:
        own = (line.net for line in lines if (line.part, line.board_kind) == (part, kind))
        net = sum(own, start=Area(Fraction(0)))
        groups.append(AreaGroup(part=part, board_kind=kind, net=net, sheets=ceil(net.sqin / sheet.sqin)))
    return tuple(groups)


def _group_rank(key: tuple[str, str]) -> tuple[int, str]:
    return ("outside walls", "inside walls", "ceilings").index(key[0]), key[1]


def _orders(groups: tuple[AreaGroup, ...], waste: Fraction) -> tuple[AreaOrder, ...]:
    counted: dict[tuple[str, str], int] = {}
    for group in groups:
        part = "ceilings" if group.part == "ceilings" else "walls"
        counted[part, group.board_kind] = counted.get((part, group.board_kind), 0) + group.sheets
    return tuple(
        AreaOrder(part=part, board_kind=kind, counted=number, ordered=ceil(number * waste))
        for (part, kind), number in counted.items()
    )


def _line_steps(line: AreaLine) -> Iterable[Step]:
    yield Step(
        label=f"{line.label}, gross", expression=line.size, result=str(line.gross),
        value=line.gross.sqft, unit="ft2",
    )  # fmt: skip
    for taken in line.off:
        yield Step(
            label=f"{line.label}, less {taken.name}", expression=f"{taken.width} x {taken.height}",
            result=f"-{taken.area}", value=-taken.area.sqft, unit="ft2",
        )  # fmt: skip
    if line.off:
        parts = " - ".join([f"{line.gross.sqft:,.1f}", *(f"{taken.area.sqft:,.1f}" for taken in line.off)])
        yield Step(
            label=f"{line.label}, net",
            expression=parts,
            result=str(line.net),
            value=line.net.sqft,
            unit="ft2",
        )


def _group_step(group: AreaGroup, sheet: Area, rules: RuleBook) -> Step:
    return Step(
        label=f"{group.part}, {group.board_kind}: sheets",
        expression=f"{group.net} / {sheet} a sheet = {float(group.net.sqin / sheet.sqin):.2f}, rounded up",
        result=f"{group.sheets} sheets",
        value=float(group.sheets),
        unit="sheets",
        source=rules["boards.by_area_length"].source,
    )


def _order_step(order: AreaOrder, factor: float, rules: RuleBook) -> Step:
    return Step(
        label=f"{order.part}, {order.board_kind}: order with waste",
        expression=f"{order.counted} x {factor:.2f} = {order.counted * factor:.1f}, rounded up",
        result=f"{order.ordered} sheets",
        value=float(order.ordered),
        unit="sheets",
        source=rules["boards.by_area_waste"].source,
    )
