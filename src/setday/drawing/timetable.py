"""Pictures of a timetable: tasks over time, places over time."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from setday.drawing.paper import LANDSCAPE, Paper
from setday.drawing.table import Table
from setday.drawing.timeline import Filling, KeyEntry, Row, Stretch, timeline

__all__ = [
    "PlacedTask",
    "TaskState",
    "place_chart",
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
