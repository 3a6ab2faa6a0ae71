"""Tasks, rates, pins and limits of a class file as the roster takes them."""

from setday.errors import RuleError
from setday.files.class_file.describing import People
from setday.files.class_file.shape import ClassPart
from setday.files.class_file.shape_tasks import TaskPart
from setday.files.written.notebook import Names, Notebook
from setday.files.written.tree import Path
from setday.roster import LimitRules, Pin, Rate, TypedTask, exposures

__all__ = ["describe_limits", "describe_pins", "describe_rates", "describe_tasks"]


def describe_tasks(part: ClassPart, notebook: Notebook) -> tuple[TypedTask, ...]:
    """Return the typed tasks.

    Parameters
    ----------
    part : ClassPart
    notebook : Notebook
    """
    written = Names(part.tasks or {})
    return tuple(_task(key, each, written, notebook) for key, each in (part.tasks or {}).items())


def _task(key: str, part: TaskPart, written: Names, notebook: Notebook) -> TypedTask:
    path: Path = ("tasks", key)
    quantity, unit = part.quantity or (None, "")
    least, most = part.crew or (1, 4)
    if part.hours is not None and part.quantity is not None and part.work:
        found = "hours and a rate are both written; the hours hold."
        notebook.find((*path, "hours"), rule="file.entry", found=found, do="Take one of them out.")
    return TypedTask(
        key=key,
        label=part.label or key,
        trade=part.trade,
        place=part.place,
        hours=part.hours,
        quantity=quantity,
        unit=unit,
        work=part.work or "",
        crew_least=least,
        crew_most=most,
        after=tuple(
            type(wait)(task=written.find(wait.task) or wait.task, days=wait.days, hours=wait.hours)
            for wait in part.after or ()
        ),
        signoffs=tuple(part.signoffs or ()),
        exposures=_exposures(part, (*path, "exposures"), notebook),
        attention=part.attention or 0,
        dry=bool(part.needs_dry_weather),
        clashes=tuple(part.clashes_with or ()),
        material_due=part.material_due,
        not_before=part.not_before,
        on=tuple(part.on or ()),
        guest=part.guest or "",
        needs_gates=tuple(part.needs_gates or ()),
        opens_gates=tuple(part.opens_gates or ()),
        on_site=part.on_site is not False,
        filler=bool(part.filler),
        where=notebook.where(path, at_key=True),
    )


def _exposures(part: TaskPart, path: Path, notebook: Notebook) -> tuple[str, ...]:
    """Return what a task brings near; a word no limit goes by would pass every limit unseen."""
    known = Names(exposures())
    near = []
    for number, word in enumerate(part.exposures or ()):
        meant = known.find(word)
        if meant is None:
            found, expected, do = known.unknown(word, "exposure")
            notebook.find((*path, number), rule="file.name", found=found, expected=expected, do=do)
        else:
            near.append(meant)
    return tuple(near)


def describe_rates(part: ClassPart) -> tuple[Rate, ...]:
    """Return the rates.

    Parameters
    ----------
    part : ClassPart
    """
    return tuple(
        Rate(trade=trade, work=work, hours=hours, unit=unit, said_by=said_by)
        for trade, works in (part.rates or {}).items()
        for work, (hours, unit, said_by) in works.items()
    )


def describe_pins(part: ClassPart, people: People, notebook: Notebook) -> tuple[Pin, ...]:
    """Return the pins; a pin may name a task that a trade figures from the house.

    Parameters
    ----------
    part : ClassPart
    people : People
    notebook : Notebook
    """
    written = Names(part.tasks or {})
    made = []
    for number, each in enumerate(part.pins or ()):
        path: Path = ("pins", number)
        made.append(
            Pin(
                task=written.find(each.task) or each.task,
                days=each.days[0],
                school_class=people.group(each.school_class, (*path, "class")),
                students=people.named(each.students or (), (*path, "students")),
                where=notebook.where((*path, "task")),
            )
        )
    return tuple(made)


def describe_limits(part: ClassPart, notebook: Notebook) -> LimitRules:
    """Return the limits for minors that hold.

    Parameters
    ----------
    part : ClassPart
    notebook : Notebook
    """
    kept: list[tuple[str, str]] = []
    for key, reason in (part.limits_set_aside or {}).items():
        try:
            kept += LimitRules(set_aside=((key, reason),)).set_aside
        except RuleError as error:
            path: Path = ("limits set aside", key)
            notebook.find(path, rule="file.limit", found=error.message, do=error.do, at_key=True)
    return LimitRules(set_aside=tuple(kept))
