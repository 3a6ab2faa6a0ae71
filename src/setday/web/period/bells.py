"""The bell sheet on a phone: what paper says of a task, from the records of its period."""

import re
import time
from dataclasses import dataclass, replace
from functools import lru_cache
from html import unescape
from threading import Lock
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from setday.errors import SetdayError
from setday.web.houses.opening import opened, opened_text
from setday.web.keeping.models import (
    BoardRun,
    ClassPeriod,
    HouseTask,
    HouseVersion,
    Member,
    SchoolClass,
    SealedOffer,
)
from setday.web.period.caution_words import cautions_said

if TYPE_CHECKING:
    from setday.actions.bells.pictures import Pictures
    from setday.actions.bells.sealed import Withheld
    from setday.timetable.tasks import KindOfWork, Work

__all__ = ["Bell", "bell_of", "bells_of", "forget", "kept_boards", "kind_of", "pictures_of", "withheld_from"]

_KEPT = 8
_TITLE = re.compile(r"<title[^>]*>([^<]*)</title>")
_BOX = re.compile(r'viewBox="0 0 ([\d.]+) ')
_PHONE = 420
"""A wider drawing is pushed sideways on a phone."""
_one_at_a_time = Lock()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bell:
    """What a crew is told of one task, beside its name, its place and how far it is.

    Parameters
    ----------
    share : str
        What this period is about of the whole; "" where it is not known, or sealed.
    kind : KindOfWork
        Tools, steps, what to figure first, who signs.
    cautions : str
    material : tuple of str
    drawings : tuple of (str, str, bool)
        What each shows, its SVG, and whether it is wider than a phone.
    more : str
        Where other drawings are, or why there are none.
    figures : tuple of (int, str)
        Sealed figures about this place that the member may try: number and title.
    signoffs : str
    """

    share: str
    kind: "KindOfWork"
    cautions: str
    material: tuple[str, ...]
    drawings: tuple[tuple[str, str, bool], ...]
    more: str
    figures: tuple[tuple[int, str], ...] = ()
    signoffs: str = ""


def bells_of(period: ClassPeriod, card: dict[str, Any], member: Member | None) -> None:
    """Put what the bell sheet says to each task of a crew's card; a drawing shown once is not repeated."""
    try:
        pictures = pictures_of(period.house.newest, period.school_class)
    except SetdayError:  # the house file in force cannot be built: what is known without it is told
        pictures = None
    shown: set[str] = set()
    first = next((each for each in card["tasks"] if each["running"]), None)
    first = first or next((each for each in card["tasks"] if not each["done"]), None)
    for each in card["tasks"]:
        each["first"] = each is first
        bell = bell_of(each["task"], period, pictures, members=len(card["members"]), left=each["left"])
        fresh = tuple(one for one in bell.drawings if one[1] not in shown)
        shown |= {one[1] for one in fresh}
        figures = tuple(_figures(period, each["task"], pictures, member)) if member and pictures else ()
        each["bell"] = replace(bell, drawings=fresh, figures=figures)


def bell_of(
    task: HouseTask, period: ClassPeriod, pictures: "Pictures | None", *, members: int, left: float
) -> Bell:
    """Return what is told of a task."""
    work, kind = _work(task), kind_of(task)
    told = pictures is None or not pictures.withheld.anything or task.by_hand
    drawn, more = pictures.of_work(work) if pictures else ((), "")
    return Bell(
        share=_share(task, members * period.minutes, left) if told else "",
        kind=kind,
        cautions=cautions_said(kind.cautions),
        material=_material(task, work, pictures),
        drawings=tuple((_title(svg), svg, _width(svg) > _PHONE) for svg in drawn),
        more=more,
        signoffs=", ".join(task.signoffs),
    )


def _title(svg: str) -> str:
    found = _TITLE.search(svg)
    return unescape(found[1]) if found else ""


def _width(svg: str) -> float:
    found = _BOX.search(svg)
    return float(found[1]) if found else 0.0


def kind_of(task: HouseTask) -> "KindOfWork":
    """Return the kind of work of a task; that of typed work by its trade, as class files are read."""
    from setday.actions.tasks.typed import kind_for
    from setday.timetable.tasks import kinds_of_work

    kinds = kinds_of_work()
    return kinds.get(task.skill) or kind_for(task.trade) or kinds["plain"]


def _work(task: HouseTask) -> "Work":
    from setday.timetable.tasks import Work

    return Work(
        key=task.key,
        label=task.label,
        trade=task.trade,
        kind=kind_of(task).key,
        place=task.place,
        minutes=task.minutes,
        quantity=task.quantity,
        unit=task.unit,
        filler=task.filler,
        parts=tuple(task.parts),
    )


def _share(task: HouseTask, minutes: int, left: float) -> str:
    """Return what a crew would get done of a task in a period, by its planned minutes."""
    if not (task.quantity and task.minutes and minutes and left):
        return ""
    able = task.quantity * minutes / task.minutes
    if able >= left:
        return _("All that is left can be done this period.")
    shown = f"{able:,.0f}" if able >= 10 else f"{able:,.1f}".removesuffix(".0")
    return _("About %(much)s %(unit)s this period.") % {"much": shown, "unit": task.unit}


def _material(task: HouseTask, work: "Work", pictures: "Pictures | None") -> tuple[str, ...]:
    if task.filler:
        return (_("what lies ready at the bench"),)
    listed = pictures.material(work) if pictures else ()
    return listed or (_("from the pile marked '%(task)s'; ask the instructor") % {"task": task.label},)


def _figures(
    period: ClassPeriod, task: HouseTask, pictures: "Pictures", member: Member
) -> "list[tuple[int, str]]":
    """Return the sealed figures about the place of a task that a member may still try."""
    from setday.actions.bells.sealed import is_about
    from setday.web.sealed.entering import sealed_for
    from setday.web.sealed.figures import figure_in

    work = _work(task)
    offers = sealed_for(member).filter(version__house=period.house_id, opened_at__isnull=True)
    found = []
    for offer in offers:
        if is_about(offer.figure, pictures.house, rooms=pictures.rooms(work), trade=work.trade):
            try:
                found.append((offer.pk, figure_in(offer).title))
            except SetdayError:  # this version of Setday does not know the figure any more
                continue
    return found


def pictures_of(
    version: HouseVersion, school_class: SchoolClass | None, *, paper: bool = False
) -> "Pictures":
    """Return who draws the places of a house for a class; each drawing is made once.

    Parameters
    ----------
    version : HouseVersion
    school_class : SchoolClass or None
        Whose sealed figures are kept back; None keeps nothing back.
    paper : bool
        For paper rather than for a phone.

    Raises
    ------
    FileProblem
        When the house file in force cannot be built.
    """
    run = kept_boards(version)
    facts = (run.pk, run.kept_layouts) if run else (0, 0)
    withheld = withheld_from(version, school_class)
    with _one_at_a_time:
        return _pictures(version.pk, version.text, version.file_name, facts, withheld, paper)


@lru_cache(maxsize=_KEPT)
def _pictures(
    pk: int, text: str, name: str, facts: tuple[int, int], withheld: "Withheld", paper: bool
) -> "Pictures":
    from setday.actions.bells.pictures import PHONES, SHEETS, Pictures
    from setday.timetable.tasks import timetable_rules, zones_of
    from setday.web.cable.figured import cable_of_version

    house = opened_text(text, name)
    return Pictures(
        house,
        zones=zones_of(house.built(), rules=timetable_rules(house.local)),
        clock=time.monotonic,
        boards=_figured_boards(facts[0]) if facts[0] else None,
        withheld=withheld,
        cable=lambda: cable_of_version(HouseVersion.objects.get(pk=pk)),
        papers=SHEETS if paper else PHONES,
    )


def _figured_boards(run: int) -> Any:
    from setday.web.boards.figuring import figured

    return figured(BoardRun.objects.get(pk=run))


def kept_boards(version: HouseVersion) -> BoardRun | None:
    """Return the run whose layout is in force for a version of a house; None before there is one."""
    from setday.web.boards.figuring import run_in_force

    return run_in_force(version)


def withheld_from(version: HouseVersion, school_class: SchoolClass | None) -> "Withheld":
    """Return what the sealed figures of a class keep off its sheets.

    Raises
    ------
    FileProblem
        When the house file in force cannot be built.
    """
    from setday.actions.bells.sealed import NOTHING, withheld_of

    if school_class is None:
        return NOTHING
    offers = SealedOffer.objects.filter(
        school_class=school_class, opened_at__isnull=True, version__house=version.house_id
    ).order_by("pk")
    sealed = list(offers.values_list("figure", "by_layout"))
    return withheld_of(sealed, opened(version).built()) if sealed else NOTHING


def forget() -> None:
    """Forget what is kept in memory."""
    _pictures.cache_clear()
