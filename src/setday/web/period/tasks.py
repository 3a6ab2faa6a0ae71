"""The tasks of a house in the records: taken from the house, typed by hand, and which are ready."""

from dataclasses import dataclass
from time import monotonic
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils import timezone

from setday.roster.periods import Log, Progress, TaskState
from setday.web.houses.opening import opened
from setday.web.keeping.models import House, HouseTask

if TYPE_CHECKING:
    from setday.roster import ClassPlan
    from setday.timetable.tasks import Work

__all__ = ["Standing", "keep_typed", "standings", "take_tasks"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A task and how far it is.

    Parameters
    ----------
    task : HouseTask
    progress : Progress
    waits : tuple of str
        Labels of what has to be done before it and is not.
    """

    task: HouseTask
    progress: Progress
    waits: tuple[str, ...]

    @property
    def ready(self) -> bool:
        """Whether a crew can be sent to it."""
        return not self.waits and self.progress.state is not TaskState.DONE

    @property
    def share(self) -> float:
        """How much of it is done, 0 to 1."""
        if self.progress.state is TaskState.DONE:
            return 1.0
        return min(1.0, self.progress.quantity / self.task.quantity) if self.task.quantity else 0.0


def standings(house: House, log: Log) -> list[Standing]:
    """Return the tasks of a house with how far they are, in their order; gone ones only if begun."""
    tasks = list(house.tasks.all())
    labels = {task.key: task.label for task in tasks}
    far, none = dict(log.tasks), Progress()
    found = []
    for task in tasks:
        progress = far.get(task.key, none)
        if task.gone and progress.state is TaskState.NOT_BEGUN:
            continue
        before = [key for key in task.after if key in labels]
        waits = tuple(labels[key] for key in before if far.get(key, none).state is not TaskState.DONE)
        found.append(Standing(task=task, progress=progress, waits=waits))
    return found


def take_tasks(house: House, plan: "ClassPlan | None" = None) -> int:
    """Bring the tasks of the newest house file into the records; return how many there are.

    Tasks that vanished are marked as gone, typed ones stay.

    Raises
    ------
    FileProblem
        When the house cannot be built or has no work.
    """
    from setday.actions.tasks.gathering import house_work

    work = house_work(opened(house.newest), plan or _plain_plan(), clock=monotonic)
    with transaction.atomic():
        house.tasks.filter(by_hand=False).update(gone=True)
        for order, each in enumerate(work.works):
            HouseTask.objects.update_or_create(house=house, key=each.key[:300], defaults=_fields(each, order))
    return len(work.works)


def _plain_plan() -> "ClassPlan":
    """Return a plan in which nothing is written down yet."""
    from setday.roster import Calendar, ClassPlan

    today = timezone.localdate()
    return ClassPlan(school="", classes=(), calendar=Calendar(first_day=today, set_day=today))


def _fields(work: "Work", order: int) -> dict[str, object]:
    return {
        "label": work.label[:300],
        "trade": work.trade[:100],
        "skill": work.kind[:100],
        "place": work.place[:200],
        "quantity": work.quantity,
        "unit": work.unit[:40],
        "minutes": work.minutes,
        "crew_least": work.crew_least,
        "crew_most": work.crew_most,
        "after": [each.key for each in work.after],
        "parts": list(work.parts),
        "signoffs": list(work.signoffs),
        "exposures": list(work.exposures),
        "on_site": work.on_site,
        "filler": work.filler,
        "gone": False,
        "order": order,
    }


def keep_typed(house: House, *, label: str, trade: str, place: str, **facts: object) -> HouseTask:
    """Keep a task that the instructor typed; its key is made from a count of its own."""
    with transaction.atomic():
        count = house.tasks.filter(by_hand=True).count() + 1
        while house.tasks.filter(key=f"typed-{count}").exists():
            count += 1
        made: HouseTask = HouseTask.objects.create(
            house=house,
            key=f"typed-{count}",
            label=label,
            trade=trade,
            place=place,
            by_hand=True,
            order=100_000 + count,
            **facts,
        )
    return made
