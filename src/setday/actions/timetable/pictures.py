"""The pictures of a timetable: tasks and places over time, and how its finish spreads."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from setday.actions.timetable.odds import ClassOdds
from setday.actions.timetable.solving import Timetable, spans
from setday.drawing import (
    LANDSCAPE,
    Paper,
    PlacedTask,
    Table,
    TaskState,
    place_chart,
    spread_picture,
    spread_table,
    task_chart,
    task_table,
)

__all__ = [
    "odds_picture",
    "odds_table",
    "placed_tasks",
    "places_picture",
    "tasks_pictures",
    "tasks_table",
]

_ROWS = 40
"""Tasks on one picture, so that it fits a page on its side."""


def placed_tasks(timetable: Timetable) -> tuple[PlacedTask, ...]:
    """Return every task with its days, in the order in which they begin."""
    placed = []
    for work, periods in spans(timetable):
        days = tuple(dict.fromkeys(timetable.day.meetings[number].date for number in periods))
        over = {timetable.day.meetings[n].date for n in periods if n < timetable.since}
        last = max(periods, default=-1)
        state = TaskState.PLANNED
        if over:
            state = TaskState.DONE if last < timetable.since else TaskState.RUNNING
        if not periods:
            state = TaskState.DONE if work.left == 0 else TaskState.PLANNED
        placed.append(
            PlacedTask(
                label=work.label,
                place=work.place,
                trade=work.trade,
                days=days,
                state=state,
                done_days=len([day for day in days if day in over]),
            )
        )
    return tuple(placed)


def _ends(timetable: Timetable, tasks: Sequence[PlacedTask]) -> tuple[date, date]:
    calendar = timetable.day.plan.calendar
    days = [day for task in tasks for day in task.days]
    return calendar.first_day, max([*days, calendar.set_day]) + timedelta(days=2)


def _coming(
    timetable: Timetable, tasks: Sequence[PlacedTask], days: int
) -> tuple[list[PlacedTask], date, date]:
    """Return the tasks of so many days from the next period on, with the first and the last of them."""
    first = timetable.day.meetings[min(timetable.since, len(timetable.day.meetings) - 1)].date
    last = first + timedelta(days=days - 1)
    near = [replace(task, done_days=_over(task, first), days=_within(task, first, last)) for task in tasks]
    return [task for task in near if task.days], first, last


def _within(task: PlacedTask, first: date, last: date) -> tuple[date, ...]:
    return tuple(day for day in task.days if first <= day <= last)


def _over(task: PlacedTask, first: date) -> int:
    """Return how many of the days that are over come after `first`."""
    return len([day for day in task.days[: task.done_days] if day >= first])


def tasks_pictures(
    timetable: Timetable, *, paper: Paper = LANDSCAPE, rows: int = _ROWS, days: int = 0
) -> tuple[str, ...]:
    """Return the bars of all tasks, so many on a picture, over the same days.

    Parameters
    ----------
    timetable : Timetable
    paper : Paper
    rows : int
        Tasks on one picture.
    days : int
        Only so many days from the next period on, and what runs in them; 0 for all.
    """
    tasks = [task for task in placed_tasks(timetable) if task.days]
    if days:
        tasks, first, last = _coming(timetable, tasks, days)
    else:
        first, last = _ends(timetable, tasks)
    what = "Tasks over the next days" if days else "Tasks over time"
    parts = [tasks[at : at + rows] for at in range(0, len(tasks), rows)]
    return tuple(
        task_chart(
            part,
            first=first,
            last=last,
            set_day=timetable.day.plan.calendar.set_day,
            title=f"{what}, {number} of {len(parts)}" if len(parts) > 1 else what,
            today=timetable.day.date_of(timetable.since) if timetable.since else None,
            paper=paper,
        )
        for number, part in enumerate(parts, start=1)
    )


def tasks_table(timetable: Timetable) -> Table:
    """Return the tasks in words and dates."""
    return task_table(placed_tasks(timetable), caption="Tasks")


def places_picture(timetable: Timetable, *, paper: Paper = LANDSCAPE, days: int = 0) -> str:
    """Return which trade is in which place over time, or over so many days from the next period on."""
    tasks = [task for task in placed_tasks(timetable) if task.days]
    if days:
        tasks, first, last = _coming(timetable, tasks, days)
    else:
        first, last = _ends(timetable, tasks)
    return place_chart(
        tasks,
        first=first,
        last=last,
        set_day=timetable.day.plan.calendar.set_day,
        title="Places over the next days" if days else "Places over time",
        today=timetable.day.date_of(timetable.since) if timetable.since else None,
        paper=paper,
    )


def odds_picture(found: ClassOdds, *, paper: Paper = LANDSCAPE) -> str:
    """Return the spread of the finish against set day."""
    finishes, beyond = _by_day(found)
    marks = [(f"{share:.0%}", ready) for share in (0.5, 0.8, 0.95) if (ready := found.ready(share))]
    return spread_picture(
        finishes,
        beyond=beyond,
        set_day=found.day.plan.calendar.set_day,
        marks=marks,
        title="When all is done, in so many plays",
        paper=paper,
    )


def odds_table(found: ClassOdds) -> Table:
    """Return the spread in figures."""
    finishes, beyond = _by_day(found)
    set_day = found.day.plan.calendar.set_day
    return spread_table(finishes, beyond=beyond, set_day=set_day, caption="When all is done")


def _by_day(found: ClassOdds) -> tuple[list[tuple[date, int]], int]:
    days: dict[date, int] = {}
    beyond = 0
    for finish, many in found.odds.counts:
        day = found.day.ready_on(finish + found.since)
        if day is None:
            beyond += many
        else:
            days[day] = days.get(day, 0) + many
    return sorted(days.items()), beyond
