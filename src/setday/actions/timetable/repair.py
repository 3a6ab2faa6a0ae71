"""Repair of a timetable after periods were logged: what is done stays, little of the rest changes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from setday.actions.timetable.problem import ClassDay
from setday.actions.timetable.solving import Progress, Timetable
from setday.actions.timetable.standing import Standing
from setday.errors import NoAnswer
from setday.roster import plain
from setday.solving import Limits
from setday.timetable.classwork import Pin, idle
from setday.timetable.repair import Move, Repair, repair, repair_at_once

__all__ = ["Repaired", "pin_from", "repair_timetable"]


@dataclass(frozen=True, kw_only=True)
class Repaired:
    """A timetable repaired, with what moved.

    Parameters
    ----------
    timetable : Timetable
    moves : tuple of Move
        The near ones first.
    said : tuple of str
        What moved and why, in three lines.
    tasks, places_changed, places : int
        Tasks that had not begun; places of the next two weeks that changed, and how many there are.
    ready_before : date or None
        The day on which all would have been done.
    """

    timetable: Timetable
    moves: tuple[Move, ...]
    said: tuple[str, ...]
    tasks: int
    places_changed: int
    places: int
    ready_before: date | None


def repair_timetable(
    day: ClassDay,
    stand: Standing,
    *,
    limits: Limits | None,
    pins: Sequence[Pin] = (),
    on_progress: Callable[[Progress], bool] | None = None,
) -> Repaired:
    """Repair a timetable from the next period on.

    Parameters
    ----------
    day : ClassDay
        Of the class file as it is now: absences and late material are read from it.
    stand : Standing
        What happened, and what was planned.
    limits : Limits or None
        None repairs at once, without a search.
    pins : sequence of Pin
        Besides those of the class file.
    on_progress : callable or None
        Told the finish so far; answers False to stop and keep the best.

    Raises
    ------
    NoAnswer
        When a pin cannot be, or no period is left.
    """
    asked = (*(pin for pin in day.pins if pin.period >= stand.since), *pins)

    happened, old, name = stand.happened, stand.planned, _named(day)
    if limits is None:
        first = repair_at_once(stand.problem, happened=happened, old=old, pins=asked, name=name)
        return _repaired(day, stand, first, 0.0)
    began = limits.clock()

    def follow(so_far: Repair) -> bool | None:
        ready = day.ready_on(so_far.finish)
        told = Progress(
            seconds=limits.clock() - began, finish=so_far.finish, bound=0, ready=ready, earliest=None
        )
        return on_progress(told) if on_progress else None

    found = repair(
        stand.problem,
        happened=happened,
        old=old,
        limits=limits,
        pins=asked,
        name=name,
        on_progress=follow,
    )
    return _repaired(day, stand, found, limits.clock() - began)


def _named(day: ClassDay) -> Callable[[int], str]:
    """Return what periods are called: by their day."""

    def name(period: int) -> str:
        on = day.date_of(period)
        return f"{on:%a %-d %b}" if on else "after the calendar"

    return name


def _repaired(day: ClassDay, stand: Standing, found: Repair, seconds: float) -> Repaired:
    after = replace(day, problem=stand.problem)
    timetable = Timetable(
        day=after,
        rows=found.rows,
        finish=found.finish,
        bound=0,
        plain=found.finish,
        status="repaired",
        undone=tuple(day.spoken(each) for each in found.broken),
        idle=idle(stand.problem, found.rows),
        seconds=seconds,
        since=stand.since,
    )
    return Repaired(
        timetable=timetable,
        moves=found.moves,
        said=tuple(line for line in found.said if line),
        tasks=found.tasks,
        places_changed=found.places_changed,
        places=found.places,
        ready_before=day.ready_on(found.finish_before),
    )


def pin_from(text: str, day: ClassDay) -> tuple[Pin, ...]:
    """Read a pin: "shingles on 2027-02-08", "shingles on 2027-02-08 with Beto Salcedo, Kai Romero".

    Returns
    -------
    tuple of Pin
        One for each period of that day in which those named are there; the first one where nobody is named.

    Raises
    ------
    NoAnswer
        When there is no such task, day or student.
    """
    head, _, names = text.partition(" with ")
    task, _, on = head.rpartition(" on ")
    keys = {plain(part): work.key for work in day.work.works for part in (work.key, work.label, *work.parts)}
    key = keys.get(plain(task))
    if key is None:
        raise NoAnswer(
            f"The pin {text!r} names no task.",
            do="Write it like: shingles on 2027-02-08 with Beto Salcedo, Kai Romero.",
        )
    try:
        pinned = date.fromisoformat(on.strip())
    except ValueError as error:
        raise NoAnswer(f"The pin {text!r} names no day.", do="Write the day like 2027-02-08.") from error
    who = {plain(name): student for student, name in day.names.items()} | {plain(k): k for k in day.names}
    asked = [part.strip() for part in names.split(",") if part.strip()]
    unknown = [name for name in asked if plain(name) not in who]
    if unknown:
        raise NoAnswer(f"The pin {text!r} names {', '.join(unknown)}, who is in no class.")
    students = tuple(who[plain(name)] for name in asked)
    periods = [m.number for m in day.meetings if m.date == pinned and _there(students, m.school_class, day)]
    if not periods:
        raise NoAnswer(f"The pin {text!r}: no class of theirs meets on {pinned:%A %-d %B %Y}.")
    return tuple(Pin(task=key, period=period, students=students) for period in periods[:1])


def _there(students: tuple[str, ...], school_class: str, day: ClassDay) -> bool:
    group = next(group for group in day.plan.classes if group.key == school_class)
    return set(students) <= {student.key for student in group.students}
