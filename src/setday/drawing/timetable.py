"""Pictures of a timetable: tasks over time, places over time, and the spread of its finish."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from setday.drawing.hatch import hatch_box
from setday.drawing.ink import BOLD, FINE, HAIR, LINE, Svg, group, line, rect
from setday.drawing.lettering import letters, text_width
from setday.drawing.paper import LANDSCAPE, Paper, finish, key_of
from setday.drawing.table import Table
from setday.drawing.timeline import READABLE, Filling, KeyEntry, Row, Stretch, timeline

__all__ = [
    "PlacedTask",
    "TaskState",
    "place_chart",
    "spread_picture",
    "spread_table",
    "task_chart",
    "task_table",
    "trade_codes",
]


class TaskState(StrEnum):
    """How far a task is; its letter stands beside its bar."""

    DONE = "D"
    RUNNING = "R"
    PLANNED = "P"


_STATE_FILLING = {
    TaskState.DONE: Filling.INK,
    TaskState.RUNNING: Filling.CROSS,
    TaskState.PLANNED: Filling.PAPER,
}
_STATE_WORDS = {
    TaskState.DONE: "D done",
    TaskState.RUNNING: "R running",
    TaskState.PLANNED: "P planned",
}
At = Callable[[date], float]
_TRADE_FILLINGS = tuple(filling for filling in Filling if filling is not Filling.INK)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedTask:
    """A task with the days on which it runs.

    Parameters
    ----------
    label, place, trade : str
    days : tuple of date
        In order; empty where it never runs.
    state : TaskState
    done_days : int
        How many of the days are over.
    """

    label: str
    place: str
    trade: str
    days: tuple[date, ...]
    state: TaskState
    done_days: int = 0


def task_chart(
    tasks: Sequence[PlacedTask],
    *,
    first: date,
    last: date,
    set_day: date,
    title: str,
    today: date | None = None,
    paper: Paper = LANDSCAPE,
) -> str:
    """Draw a bar for each task over the days it runs; done, running and planned by pattern and letter.

    Parameters
    ----------
    tasks : sequence of PlacedTask
    first, last : date
    set_day : date
    title : str
    today : date or None
    paper : Paper

    Returns
    -------
    str
        An SVG.
    """
    rows = [Row(label=task.label, stretches=_bars(task), mark=task.state.value) for task in tasks]
    used = [state for state in TaskState if any(task.state is state for task in tasks)]
    key = [KeyEntry(filling=_STATE_FILLING[state], words=_STATE_WORDS[state]) for state in used]
    return timeline(
        rows,
        first=first,
        last=last,
        set_day=set_day,
        title=title,
        desc=_task_words(tasks, set_day),
        key=key,
        today=today,
        paper=paper,
    )


def _bars(task: PlacedTask) -> tuple[Stretch, ...]:
    """Return the days that follow each other as one stretch, a weekend between them left out."""
    stretches = []
    for number, run in _runs(task.days):
        over = [day for at, day in enumerate(run, start=number) if at < task.done_days]
        for days, filling in (
            (over, Filling.INK),
            (run[len(over) :], _STATE_FILLING[task.state]),
        ):
            if days:
                stretches.append(Stretch(first=days[0], last=days[-1], filling=filling))
    return tuple(stretches)


def _runs(days: Sequence[date]) -> list[tuple[int, list[date]]]:
    runs: list[tuple[int, list[date]]] = []
    for number, day in enumerate(days):
        if runs and (day - runs[-1][1][-1]).days <= _next_school_day(runs[-1][1][-1]):
            runs[-1][1].append(day)
        else:
            runs.append((number, [day]))
    return runs


def _next_school_day(day: date) -> int:
    return 3 if day.weekday() == 4 else 1


def _task_words(tasks: Sequence[PlacedTask], set_day: date) -> str:
    days = [task.days for task in tasks if task.days]
    if not days:
        return "No task runs."
    first, last = min(each[0] for each in days), max(each[-1] for each in days)
    return f"{len(days)} tasks from {first:%d %B %Y} to {last:%d %B %Y}; set day is {set_day:%d %B %Y}."


def task_table(tasks: Sequence[PlacedTask], *, caption: str) -> Table:
    """Return the bars in words and dates."""
    return Table(
        caption=caption,
        head=("Task", "Place", "Trade", "Begins", "Ends", "Periods", "State"),
        rows=tuple(
            (
                task.label,
                task.place,
                task.trade,
                f"{task.days[0]:%a %d %b}" if task.days else "not",
                f"{task.days[-1]:%a %d %b}" if task.days else "not",
                str(len(task.days)),
                _STATE_WORDS[task.state][2:],
            )
            for task in tasks
        ),
        figures=(False, False, False, False, False, True, False),
    )


def place_chart(
    tasks: Sequence[PlacedTask],
    *,
    first: date,
    last: date,
    set_day: date,
    title: str,
    today: date | None = None,
    paper: Paper = LANDSCAPE,
) -> str:
    """Draw for each place which trade is in it over time; each trade has a filling and two letters.

    Parameters
    ----------
    tasks : sequence of PlacedTask
    first, last : date
    set_day : date
    title : str
    today : date or None
    paper : Paper

    Returns
    -------
    str
        An SVG.
    """
    trades = list(dict.fromkeys(task.trade for task in tasks))
    codes = trade_codes(trades)
    fillings = {trade: _TRADE_FILLINGS[n % len(_TRADE_FILLINGS)] for n, trade in enumerate(trades)}
    held: dict[tuple[str, str], set[date]] = {}
    for task in tasks:
        held.setdefault((task.place, task.trade), set()).update(task.days)
    places: dict[str, list[Stretch]] = {}
    for (place, trade), days in held.items():
        places.setdefault(place, []).extend(
            Stretch(first=run[0], last=run[-1], filling=fillings[trade], text=codes[trade])
            for _, run in _runs(sorted(days))
        )
    rows = [Row(label=place, stretches=tuple(stretches)) for place, stretches in places.items()]
    key = [KeyEntry(filling=fillings[trade], words=f"{codes[trade]} {trade}") for trade in trades]
    words = "; ".join(f"{place}: {len(stretches)} stretches" for place, stretches in places.items())
    return timeline(
        rows,
        first=first,
        last=last,
        set_day=set_day,
        title=title,
        desc=words,
        key=key,
        today=today,
        paper=paper,
    )


def trade_codes(trades: Sequence[str]) -> dict[str, str]:
    """Return two letters for each trade, different for all.

    Examples
    --------
    >>> trade_codes(["cable", "cabinets", "roof"])
    {'cable': 'CA', 'cabinets': 'CB', 'roof': 'RO'}
    """
    codes: dict[str, str] = {}
    for trade in trades:
        word = "".join(letter for letter in trade.upper() if letter.isalpha()) or "X"
        seconds = [*word[1:], *"ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"]
        tried = (word[0] + second for second in seconds)
        codes[trade] = next((code for code in tried if code not in codes.values()), word[:2])
    return codes


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
    days = [day for day, _ in shown]
    first, last = min([*days, set_day]) - timedelta(days=2), max([*days, set_day]) + timedelta(days=2)
    left, right, top, bottom = 58.0, paper.width - 12, 44.0, 250.0
    span = max(1, (last - first).days + 1)
    each = (right - left) / span
    most = max([many for _, many in shown] or [1]) or 1
    total = sum(many for _, many in shown) + beyond

    def x(day: date) -> float:
        return left + (day - first).days * each

    bars = [
        _count_bar(x(day), each, many / most * (bottom - top), bottom, late=day >= set_day)
        for day, many in shown
    ]
    ticks = [
        _share(value, most, total, left=left, right=right, top=top, bottom=bottom) for value in (0.5, 1.0)
    ]
    body = (
        line(x1=left, y1=bottom, x2=right, y2=bottom),
        *ticks,
        *bars,
        _day_marks(first, last, x, each, bottom, right),
        line(x1=x(set_day), y1=20, x2=x(set_day), y2=bottom + 6, width=BOLD),
        letters("SET DAY", x=x(set_day), y=12, size=READABLE, bold=True, halo=True),
        *_pointers(marks, x, each, top),
        _spread_key(bottom + 40, beyond, total),
    )
    return finish(
        body=body,
        title=title,
        desc=_spread_words(shown, beyond, set_day),
        width=paper.width,
        height=bottom + 54,
        key=key_of("spread", title),
    )


def _count_bar(x: float, wide: float, high: float, bottom: float, *, late: bool) -> Svg:
    if high <= 0:
        return Svg("")
    y, w = bottom - high, max(wide * 0.86, 1.0)
    box = rect(x=x, y=y, w=w, h=high, width=FINE, fill="ink" if late else "paper")
    return group(box, Svg("") if late else hatch_box(x=x, y=y, w=w, h=high, spacing=5))


def _share(
    part: float, most: int, total: int, *, left: float, right: float, top: float, bottom: float
) -> Svg:
    y = bottom - part * (bottom - top)
    share = part * most / total if total else 0.0
    return group(
        line(x1=left - 4, y1=y, x2=right, y2=y, width=HAIR, dash="1 3"),
        letters(f"{share:.1%}", x=left - 7, y=y, size=READABLE, anchor="end"),
    )


def _day_marks(first: date, last: date, x: At, each: float, bottom: float, right: float) -> Svg:
    parts, written = [], -100.0
    day = first
    while day <= last:
        at, text = x(day) + each / 2, f"{day.day} {day:%b}"
        half = text_width(text, size=READABLE) / 2
        if at - half > written + 8 and at + half <= right + 10:
            parts.append(line(x1=at, y1=bottom, x2=at, y2=bottom + 4, width=FINE))
            parts.append(letters(text, x=at, y=bottom + 13, size=READABLE))
            written = at + half
        day += timedelta(days=1)
    return group(*parts)


def _pointers(marks: Sequence[tuple[str, date]], x: At, each: float, top: float) -> list[Svg]:
    """Point at days; shares that fall on one day share a pointer."""
    joined: dict[date, list[str]] = {}
    for words, day in marks:
        joined.setdefault(day, []).append(words)
    parts = []
    for number, (day, said) in enumerate(joined.items()):
        at, y = x(day) + each / 2, 26 + 12 * (number % 2)
        parts.append(line(x1=at, y1=y + 6, x2=at, y2=top + 40, width=LINE, dash="4 3"))
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
