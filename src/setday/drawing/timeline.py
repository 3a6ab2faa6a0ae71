"""Time from left to right: rows of stretches over the days of a calendar, set day marked."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from setday.drawing.hatch import hatch_box
from setday.drawing.ink import BOLD, FINE, HAIR, LINE, Svg, group, line, rect
from setday.drawing.lettering import letters, text_width
from setday.drawing.paper import LANDSCAPE, Paper, finish, key_of

__all__ = ["READABLE", "Filling", "KeyEntry", "Row", "Stretch", "timeline"]

READABLE = 9.5
"""Size of the smallest letters [drawing units]: 7.1 pt on paper."""
_LANE = 13.0
_HEAD = 34.0
_WORDS = 0.34
"""Share of the width that the words of the rows take at the most."""


class Filling(StrEnum):
    """What a stretch is filled with; told apart in black and white."""

    PAPER = "paper"
    INK = "ink"
    UP = "up"
    DOWN = "down"
    CROSS = "cross"
    UPRIGHT = "upright"
    LEVEL = "level"
    GRID = "grid"
    CLOSE = "close"


_ANGLES: dict[Filling, tuple[tuple[float, float], ...]] = {
    Filling.UP: ((5.0, 45.0),),
    Filling.DOWN: ((5.0, -45.0),),
    Filling.CROSS: ((5.0, 45.0), (5.0, -45.0)),
    Filling.UPRIGHT: ((4.0, 90.0),),
    Filling.LEVEL: ((3.0, 0.0),),
    Filling.GRID: ((4.0, 90.0), (3.0, 0.0)),
    Filling.CLOSE: ((2.6, 45.0),),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Days on which something runs.

    Parameters
    ----------
    first, last : date
        Both counted.
    filling : Filling
    text : str
        Written in it where it fits.
    """

    first: date
    last: date
    filling: Filling
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of words and its stretches; those that overlap stand under one another."""

    label: str
    stretches: tuple[Stretch, ...]
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyEntry:
    """What a filling stands for."""

    filling: Filling
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Axis:
    left: float
    right: float
    first: date
    last: date

    def x(self, day: date) -> float:
        """Return the left edge of a day."""
        return self.left + (self.right - self.left) * (day - self.first).days / self.days

    @property
    def days(self) -> int:
        return (self.last - self.first).days + 1


def timeline(
    rows: Sequence[Row],
    *,
    first: date,
    last: date,
    set_day: date,
    title: str,
    desc: str,
    key: Sequence[KeyEntry] = (),
    today: date | None = None,
    paper: Paper = LANDSCAPE,
) -> str:
    """Draw rows of stretches over days.

    Parameters
    ----------
    rows : sequence of Row
    first, last : date
        The days drawn.
    set_day : date
        Marked by a heavy line where it is drawn.
    title, desc : str
        For readers that do not see it.
    key : sequence of KeyEntry
    today : date or None
        Marked by a dashed line.
    paper : Paper
        Only its width is used.

    Returns
    -------
    str
        An SVG.
    """
    widest = max((text_width(row.label, size=READABLE) for row in rows), default=0.0)
    marks = 14.0 if any(row.mark for row in rows) else 0.0
    words = min(widest, paper.width * _WORDS) + 8
    axis = _Axis(left=words + marks + 4, right=paper.width - 8, first=first, last=last)
    top = _HEAD
    body: list[Svg] = []
    for row in rows:
        lanes = _lanes(row.stretches)
        high = _LANE * max(1, len(lanes))
        body.append(_row(row, lanes, axis=axis, top=top, words=words))
        top += high
    bottom = top + 2
    keys, high = _key(key, top=bottom + 12, width=paper.width)
    return finish(
        body=(_weeks(axis, bottom), *body, *_marked(axis, set_day, today, bottom), keys),
        title=title,
        desc=desc,
        width=paper.width,
        height=bottom + 12 + high,
        key=key_of("timeline", title),
    )


def _lanes(stretches: Sequence[Stretch]) -> list[list[Stretch]]:
    """Return the stretches in as few lanes as keep them apart."""
    lanes: list[list[Stretch]] = []
    for stretch in sorted(stretches, key=lambda each: (each.first, each.last, each.text)):
        for lane in lanes:
            if lane[-1].last < stretch.first:
                lane.append(stretch)
                break
        else:
            lanes.append([stretch])
    return lanes


def _row(row: Row, lanes: list[list[Stretch]], *, axis: _Axis, top: float, words: float) -> Svg:
    high = _LANE * max(1, len(lanes))
    middle = top + high / 2
    parts = [
        line(x1=4, y1=top + high, x2=axis.right, y2=top + high, width=HAIR, dash="1 3"),
        letters(_cut(row.label, words - 6), x=4, y=middle, size=READABLE, anchor="start"),
    ]
    if row.mark:
        parts.append(letters(row.mark, x=words + 7, y=middle, size=READABLE, bold=True))
    for number, lane in enumerate(lanes):
        parts += [_stretch(each, axis, top + number * _LANE) for each in lane]
    return group(*parts)


def _stretch(stretch: Stretch, axis: _Axis, top: float) -> Svg:
    left, right = axis.x(max(stretch.first, axis.first)), axis.x(stretch.last + timedelta(days=1))
    right = min(right, axis.right)
    if right <= left:
        return Svg("")
    x, y, w, h = left, top + 2, max(right - left, 2.0), _LANE - 4
    fill = "ink" if stretch.filling is Filling.INK else "paper"
    hatching = [
        hatch_box(x=x, y=y, w=w, h=h, spacing=spacing, angle=angle)
        for spacing, angle in _ANGLES.get(stretch.filling, ())
    ]
    inside = Svg("")
    if stretch.text and text_width(stretch.text, size=READABLE) + 3 <= w and fill != "ink":
        halo = bool(hatching)
        inside = letters(stretch.text, x=x + w / 2, y=y + h / 2, size=READABLE, bold=True, halo=halo)
    return group(rect(x=x, y=y, w=w, h=h, width=FINE, fill=fill), *hatching, inside)


def _cut(text: str, width: float) -> str:
    if text_width(text, size=READABLE) <= width:
        return text
    while text and text_width(text + "...", size=READABLE) > width:
        text = text[:-1]
    return text.rstrip() + "..."


def _weeks(axis: _Axis, bottom: float) -> Svg:
    """Draw a line a week, and write as many of their dates as find room."""
    parts = [line(x1=axis.left, y1=_HEAD - 2, x2=axis.right, y2=_HEAD - 2, width=FINE)]
    written = axis.left - 100.0
    for monday in _mondays(axis):
        x = axis.x(monday)
        parts.append(line(x1=x, y1=_HEAD - 6, x2=x, y2=bottom, width=HAIR))
        text = f"{monday.day} {monday:%b}"
        half = text_width(text, size=READABLE) / 2
        if x - half >= written + 6 and x + half <= axis.right:
            parts.append(letters(text, x=x, y=_HEAD - 13, size=READABLE))
            written = x + half
    return group(*parts)


def _mondays(axis: _Axis) -> Iterator[date]:
    day = axis.first + timedelta(days=-axis.first.weekday() % 7)
    while day <= axis.last:
        yield day
        day += timedelta(days=7)


def _marked(axis: _Axis, set_day: date, today: date | None, bottom: float) -> Iterator[Svg]:
    if axis.first <= set_day <= axis.last:
        x = axis.x(set_day)
        yield line(x1=x, y1=12, x2=x, y2=bottom, width=BOLD)
        anchor = "end" if x > axis.right - 60 else "middle"
        at = min(x, axis.right)
        yield letters("SET DAY", x=at, y=7, size=READABLE, bold=True, halo=True, anchor=anchor)
    if today is not None and axis.first <= today <= axis.last:
        x = axis.x(today)
        yield line(x1=x, y1=12, x2=x, y2=bottom, width=LINE, dash="4 3")
        yield letters("now", x=x, y=7, size=READABLE, halo=True)


def _key(entries: Sequence[KeyEntry], *, top: float, width: float) -> tuple[Svg, float]:
    """Draw the key in as many lines as it takes; return it with its height."""
    parts: list[Svg] = []
    x, y = 4.0, top
    for entry in entries:
        long = 30 + text_width(entry.words, size=READABLE) + 14
        if x + long > width and x > 4:
            x, y = 4.0, y + _LANE + 3
        day = date(2000, 1, 1)
        axis = _Axis(left=x, right=x + 24, first=day, last=day)
        parts.append(_stretch(Stretch(first=day, last=day, filling=entry.filling), axis, y - _LANE / 2))
        parts.append(letters(entry.words, x=x + 29, y=y, size=READABLE, anchor="start"))
        x += long
    return group(*parts), (y - top + _LANE if entries else 0.0)
