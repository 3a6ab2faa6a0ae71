"""The odds of making set day: what is left is simulated with doubts, absences, weather, late material."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date

from setday.actions.timetable.problem import ClassDay
from setday.actions.timetable.standing import Rows, Standing
from setday.roster import Meeting
from setday.rules import LocalRules
from setday.timetable.classwork import ClassProblem, Task, Wait
from setday.timetable.odds import (
    Carrier,
    Chances,
    Delivery,
    Odds,
    Simulations,
    carriers,
    odds,
    plan_of,
)
from setday.timetable.tasks import Work, timetable_rules

__all__ = ["ClassOdds", "chances_of", "class_odds", "rest_of"]


@dataclass(frozen=True, kw_only=True)
class ClassOdds:
    """The odds of a timetable, by dates.

    Parameters
    ----------
    day : ClassDay
    odds : Odds
        Periods are counted from the next one on.
    carriers : tuple of Carrier
        The tasks that carry the finish, the heaviest first.
    chances : Chances
        What was left to chance.
    since : int
        Periods that are over.
    seconds : float
    """

    day: ClassDay
    odds: Odds
    carriers: tuple[Carrier, ...]
    chances: Chances
    since: int
    seconds: float

    def ready(self, share: float) -> date | None:
        """Return the day by which that share of the simulations is ready; None beyond the calendar."""
        finish = self.odds.ready(share)
        return None if finish is None else self.day.ready_on(finish + self.since)

    @property
    def as_planned(self) -> date | None:
        """The day on which the same play is ready when everything comes as planned."""
        return self.day.ready_on(self.odds.as_planned + self.since)


def class_odds(
    day: ClassDay,
    stand: Standing,
    *,
    rows: Rows,
    local: LocalRules,
    clock: Callable[[], float],
    simulations: int = 20_000,
    seed: int = 1,
    workers: int = 2,
    carried: bool = True,
    on_progress: Callable[[int, float], bool | None] | None = None,
) -> ClassOdds:
    """Simulate a timetable many times, from the next period on.

    Parameters
    ----------
    day : ClassDay
    stand : Standing
        What is over.
    rows : rows
        What happened and what is planned after it.
    local : LocalRules
        Of the house: shares of absences and late material.
    clock : callable
        Returns seconds.
    simulations, seed, workers : int
    carried : bool
        False to leave out which tasks carry the finish.
    on_progress : callable or None
        Told (simulations, chance so far); answers False to stop.
    """
    began = clock()
    problem, left = rest_of(day, stand)
    chances = chances_of(day, stand, problem, local)
    ahead = tuple(tuple(key if key in problem.number else "" for key in row) for row in rows[stand.since :])
    found = odds(
        problem,
        ahead,
        chances,
        seed=seed,
        simulations=simulations,
        workers=workers,
        on_progress=on_progress,
    )
    heaviest: tuple[Carrier, ...] = ()
    if carried and left:
        ready = Simulations(problem, chances, plan_of(problem, ahead), seed=seed, workers=workers)
        heaviest = carriers(ready)
    return ClassOdds(
        day=day, odds=found, carriers=heaviest, chances=chances, since=stand.since, seconds=clock() - began
    )


def rest_of(day: ClassDay, stand: Standing) -> tuple[ClassProblem, Mapping[str, int]]:
    """Return the problem from the next period on, with the planned minutes that are left of each task."""
    since, full = stand.since, day.problem
    middle = {pace.trade: pace.middle for pace in stand.paces if pace.logged}
    left = {
        key: max(1, round(minutes / middle.get(day.works[key].trade, 1.0))) if minutes else 0
        for key, minutes in stand.left.items()
    }
    ended = _ended(day, stand)
    tasks = tuple(
        _later(task, left.get(task.key, 0), since=since, ended=ended, full=full)
        for task in full.tasks
        if task.filler or task.key not in ended
    )
    return (
        replace(full, tasks=tasks, periods=full.periods[since:], set_period=max(0, full.set_period - since)),
        left,
    )


def _ended(day: ClassDay, stand: Standing) -> dict[str, int]:
    """Return the day number on which each finished task ended."""
    ended = {}
    for key, minutes in stand.left.items():
        if minutes == 0 and (day.problem.tasks[day.problem.number[key]].work or stand.since):
            ran = [number for number, row in enumerate(stand.happened) if key in row]
            if ran or day.works[key].done >= 1 or day.works[key].minutes:
                ended[key] = day.problem.periods[ran[-1]].day if ran else 0
    return ended


def _later(task: Task, left: int, *, since: int, ended: dict[str, int], full: ClassProblem) -> Task:
    begin = max(0, task.begin - since)
    for wait in task.after:
        if wait.task in ended and wait.days:
            free = ended[wait.task] + wait.days
            first = next((n for n, p in enumerate(full.periods) if p.day >= free), len(full.periods))
            begin = max(begin, first - since)
    waits: tuple[Wait, ...] = tuple(wait for wait in task.after if wait.task not in ended)
    allowed = tuple(period - since for period in task.allowed if period >= since)
    return replace(task, work=0 if task.filler else left, begin=begin, after=waits, allowed=allowed)


def chances_of(day: ClassDay, stand: Standing, problem: ClassProblem, local: LocalRules) -> Chances:
    """Return what is left to chance: paces and absences of the log, weather, material still to come."""
    rules = timetable_rules(local)
    usual, trust = rules.number("timetable.absent_share"), rules.number("timetable.absent_trust")
    expected = sum(len(day.problem.periods[n].present) for n in stand.absences)
    away = sum(len(gone & day.problem.periods[n].present) for n, gone in stand.absences.items())
    absent = (away + usual * trust) / (expected + trust) if expected + trust else usual
    deliveries = tuple(
        Delivery(
            label=work.label,
            tasks=(work.key,),
            chance=rules.number("timetable.late_share"),
            least=1,
            most=round(rules.number("timetable.late_most_days")),
        )
        for work in _delivered(day, stand)
        if work.key in problem.number
    )
    logged = any(pace.logged for pace in stand.paces)
    trades = tuple((pace.trade, pace) for pace in stand.paces if pace.trade) if logged else ()
    wet = tuple(_wet(meeting) for meeting in day.meetings[stand.since :])
    chances = Chances(trades=trades, absent=min(1.0, absent), wet=wet, deliveries=deliveries)
    return replace(chances, otherwise=stand.paces[-1]) if logged else chances


def _delivered(day: ClassDay, stand: Standing) -> tuple[Work, ...]:
    """Return the works whose material is still to come."""
    over = day.meetings[stand.since - 1].date if stand.since else None
    return tuple(
        work
        for work in day.work.works
        if work.due and work.due_why == "material is due" and (over is None or work.due > over)
    )


def _wet(meeting: Meeting) -> float:
    return meeting.wet_chance if meeting.dry else 1.0
