"""What is wrong or doubtful with all that is written down about the classes."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from graphlib import CycleError, TopologicalSorter

from setday.findings import Finding, Severity
from setday.roster.bells import spoken_day
from setday.roster.calendar import Meeting, check_calendar, meetings
from setday.roster.limits import barring, refusals
from setday.roster.people import plain
from setday.roster.typed import ClassPlan, TypedTask, rate_of

__all__ = ["check_plan"]


def check_plan(plan: ClassPlan, *, today: date | None = None) -> tuple[Finding, ...]:
    """Return all that is wrong or doubtful with classes, calendar, tasks and pins.

    Parameters
    ----------
    plan : ClassPlan
    today : date or None
        Given, set day must lie after it.
    """
    found = list(check_calendar(plan.calendar, plan.classes, today=today))
    held: tuple[Meeting, ...] = ()
    if not any(each.severity is Severity.PROBLEM for each in found):
        held = meetings(plan.calendar, plan.classes)
    found += _loop(plan)
    for task in plan.tasks:
        found += [replace(each, where=task.where) for each in _task(task, plan, held)]
    return (*found, *_pins(plan, held))


def _task(task: TypedTask, plan: ClassPlan, held: tuple[Meeting, ...]) -> Iterator[Finding]:
    known = {each.key for each in plan.tasks}
    for wait in task.after:
        if wait.task not in known:
            found = f"it waits for '{wait.task}', which is none of the tasks written here."
            do = "Correct the name, unless a task is meant that is figured from the house."
            yield _doubt("after", task, found, do=do)
    if task.hours is None and not task.filler:
        yield from _hours(task, plan)
    begins, set_day = task.begins, plan.calendar.set_day
    if begins is not None and begins >= set_day:
        why = "its material is due" if begins == task.material_due else "it may not begin before"
        found = f"{why} {spoken_day(begins)}, and set day is {spoken_day(set_day)}."
        yield _problem("too-late", task, found, do="Bring the date forward, or take the task out.")
    if held:
        yield from _when(task, plan, held)
    yield from _who(task, plan, held)


def _hours(task: TypedTask, plan: ClassPlan) -> Iterator[Finding]:
    if task.quantity is None:
        do = "Write hours, or a quantity with a rate."
        yield _problem("hours", task, "neither hours nor a quantity is written.", do=do)
    elif rate_of(task, plan.rates) is None:
        work = f" for '{task.work}'" if task.work else ""
        found = f"there is no single rate of {task.trade}{work} by {task.unit or 'its unit'}."
        yield _problem("rate", task, found, do="Write one under rates, name the work, or write the hours.")


def _when(task: TypedTask, plan: ClassPlan, held: tuple[Meeting, ...]) -> Iterator[Finding]:
    days = {each.date for each in held}
    for day in task.on:
        if day not in days:
            found = f"no class meets on {spoken_day(day, weekday=True)}."
            yield _doubt("day", task, found, do="Check the date.")
    if task.guest and not any(plain(task.guest) in map(plain, each.guests) for each in held):
        found = f"'{task.guest}' comes to no period."
        known = ", ".join(dict.fromkeys(guest.who for guest in plan.calendar.guests)) or "none is written"
        do = f"Write the days under guests; written are: {known}."
        yield _problem("guest", task, found, do=do)


def _who(task: TypedTask, plan: ClassPlan, held: tuple[Meeting, ...]) -> Iterator[Finding]:
    able, reasons = _able(task, plan)
    if able < task.crew_least and plan.students:  # that nobody is in the class is told of the class
        crew = f"it takes a crew of {task.crew_least}, and {_so_many(able)} may do it"
        do = "Sign more students off, or change what the task needs."
        yield _doubt("nobody", task, f"{crew}: {reasons}." if reasons else f"{crew}.", do=do)
    holds = {plain(place): many for place, many in plan.places}.get(plain(task.place))
    if holds is not None and holds < task.crew_least and not task.filler:
        found = f"it takes a crew of {task.crew_least}, and {task.place} holds {holds}."
        yield _problem("cramped", task, found, do="Let a smaller crew do it, or correct the place.")
    most = max((each.attention for each in held), default=task.attention)
    if task.attention > most:
        found = f"it needs {task.attention} tenths of an instructor, and there are never more than {most}."
        yield _problem("attention", task, found, do="Lower it, or write helpers into the calendar.")


def _so_many(able: int) -> str:
    return f"in no class more than {able}" if able else "nobody"


def _able(task: TypedTask, plan: ClassPlan) -> tuple[int, str]:
    """Return how many of one class may do a task before set day, at most, and what bars the others."""
    last = plan.calendar.set_day - timedelta(days=1)
    most = 0
    why = Counter[str]()
    for group in plan.classes:
        told = [barring(refusals(each, task.as_work, on=last, rules=plan.limits)) for each in group.students]
        most = max(most, sum(not bars for bars in told))
        why.update(each.found.partition(":")[0].rstrip(".") for bars in told for each in bars)
    return most, "; ".join(f"{what} (students: {many})" for what, many in why.most_common())


def _loop(plan: ClassPlan) -> Iterator[Finding]:
    known = {task.key: task for task in plan.tasks}
    waits = {task.key: [wait.task for wait in task.after if wait.task in known] for task in plan.tasks}
    try:
        TopologicalSorter(waits).prepare()
    except CycleError as error:
        loop = error.args[1]
        said = " -> ".join(f"'{key}'" for key in loop)
        found, do = f"these wait for each other: {said}.", "Take one of these waits out."
        yield replace(_problem("loop", known[loop[0]], found, do=do), where=known[loop[0]].where)


def _pins(plan: ClassPlan, held: tuple[Meeting, ...]) -> Iterator[Finding]:
    """Yield what speaks against a pin; who is pinned must be allowed on the work."""
    tasks = {task.key: task for task in plan.tasks}
    names = {student.key: student for student in plan.students}
    for pin in plan.pins:
        meeting = [each for each in held if each.date in pin.days]
        if held and not any(pin.school_class in ("", each.school_class) for each in meeting):
            found, do = "no such class meets then.", "Check the days of the pin."
            yield Finding(rule="plan.pin", about=f"pin of '{pin.task}'", found=found, do=do, where=pin.where)
        task = tasks.get(pin.task)
        for key in pin.students if task else ():
            if task and key in names:
                told = refusals(names[key], task.as_work, on=pin.days.first, rules=plan.limits)
                yield from (replace(each, where=pin.where) for each in barring(told))


def _problem(rule: str, task: TypedTask, found: str, *, do: str) -> Finding:
    return Finding(rule=f"plan.{rule}", about=f"task '{task.key}'", found=found, do=do)


def _doubt(rule: str, task: TypedTask, found: str, *, do: str) -> Finding:
    return replace(_problem(rule, task, found, do=do), severity=Severity.ASK)
