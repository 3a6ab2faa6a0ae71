"""A hookup at a glance: its boxes and cables, small, without words; nothing of how it is joined."""

from collections import deque
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from setday.switching import Hookup

__all__ = ["thumbnail"]

_STEP, _ROW, _HALF = 56, 44, 15


def thumbnail(hookup: "Hookup") -> str:
    """Return the boxes of a hookup with the cables, or else the paths, between them."""
    ways = [(cable.a, cable.b) for cable in hookup.cables] or [(path.a, path.b) for path in hookup.paths]
    places = _places(hookup, ways)
    wide = max((x for x, _ in places.values()), default=0) + 2 * _HALF + 34
    high = max((y for _, y in places.values()), default=0) + 2 * _HALF + 16
    lines = []
    for a, b in ways:
        (x1, y1), (x2, y2) = places[a], places[b]
        lines.append(f"M{x1} {y1}C{x1 + 26} {y1} {x2 - 26} {y2} {x2} {y2}")
    x, y = places[hookup.feed.box]
    parts = [f'<path d="M0 {y}H{x}{"".join(lines)}" stroke="currentColor" stroke-width="3" fill="none"/>']
    parts += [_box(hookup, name, *place) for name, place in places.items()]
    return (
        f'<svg viewBox="0 0 {wide} {high}" aria-hidden="true" focusable="false" class="thumbnail">'
        f"{''.join(parts)}</svg>"
    )


def _places(hookup: "Hookup", ways: list[tuple[str, str]]) -> dict[str, tuple[int, int]]:
    """Put boxes by their distance from the feed, column by column."""
    steps, waiting = {hookup.feed.box: 0}, deque([hookup.feed.box])
    while waiting:
        box = waiting.popleft()
        for a, b in ways:
            for here, there in ((a, b), (b, a)):
                if here == box and there not in steps:
                    steps[there] = steps[box] + 1
                    waiting.append(there)
    rows: dict[int, int] = {}
    places = {}
    for each in hookup.boxes:
        column = steps.get(each.name, max(steps.values()) + 1)
        row = rows.get(column, 0)
        rows[column] = row + 1
        places[each.name] = (34 + column * _STEP, 8 + _HALF + row * _ROW)
    return places


def _box(hookup: "Hookup", name: str, x: int, y: int) -> str:
    kinds = {device.kind.value.split()[0] for device in hookup.devices if device.box == name}
    outline = (
        f'<circle cx="{x}" cy="{y}" r="{_HALF}"'
        if kinds == {"lamp"}
        else f'<rect x="{x - _HALF}" y="{y - _HALF}" width="{2 * _HALF}" height="{2 * _HALF}"'
    )
    marks = ""
    if "lamp" in kinds:
        marks += f'<path d="M{x - 8} {y - 8}l16 16m0 -16l-16 16" stroke="currentColor" stroke-width="2"/>'
    if kinds & {"single-pole", "three-way", "four-way"}:
        marks += f'<path d="M{x - 7} {y + 6}l12 -13" stroke="currentColor" stroke-width="4"/>'
    if "receptacle" in kinds:
        marks += f'<path d="M{x - 4} {y - 6}v12m8 -12v12" stroke="currentColor" stroke-width="3"/>'
    return f'{outline} fill="#fff" stroke="currentColor" stroke-width="2.5"/>{marks}'
