"""What can be known to be impossible before a search: all at once, in sentences."""

from collections.abc import Iterator
from dataclasses import replace
from graphlib import CycleError, TopologicalSorter

from setday.actions.tasks.gathering import HouseWork
from setday.findings import Finding, Severity
from setday.roster import ClassPlan, Meeting, barring, plain, refusals, spoken_day
from setday.roster import Work as RosterWork
from setday.timetable.tasks import Work

__all__ = ["check_work"]


def check_work(work: HouseWork, plan: ClassPlan, listed: tuple[Meeting, ...]) -> tuple[Finding, ...]:
    """Return what stands in the way: loops, nobody able, places too small, guests who never come.

    Parameters
    ----------
    work : HouseWork
    plan : ClassPlan
    listed : tuple of Meeting
    """
    written = {task.key: task.where for task in plan.tasks}
    holds = dict(work.places)
    found = [*_loop(work)]
    for each in work.works:
        if each.filler or each.done >= 1:
            continue
        told = [*_nobody(each, plan, listed), *_never(each, plan, listed)]
        if holds[each.place] < each.crew_least:
            told.append(_cramped(each, holds[each.place]))
        found += (replace(one, where=written.get(each.key, one.where)) for one in told)
    return tuple(found)


def _loop(work: HouseWork) -> Iterator[Finding]:
    labels = {each.key: each.label for each in work.works}
    waits = {each.key: [after.key for after in each.after if after.key in labels] for each in work.works}
    try:
        TopologicalSorter(waits).prepare()
    except CycleError as error:
        loop = error.args[1]
        said = " -> ".join(f"'{labels[key]}'" for key in loop)
        yield _problem(
            "loop", labels[loop[0]], f"these wait for each other: {said}.", "Take one of these waits out."
        )


def _nobody(work: Work, plan: ClassPlan, listed: tuple[Meeting, ...]) -> Iterator[Finding]:
    last = listed[-1].date
    asked = RosterWork(
        key=work.key, label=work.label, signoffs=work.signoffs, exposures=work.exposures, on_site=True
    )
    most, why = 0, dict[str, int]()
    for group in plan.classes:
        told = [barring(refusals(each, asked, on=last, rules=plan.limits)) for each in group.students]
        most = max(most, sum(not bars for bars in told))
        for each in (each for bars in told for each in bars):
            words = each.found.partition(":")[0].rstrip(".")
            why[words] = why.get(words, 0) + 1
    if most < work.crew_least and work.minutes:
        so_many = f"in no class more than {most}" if most else "nobody"
        reasons = "; ".join(f"{words} (students: {many})" for words, many in why.items())
        yield _problem(
            "nobody",
            work.label,
            f"it takes a crew of {work.crew_least}, and {so_many} may do it: {reasons}.",
            "Sign students off for it, or have it done by others and take it out.",
        )


def _cramped(work: Work, holds: int) -> Finding:
    return _problem(
        "cramped",
        work.label,
        f"it takes a crew of {work.crew_least}, and {work.place} holds {holds}.",
        "Write under places how many it holds.",
    )


def _never(work: Work, plan: ClassPlan, listed: tuple[Meeting, ...]) -> Iterator[Finding]:
    guest = plain(work.guest)
    if guest and not any(guest in map(plain, m.guests) for m in listed):
        yield _problem(
            "guest", work.label, f"'{work.guest}' comes to no period.", "Write the days under guests."
        )
    if work.on and not any(m.date in work.on for m in listed):
        days = ", ".join(spoken_day(day) for day in work.on)
        yield _problem("day", work.label, f"no class meets on {days}.", "Correct the dates.")
    if work.due is not None and work.due >= plan.calendar.set_day:
        yield _problem(
            "too-late",
            work.label,
            f"{work.due_why} {spoken_day(work.due)}, and set day is {spoken_day(plan.calendar.set_day)}.",
            "Bring the date forward, or take it out.",
        )


def _problem(rule: str, about: str, found: str, do: str) -> Finding:
    return Finding(
        rule=f"timetable.{rule}", about=f"task '{about}'", found=found, do=do, severity=Severity.PROBLEM
    )
