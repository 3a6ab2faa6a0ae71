"""How the finish of a timetable spreads over many plays, against set day."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from setday.drawing.hatch import hatch_box
from setday.drawing.ink import BOLD, FINE, HAIR, LINE, Svg, group, line, rect
from setday.drawing.lettering import letters, text_width
from setday.drawing.paper import LANDSCAPE, Paper, finish, key_of
from setday.drawing.table import Table
from setday.drawing.timeline import READABLE

__all__ = ["spread_picture", "spread_table"]

_LEFT, _TOP, _BOTTOM = 58.0, 44.0, 250.0


def spread_picture(
    finishes: Sequence[tuple[date, int]],
    *,
    beyond: int,
    set_day: date,
    marks: Sequence[tuple[str, date]] = (),
    title: str,
    paper: Paper = LANDSCAPE,
) -> str:
    """Draw how many plays finish on which day, against set day.

    Plays that make set day are hatched, those that do not are solid; so are those beyond the calendar.

    Parameters
    ----------
    finishes : sequence of (date, int)
        Day of the last work, and how many plays have it, in order.
    beyond : int
        Plays that were not done within the calendar.
    set_day : date
    marks : sequence of (str, date)
        Days to point at: "80 %".
    title : str
    paper : Paper
        Only its width is used.

    Returns
    -------
    str
        An SVG.
    """
    shown = [*finishes] or [(set_day, 0)]
    axis = _Days.around([*(day for day, _ in shown), set_day], right=paper.width - 12)
    most = max([many for _, many in shown] or [1]) or 1
    total = sum(many for _, many in shown) + beyond
    high = (_BOTTOM - _TOP) / most
    bars = [_count_bar(axis.x(day), axis.each, many * high, late=day >= set_day) for day, many in shown]
    at = axis.x(set_day)
    body = (
        line(x1=_LEFT, y1=_BOTTOM, x2=axis.right, y2=_BOTTOM),
        *(_share(value, most, total, axis.right) for value in (0.5, 1.0)),
        *bars,
        _day_marks(axis),
        line(x1=at, y1=20, x2=at, y2=_BOTTOM + 6, width=BOLD),
        letters("SET DAY", x=at, y=12, size=READABLE, bold=True, halo=True),
        *_pointers(marks, axis),
        _spread_key(_BOTTOM + 40, beyond, total),
    )
    return finish(
        body=body,
        title=title,
        desc=_spread_words(shown, beyond, set_day),
        width=paper.width,
        height=_BOTTOM + 54,
        key=key_of("spread", title),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Days:
    """The days from left to right."""

    first: date
    last: date
    right: float

    @classmethod
    def around(cls, days: Sequence[date], *, right: float) -> "_Days":
        return cls(first=min(days) - timedelta(days=2), last=max(days) + timedelta(days=2), right=right)

    @property
    def each(self) -> float:
        return (self.right - _LEFT) / ((self.last - self.first).days + 1)

    def x(self, day: date) -> float:
        return _LEFT + (day - self.first).days * self.each


def _count_bar(x: float, wide: float, high: float, *, late: bool) -> Svg:
    if high <= 0:
        return Svg("")
    y, w = _BOTTOM - high, max(wide * 0.86, 1.0)
    box = rect(x=x, y=y, w=w, h=high, width=FINE, fill="ink" if late else "paper")
    return group(box, Svg("") if late else hatch_box(x=x, y=y, w=w, h=high, spacing=5))


def _share(part: float, most: int, total: int, right: float) -> Svg:
    y = _BOTTOM - part * (_BOTTOM - _TOP)
    share = part * most / total if total else 0.0
    return group(
        line(x1=_LEFT - 4, y1=y, x2=right, y2=y, width=HAIR, dash="1 3"),
        letters(f"{share:.1%}", x=_LEFT - 7, y=y, size=READABLE, anchor="end"),
    )


def _day_marks(axis: _Days) -> Svg:
    parts, written = [], -100.0
    day = axis.first
    while day <= axis.last:
        at, text = axis.x(day) + axis.each / 2, f"{day.day} {day:%b}"
        half = text_width(text, size=READABLE) / 2
        if at - half > written + 8 and at + half <= axis.right + 10:
            parts.append(line(x1=at, y1=_BOTTOM, x2=at, y2=_BOTTOM + 4, width=FINE))
            parts.append(letters(text, x=at, y=_BOTTOM + 13, size=READABLE))
            written = at + half
        day += timedelta(days=1)
    return group(*parts)


def _pointers(marks: Sequence[tuple[str, date]], axis: _Days) -> list[Svg]:
    """Point at days; shares that fall on one day share a pointer."""
    joined: dict[date, list[str]] = {}
    for words, day in marks:
        joined.setdefault(day, []).append(words)
    parts = []
    for number, (day, said) in enumerate(joined.items()):
        at, y = axis.x(day) + axis.each / 2, 26 + 12 * (number % 2)
        parts.append(line(x1=at, y1=y + 6, x2=at, y2=_TOP + 40, width=LINE, dash="4 3"))
        parts.append(letters(", ".join(said), x=at, y=y, size=READABLE, halo=True))
    return parts


def _spread_key(y: float, beyond: int, total: int) -> Svg:
    parts = [
        rect(x=58, y=y - 5, w=20, h=10, width=FINE, fill="paper"),
        hatch_box(x=58, y=y - 5, w=20, h=10, spacing=5),
        letters("ready before set day", x=83, y=y, size=READABLE, anchor="start"),
        rect(x=230, y=y - 5, w=20, h=10, width=FINE, fill="ink"),
        letters("too late", x=255, y=y, size=READABLE, anchor="start"),
    ]
    if beyond and total:
        words = f"not shown: {beyond / total:.1%} not done within the calendar"
        parts.append(letters(words, x=330, y=y, size=READABLE, anchor="start"))
    return group(*parts)


def _spread_words(shown: Sequence[tuple[date, int]], beyond: int, set_day: date) -> str:
    total = sum(many for _, many in shown) + beyond
    made = sum(many for day, many in shown if day < set_day)
    share = made / total if total else 0.0
    return f"{share:.0%} of {total:,} plays are ready before set day, {set_day:%d %B %Y}."


def spread_table(finishes: Sequence[tuple[date, int]], *, beyond: int, set_day: date, caption: str) -> Table:
    """Return the spread in figures: by week, and how many are ready by its end."""
    total = sum(many for _, many in finishes) + beyond
    weeks: dict[date, int] = {}
    for day, many in finishes:
        weeks[day - timedelta(days=day.weekday())] = weeks.get(day - timedelta(days=day.weekday()), 0) + many
    rows, so_far = [], 0
    for monday, many in sorted(weeks.items()):
        so_far += many
        word = " (set day)" if monday <= set_day < monday + timedelta(days=7) else ""
        rows.append((f"{monday:%d %b %Y}{word}", f"{many / total:.1%}", f"{so_far / total:.1%}"))
    if beyond:
        rows.append(("after the calendar", f"{beyond / total:.1%}", ""))
    return Table(
        caption=caption,
        head=("Week from Monday", "Ready in it", "Ready by its end"),
        rows=tuple(rows),
        figures=(False, True, True),
    )
