"""Why set day is made or not, in the trade's words, and what would help most."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

from setday.actions.timetable.odds import chances_of, rest_of
from setday.actions.timetable.problem import ClassDay
from setday.actions.timetable.standing import Standing
from setday.rules import LocalRules
from setday.solving import Limits
from setday.timetable.classwork import ClassProblem
from setday.timetable.reasons import Clash, Demand, DemandKind, Help, clash_of, helps

__all__ = ["Explained", "explain_timetable"]

_LAW = ("of age for", "old enough")
"""Nobody is offered a sign-off that the law withholds."""
_FOR_CLASH = 0.35
"""Share of the time in which the demands that clash are sought."""


@dataclass(frozen=True, kw_only=True)
class Explained:
    """Why all cannot be done by a day, and what would help.

    Parameters
    ----------
    day : ClassDay
    by : date
        Set day, or the day that was asked about: all is done before it.
    clash : Clash
        The smallest set of demands that clash; not proven where nothing proves that it cannot be.
    helps : tuple of Help
        The most helpful first; finishes are counted from the next period on.
    since : int
        Periods that are over.
    """

    day: ClassDay
    by: date
    clash: Clash
    helps: tuple[Help, ...]
    since: int

    def ready(self, finish: int) -> date | None:
        """Return the day of a finish; None beyond the calendar."""
        return self.day.ready_on(finish + self.since)


def explain_timetable(
    day: ClassDay,
    stand: Standing,
    *,
    local: LocalRules,
    limits: Limits,
    by: date | None = None,
    on_progress: Callable[[int, int], bool | None] | None = None,
) -> Explained:
    """Find why all cannot be done before a day, and try what would help.

    Parameters
    ----------
    day : ClassDay
    stand : Standing
    local : LocalRules
        Of the house: shares of absences and late material.
    limits : Limits
        Time for everything together.
    by : date or None
        None asks about set day.
    on_progress : callable or None
        Told (helps tried, helps in all); answers False to stop.
    """
    problem, _ = rest_of(day, stand)
    chances = chances_of(day, stand, problem, local)
    asked = by or day.plan.calendar.set_day
    period = min(max(1, day.period_on(asked) - stand.since), len(problem.periods))
    name = _named(day, stand.since)
    clash = _too_late(problem, period, name)
    if not clash.proven:
        problem = replace(problem, set_period=period)
        clash = clash_of(problem, limits=replace(limits, seconds=_FOR_CLASH * limits.seconds), name=name)
    rows = tuple(
        tuple(key if key in problem.number else "" for key in row) for row in stand.rows[stand.since :]
    )
    found = helps(
        problem,
        rows,
        chances,
        limits=replace(limits, seconds=(1 - _FOR_CLASH) * limits.seconds),
        name=name,
        on_progress=on_progress,
    )
    offered = tuple(each for each in found if not any(word in each.label for word in _LAW))
    return Explained(day=day, by=asked, clash=clash, helps=offered, since=stand.since)


def _too_late(problem: ClassProblem, period: int, name: Callable[[int], str]) -> Clash:
    """Return the tasks that may not even begin before a period, by their material or date."""
    late = [task for task in problem.tasks if task.begin >= period and not task.filler]
    if not late:
        return Clash(proven=False)
    said = "; ".join(f"{task.label} may not begin before {name(task.begin)}" for task in late)
    return Clash(
        proven=True,
        demands=tuple(Demand(kind=DemandKind.MATERIAL, about=task.key) for task in late),
        tasks=tuple(task.key for task in late),
        said=f"All cannot be done by then: {said}.",
    )


def _named(day: ClassDay, since: int) -> Callable[[int], str]:
    """Return what periods are called: by their day, and by their bell where it has several."""
    dates = Counter(meeting.date for meeting in day.meetings)

    def name(number: int) -> str:
        at = number + since
        if not 0 <= at < len(day.meetings):
            return "the end of the calendar"
        meeting = day.meetings[at]
        bell = f" at {meeting.begin:%-H:%M}" if dates[meeting.date] > 1 else ""
        return f"{meeting.date:%a %-d %b}{bell}"

    return name
