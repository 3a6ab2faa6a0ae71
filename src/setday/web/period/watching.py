"""Who needs watching, and when: the instructor's overview of a period."""

from collections.abc import Iterable, Mapping
from typing import Any

from setday.errors import SetdayError
from setday.web.keeping.class_files import class_file_of
from setday.web.keeping.models import House
from setday.web.period.bells import kind_of

__all__ = ["watch_row", "watch_rows"]


def watch_rows(house: House, cards: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return a line for each task under way in a period, the one that takes most attention first.

    Parameters
    ----------
    house : House
    cards : iterable of dict
        As `crew_cards` makes them; of a crew's tasks the first that is not done counts.
    """
    rows = []
    told: Mapping[str, tuple[int, str]] | None = None
    for card in cards:
        task = next((each["task"] for each in card["tasks"] if not each["done"]), None)
        if task is None:
            continue
        told = _typed(house) if told is None else told
        kind = kind_of(task)
        tenths, guest = told.get(task.key, (kind.attention, ""))
        names = [member.name for member in card["members"]]
        rows.append(watch_row(card["crew"].number, task.label, task.place, names, tenths, kind, guest=guest))
    return sorted(rows, key=lambda row: (-row["tenths"], row["number"]))


def watch_row(
    number: int, what: str, where: str, who: list[str], tenths: int, kind: Any, *, guest: str = ""
) -> dict[str, Any]:
    """Return the line of one crew.

    Parameters
    ----------
    number : int
        Of the crew.
    what, where : str
    who : list of str
        Names.
    tenths : int
        Of one instructor.
    kind : KindOfWork
        Says what is looked at before, meanwhile and at the end.
    guest : str
    """
    from setday.actions.bells.sheets import watched

    begins, meanwhile, ends = watched(kind, guest=guest)
    return {
        "number": number,
        "what": what,
        "where": where,
        "who": who,
        "tenths": tenths,
        "begins": begins,
        "meanwhile": meanwhile,
        "ends": ends,
    }


def _typed(house: House) -> dict[str, tuple[int, str]]:
    """Return attention and guest of the tasks of the class file in force; nothing where it cannot be read."""
    from setday.web.timetable.figured import plan_of

    kept = class_file_of(house)
    if kept is None:
        return {}
    try:
        return {task.key: (task.attention, task.guest) for task in plan_of(kept).tasks}
    except SetdayError:
        return {}
