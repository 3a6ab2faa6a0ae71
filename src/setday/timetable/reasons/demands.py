"""The demands a timetable must meet, each of which can be left out to see whether it matters."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from setday.timetable.classwork import ClassProblem, Period, Task, Wait

__all__ = ["Demand", "DemandKind", "demands_of", "listed", "only", "told_of", "without", "words_of"]

Name = Callable[[int], str]


class DemandKind(StrEnum):
    """What a demand is about."""

    MATERIAL = "material"
    GUEST = "guest"
    LAG = "lag"
    WEATHER = "weather"
    ABSENCE = "absence"
    SIGNOFF = "sign-off"
    MINORS = "minors"
    CREW = "crew"
    PLACE = "place"
    ATTENTION = "attention"


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """One demand.

    Parameters
    ----------
    kind : DemandKind
    about : str
        Key of a task or a place, name of a sign-off or a trade; "" where there is only one of the kind.
    """

    kind: DemandKind
    about: str = ""


def demands_of(problem: ClassProblem) -> tuple[Demand, ...]:
    """Return the demands of a class problem that could bind at all."""
    work = [task for task in problem.tasks if not task.filler]
    found = [Demand(kind=DemandKind.MATERIAL, about=task.key) for task in work if task.begin]
    found += [Demand(kind=DemandKind.GUEST, about=task.key) for task in work if task.allowed]
    found += [Demand(kind=DemandKind.LAG, about=task.key) for task in work if any(w.days for w in task.after)]
    if any(task.dry for task in work) and not all(period.dry for period in problem.periods):
        found.append(Demand(kind=DemandKind.WEATHER))
    if _expected(problem) != problem.periods:
        found.append(Demand(kind=DemandKind.ABSENCE))
    names = sorted({name for task in work for name in task.signoffs})
    lacking = [name for name in names if any(name not in student.signoffs for student in problem.students)]
    found += [Demand(kind=DemandKind.SIGNOFF, about=name) for name in lacking]
    if any(task.barred_to_minors for task in work) and any(student.minor for student in problem.students):
        found.append(Demand(kind=DemandKind.MINORS))
    many = len(problem.students)
    trades = sorted({task.trade for task in work if task.work and task.crew_most < many})
    found += [Demand(kind=DemandKind.CREW, about=trade) for trade in trades]
    found += [Demand(kind=DemandKind.PLACE, about=p.key) for p in problem.places if p.holds < many]
    if any(task.attention for task in work):
        found.append(Demand(kind=DemandKind.ATTENTION))
    return tuple(found)


def without(problem: ClassProblem, demands: Iterable[Demand]) -> ClassProblem:
    """Return the problem with some demands left out."""
    dropped: dict[DemandKind, set[str]] = {}
    for demand in demands:
        dropped.setdefault(demand.kind, set()).add(demand.about)
    many = len(problem.students)
    periods = problem.periods
    if DemandKind.ABSENCE in dropped:
        periods = _expected(problem)
    if DemandKind.WEATHER in dropped:
        periods = tuple(replace(period, dry=True) for period in periods)
    if DemandKind.ATTENTION in dropped:
        watched = sum(task.attention for task in problem.tasks)
        periods = tuple(replace(period, attention=max(period.attention, watched)) for period in periods)
    places = dropped.get(DemandKind.PLACE, set())
    return replace(
        problem,
        tasks=tuple(_freed(task, dropped, many) for task in problem.tasks),
        periods=periods,
        places=tuple(replace(p, holds=max(p.holds, many)) if p.key in places else p for p in problem.places),
    )


def only(problem: ClassProblem, tasks: Iterable[str]) -> ClassProblem:
    """Return the problem with only these tasks; what waits for another waits for what that waits for."""
    kept = set(tasks)
    by_key = {task.key: task for task in problem.tasks}

    def behind(task: Task, days: int, seen: frozenset[str]) -> Iterator[Wait]:
        for wait in task.after:
            if wait.task in kept:
                yield Wait(task=wait.task, days=max(days, wait.days))
            elif wait.task not in seen:
                yield from behind(by_key[wait.task], max(days, wait.days), seen | {wait.task})

    return replace(
        problem,
        tasks=tuple(
            replace(task, after=tuple(dict.fromkeys(behind(task, 0, frozenset()))))
            for task in problem.tasks
            if task.key in kept
        ),
    )


def _freed(task: Task, dropped: dict[DemandKind, set[str]], many: int) -> Task:
    if task.filler:
        return task
    crew = task.trade in dropped.get(DemandKind.CREW, set())
    lag = task.key in dropped.get(DemandKind.LAG, set())
    return replace(
        task,
        begin=0 if task.key in dropped.get(DemandKind.MATERIAL, set()) else task.begin,
        allowed=() if task.key in dropped.get(DemandKind.GUEST, set()) else task.allowed,
        after=tuple(Wait(task=wait.task) for wait in task.after) if lag else task.after,
        signoffs=tuple(s for s in task.signoffs if s not in dropped.get(DemandKind.SIGNOFF, set())),
        barred_to_minors=task.barred_to_minors and DemandKind.MINORS not in dropped,
        crew_most=max(task.crew_most, many) if crew else task.crew_most,
    )


def _expected(problem: ClassProblem) -> tuple[Period, ...]:
    """Return the periods with everybody of the class there: all who ever meet with most of those present."""
    classes: list[set[str]] = []
    for period in problem.periods:
        own = next((c for c in classes if 2 * len(c & period.present) > len(period.present)), None)
        if own is None:
            classes.append(set(period.present))
        else:
            own |= period.present
    made = []
    for period in problem.periods:
        own = next(
            c for c in classes if 2 * len(c & period.present) > len(period.present) or not period.present
        )
        made.append(replace(period, present=frozenset(own)))
    return tuple(made)


def words_of(problem: ClassProblem, demand: Demand, *, name: Name) -> str:
    """Return a demand as part of a sentence, in the trade's words with dates."""
    tasks = {task.key: task for task in problem.tasks}
    task = tasks.get(demand.about)
    if task is not None and demand.kind is DemandKind.MATERIAL:
        return f"{task.label} cannot begin before {name(task.begin)}"
    if task is not None and demand.kind is DemandKind.GUEST:
        if task.allowed[0] >= problem.set_period:
            return f"{task.label} waits for its guest or its date, {name(task.allowed[0])} at the earliest"
        return f"{task.label} can only be on {listed([name(period) for period in task.allowed], 'or')}"
    if task is not None and demand.kind is DemandKind.LAG:
        waits = [f"{wait.days} days after {tasks[wait.task].label}" for wait in task.after if wait.days]
        return f"{task.label} cannot begin before {listed(waits)}"
    return _of_class(problem, demand)


def _of_class(problem: ClassProblem, demand: Demand) -> str:
    work = [task for task in problem.tasks if not task.filler]
    if demand.kind is DemandKind.SIGNOFF:
        many = sum(demand.about in student.signoffs for student in problem.students)
        return f"only {many} of {len(problem.students)} students have the {demand.about} sign-off"
    if demand.kind is DemandKind.CREW:
        most = max(task.crew_most for task in work if task.trade == demand.about)
        return f"a crew of {demand.about} has at most {most} students"
    if demand.kind is DemandKind.PLACE:
        holds = next(place.holds for place in problem.places if place.key == demand.about)
        return f"{demand.about} holds only {holds} people"
    if demand.kind is DemandKind.MINORS:
        minors = sum(student.minor for student in problem.students)
        barred = listed([task.label for task in work if task.barred_to_minors])
        return f"{minors} students are minors, and {barred} is barred to them"
    if demand.kind is DemandKind.WEATHER:
        return f"{sum(not period.dry for period in problem.periods)} periods are wet"
    if demand.kind is DemandKind.ABSENCE:
        away = sum(
            len(full.present) - len(period.present)
            for full, period in zip(_expected(problem), problem.periods, strict=True)
        )
        return f"students are away {away} times"
    return "the instructor can watch only so much at once"


def told_of(problem: ClassProblem, demands: Sequence[Demand], *, name: Name) -> list[str]:
    """Return demands in words, many of one kind drawn together."""
    tasks = {task.key: task for task in problem.tasks}
    told = []
    for kind in dict.fromkeys(demand.kind for demand in demands):
        same = [demand for demand in demands if demand.kind is kind]
        if kind is DemandKind.MATERIAL and len(same) > 2:
            last = max((tasks[demand.about] for demand in same), key=lambda task: task.begin)
            told.append(
                f"{len(same)} tasks wait for material or a date,"
                f" the last, {last.label}, until {name(last.begin)}"
            )
        elif kind is DemandKind.LAG and len(same) > 2:
            days = max(wait.days for demand in same for wait in tasks[demand.about].after)
            told.append(f"{len(same)} tasks wait up to {days} days for what comes before them")
        elif kind is DemandKind.CREW and len(same) > 2:
            told.append(f"crews of {listed([demand.about for demand in same])} are limited")
        else:
            told += [words_of(problem, demand, name=name) for demand in same]
    return told


def listed(words: Sequence[str], last: str = "and") -> str:
    """Return words as a list, at most four of them."""
    if len(words) > 4:
        return f"{', '.join(words[:3])} {last} {len(words) - 3} more"
    return f" {last} ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)
