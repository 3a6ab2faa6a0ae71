"""The tasks the instructor typed, as work of the house."""

from collections.abc import Iterable
from dataclasses import replace

from setday.actions.tasks.gates import Gates
from setday.roster import After as TypedAfter
from setday.roster import ClassPlan, TypedTask, plain, rate_of, student_hours
from setday.timetable.tasks import After, KindOfWork, Work, Zone, kinds_of_work

__all__ = ["kind_for", "place_named", "typed_work"]

_HOURS_PER_DAY = 24


def typed_work(plan: ClassPlan, *, zones: tuple[Zone, ...], gates: Gates) -> tuple[Work, ...]:
    """Return the typed tasks as work.

    Parameters
    ----------
    plan : ClassPlan
    zones : tuple of Zone
        A place that is one of their rooms becomes its zone.
    gates : Gates
        Already knows what typed tasks open and need.
    """
    del gates  # read when the gates are closed
    return tuple(_work(task, plan, zones) for task in plan.tasks)


def _work(task: TypedTask, plan: ClassPlan, zones: tuple[Zone, ...]) -> Work:
    kind = kind_for(task.work, task.trade)
    hours = student_hours(task, plan) or 0.0
    rate = rate_of(task, plan.rates) if task.hours is None else None
    said = f"{rate.hours:g} h a {rate.unit}, {rate.said_by or 'the instructor'}" if rate else "the instructor"
    return Work(
        key=task.key,
        label=task.label,
        trade=task.trade,
        kind=kind.key if kind else "plain",
        place=place_named(task.place, zones),
        minutes=0 if task.filler else round(hours * 60),
        quantity=task.quantity or 0.0,
        unit=task.unit,
        crew_least=task.crew_least,
        crew_most=task.crew_most,
        after=tuple(_after(wait) for wait in task.after),
        signoffs=task.signoffs,
        exposures=task.exposures,
        attention=task.attention,
        clashes=task.clashes or (kind.clashes if kind else ()),
        dry=task.dry,
        due=task.begins,
        due_why=_why(task),
        on=task.on,
        guest=task.guest,
        filler=task.filler,
        on_site=task.on_site,
        parts=(task.key,),
        said_by=said,
    )


def _after(wait: TypedAfter) -> After:
    days = wait.days + -(-wait.hours // _HOURS_PER_DAY)
    return After(key=wait.task, days=days, why=f"{days} days" if days else "")


def _why(task: TypedTask) -> str:
    if task.begins is None:
        return ""
    return "material is due" if task.begins == task.material_due else "not before"


def kind_for(*words: str) -> KindOfWork | None:
    """Return the kind of work that one of the words names: by its key, its label, or else its trade."""
    kinds: Iterable[KindOfWork] = kinds_of_work().values()
    for word in filter(None, words):
        for kind in kinds:
            if plain(word).replace(" ", "-") == kind.key or plain(word) == plain(kind.label):
                return kind
    for word in filter(None, words):
        for kind in kinds:
            if plain(word) == plain(kind.trade):
                return kind
    return None


def place_named(place: str, zones: tuple[Zone, ...]) -> str:
    """Return the zone of a room, or the place as it was typed."""
    for zone in zones:
        if plain(place) in {plain(zone.name), *map(plain, zone.rooms)}:
            return zone.name
    return "yard" if plain(place) == "outdoors" else place


def with_kind(work: Work, kind: KindOfWork) -> Work:
    """Return a work with what its kind says about attention, sign-offs, clashes and weather."""
    return replace(
        work,
        kind=kind.key,
        attention=kind.attention,
        signoffs=kind.signoffs,
        exposures=kind.exposures,
        clashes=kind.clashes,
        dry=kind.dry,
    )
