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
_NARROW = 420.0
"""On a narrower paper the words of a row stand over its stretches, and all letters are larger."""
_LARGER = 12.0
_DAYS = 21
"""So many days at the most are each given their letter."""
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
    size: float = READABLE
    over: bool = False

    @property
    def lane(self) -> float:
        """Height of a lane."""
        return _LANE * self.size / READABLE

    @property
    def head(self) -> float:
        """Height of the dates."""
        return _HEAD + (self.size + 3 if self.lettered else 0.0)

    @property
    def lettered(self) -> bool:
        """Whether each day has its letter."""
        return self.over and self.days <= _DAYS

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
    axis, words = _placed(rows, first=first, last=last, paper=paper)
    top = axis.head
    body: list[Svg] = []
    for row in rows:
        lanes = _lanes(row.stretches)
        high = axis.lane * (max(1, len(lanes)) + axis.over)
        body.append(_row(row, lanes, axis=axis, top=top, words=words))
        top += high
    bottom = top + 2
    keys, high = _key(key, top=bottom + axis.lane, width=paper.width, size=axis.size)
    return finish(
        body=(_weeks(axis, bottom), *body, *_marked(axis, set_day, today, bottom), keys),
        title=title,
        desc=desc,
        width=paper.width,
        height=bottom + axis.lane + high,
        key=key_of("timeline", title),
    )


def _placed(rows: Sequence[Row], *, first: date, last: date, paper: Paper) -> tuple[_Axis, float]:
    """Return where the days stand, and the room of the words of a row."""
    if paper.width < _NARROW:
        axis = _Axis(left=6, right=paper.width - 6, first=first, last=last, size=_LARGER, over=True)
        return axis, paper.width
    widest = max((text_width(row.label, size=READABLE) for row in rows), default=0.0)
    marks = 14.0 if any(row.mark for row in rows) else 0.0
    words = min(widest, paper.width * _WORDS) + 8
    return _Axis(left=words + marks + 4, right=paper.width - 8, first=first, last=last), words


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
    high = axis.lane * (max(1, len(lanes)) + axis.over)
    parts = [
        line(x1=4, y1=top + high, x2=axis.right, y2=top + high, width=HAIR, dash="1 3"),
        *_named(row, axis=axis, middle=top + (axis.lane if axis.over else high) / 2, words=words),
    ]
    first = top + axis.lane * axis.over
    for number, lane in enumerate(lanes):
        parts += [_stretch(each, axis, first + number * axis.lane) for each in lane]
    return group(*parts)


def _named(row: Row, *, axis: _Axis, middle: float, words: float) -> Iterator[Svg]:
    """Letter a row: beside its stretches, or over them with its mark at the end of the line."""
    room = words - 6
    if axis.over:
        room = axis.right - axis.left - (axis.size if row.mark else 0.0)
    label = _cut(row.label, room, size=axis.size)
    yield letters(
        label, x=axis.left if axis.over else 4, y=middle, size=axis.size, anchor="start", halo=axis.over
    )
    if row.mark:
        x = axis.right - axis.size / 2 if axis.over else words + 7
        yield letters(row.mark, x=x, y=middle, size=axis.size, bold=True, halo=axis.over)


def _stretch(stretch: Stretch, axis: _Axis, top: float) -> Svg:
    left, right = axis.x(max(stretch.first, axis.first)), axis.x(stretch.last + timedelta(days=1))
    right = min(right, axis.right)
    if right <= left:
        return Svg("")
    x, y, w, h = left, top + 2, max(right - left, 2.0), axis.lane - 4
    fill = "ink" if stretch.filling is Filling.INK else "paper"
    hatching = [
        hatch_box(x=x, y=y, w=w, h=h, spacing=spacing, angle=angle)
        for spacing, angle in _ANGLES.get(stretch.filling, ())
    ]
    inside = Svg("")
    if stretch.text and text_width(stretch.text, size=axis.size) + 3 <= w and fill != "ink":
        halo = bool(hatching)
        inside = letters(stretch.text, x=x + w / 2, y=y + h / 2, size=axis.size, bold=True, halo=halo)
    return group(rect(x=x, y=y, w=w, h=h, width=FINE, fill=fill), *hatching, inside)


def _cut(text: str, width: float, *, size: float) -> str:
    if text_width(text, size=size) <= width:
        return text
    while text and text_width(text + "...", size=size) > width:
        text = text[:-1]
    return text.rstrip() + "..."


def _weeks(axis: _Axis, bottom: float) -> Svg:
    """Draw a line a week, and write as many of their dates as find room; over few days, each day's letter."""
    head = axis.head
    parts = [line(x1=axis.left, y1=head - 2, x2=axis.right, y2=head - 2, width=FINE)]
    written = axis.left - 100.0
    for monday in _mondays(axis):
        x = axis.x(monday)
        parts.append(line(x1=x, y1=head - 6, x2=x, y2=bottom, width=HAIR))
        text = f"{monday.day} {monday:%b}"
        half = text_width(text, size=axis.size) / 2
        at = max(x, axis.left + half) if axis.over else x
        if at - half >= written + 6 and at + half <= axis.right:
            parts.append(letters(text, x=at, y=_HEAD - 13, size=axis.size))
            written = at + half
    return group(*parts, *(_letters_of_days(axis) if axis.lettered else ()))


def _letters_of_days(axis: _Axis) -> Iterator[Svg]:
    for number in range(axis.days):
        day = axis.first + timedelta(days=number)
        if day.weekday() < 5:
            x = (axis.x(day) + axis.x(day + timedelta(days=1))) / 2
            yield letters(f"{day:%a}"[0], x=x, y=axis.head - 10, size=axis.size)


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
        yield letters("SET DAY", x=at, y=7, size=axis.size, bold=True, halo=True, anchor=anchor)
    if today is not None and axis.first <= today <= axis.last:
        x = axis.x(today)
        yield line(x1=x, y1=12, x2=x, y2=bottom, width=LINE, dash="4 3")
        half = text_width("now", size=axis.size) / 2
        yield letters("now", x=max(x, 4 + half), y=7, size=axis.size, halo=True)


def _key(
    entries: Sequence[KeyEntry], *, top: float, width: float, size: float = READABLE
) -> tuple[Svg, float]:
    """Draw the key in as many lines as it takes; return it with its height."""
    parts: list[Svg] = []
    x, y, day = 4.0, top, date(2000, 1, 1)
    lane = _LANE * size / READABLE
    for entry in entries:
        long = 30 + text_width(entry.words, size=size) + 14
        if x + long > width and x > 4:
            x, y = 4.0, y + lane + 3
        axis = _Axis(left=x, right=x + 24, first=day, last=day, size=size)
        parts.append(_stretch(Stretch(first=day, last=day, filling=entry.filling), axis, y - lane / 2))
        parts.append(letters(entry.words, x=x + 29, y=y, size=size, anchor="start"))
        x += long
    return group(*parts), (y - top + lane if entries else 0.0)
