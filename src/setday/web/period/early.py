"""What a crew does when it is done early: the next ready task that needs no new set-up."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from setday.errors import SetdayError
from setday.roster import barring, refusals
from setday.roster.periods import Log, TaskState
from setday.web.clock import on_site
from setday.web.keeping.models import ClassPeriod, HouseTask, Member, PeriodCrew
from setday.web.period.figured import log_of_tasks, student_of, task_of
from setday.web.period.gates import shut_gates
from setday.web.period.limits import limits_of

if TYPE_CHECKING:
    from datetime import date

__all__ = ["early_words"]

_NOTHING_DRIES = {"boards", "cable"}
"""Trades in which a task may follow at once on the one it waits for; coats and cement have to dry."""


def early_words(crew: PeriodCrew, tasks: list[HouseTask], members: list[Member]) -> str:
    """Return what a crew does when its last task is done before the bell.

    Parameters
    ----------
    crew : PeriodCrew
    tasks : list of HouseTask
        What it does, in order.
    members : list of Member
    """
    if not tasks or tasks[-1].filler:
        return _("Figure the next sealed figure on your list, or show a task you know to somebody new to it.")
    own, period = tasks[-1], crew.period
    found = next(_ready(period, own, members), None)
    if found is not None:
        words = _("Begin: %(task)s (%(place)s), after the instructor has seen this one.")
        return words % {"task": found.label, "place": found.place}
    other = _with_room(crew, own)
    if other is not None:
        return _("Ask crew %(number)d whether it can use a hand.") % {"number": other.number}
    return _("Clean up, show it to the instructor, then to the practice bench.")


def _ready(period: ClassPeriod, own: HouseTask, members: list[Member]) -> Iterator[HouseTask]:
    """Yield tasks of the same trade that nobody has this period and all of the crew may do, nearest first."""
    rows = HouseTask.objects.filter(house=period.house_id, trade=own.trade, gone=False, filler=False)
    free = [each for each in rows.exclude(works__crew__period=period) if _fits(each, len(members))]
    befores = {key for each in free for key in each.after}
    waited = list(HouseTask.objects.filter(house=period.house_id, key__in=befores))
    log, there = log_of_tasks([*free, *waited]), {each.key for each in waited}
    on = on_site(period.begins).date()
    near = sorted(
        free, key=lambda each: (each.place != own.place, each.skill != own.skill, each.order, each.pk)
    )
    for each in near:
        open_still = log.of(each.key).state in {TaskState.NOT_BEGUN, TaskState.BEGUN}
        stands = open_still and not _waits(each, own, log, there) and _may_all(members, each, on)
        if stands and not _behind_a_gate(period, each):
            yield each


def _fits(task: HouseTask, many: int) -> bool:
    return task.crew_least <= many <= task.crew_most


def _waits(task: HouseTask, own: HouseTask, log: Log, there: Iterable[str]) -> bool:
    """Return whether a task waits for anything but what the crew is about to finish."""
    before = [key for key in task.after if key in there]
    if own.key in before and own.trade not in _NOTHING_DRIES:
        return True
    return any(key != own.key and log.of(key).state is not TaskState.DONE for key in before)


def _may_all(members: Iterable[Member], task: HouseTask, on: "date") -> bool:
    work, rules = task_of(task).work, limits_of(task.house)
    return not any(barring(refusals(student_of(each), work, on=on, rules=rules)) for each in members)


def _behind_a_gate(period: ClassPeriod, task: HouseTask) -> bool:
    try:
        return bool(shut_gates(period.house, [task]))
    except SetdayError:  # the house cannot be built now: whether its gates are open is not known
        return True


def _with_room(crew: PeriodCrew, own: HouseTask) -> PeriodCrew | None:
    """Return a crew of the same trade that could take one more."""
    others = PeriodCrew.objects.filter(period=crew.period_id).exclude(pk=crew.pk).order_by("number")
    for other in others.prefetch_related("seats", "works__task"):
        works = [each.task for each in other.works.all() if each.task.trade == own.trade]
        if works and len(other.seats.all()) < works[0].crew_most and not works[0].filler:
            return other
    return None
