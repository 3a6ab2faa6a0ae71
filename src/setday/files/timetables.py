"""Saved timetables: read back from their JSON, crew by crew."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, time
from typing import Any

from setday.errors import FileProblem

__all__ = ["SavedCrew", "SavedPeriod", "SavedTimetable", "read_timetable"]

FORM = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class SavedCrew:
    """Who was put on a task, by keys."""

    task: str
    students: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SavedPeriod:
    """One period of a saved timetable."""

    day: date
    begin: time
    school_class: str
    crews: tuple[SavedCrew, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SavedTimetable:
    """A timetable that was kept.

    Parameters
    ----------
    house : str
    periods : tuple of SavedPeriod
    minutes : mapping
        Student-minutes planned for each task, by key.
    """

    house: str
    periods: tuple[SavedPeriod, ...]
    minutes: Mapping[str, int]


def read_timetable(data: bytes, *, name: str) -> SavedTimetable:
    """Read a saved timetable.

    Raises
    ------
    FileProblem
        When it is none, saying where it goes wrong.
    """
    try:
        read = json.loads(data.decode("utf-8-sig"))
    except (UnicodeDecodeError, json.JSONDecodeError) as error:
        line = getattr(error, "lineno", 0)
        raise FileProblem(
            f"This is no saved timetable: {'line ' + str(line) if line else 'it'} is not JSON.",
            do="Name a file that setday timetable solve --keep has written.",
            where=name,
        ) from error
    except RecursionError as error:
        raise FileProblem("This is no saved timetable: it is nested too deeply.", where=name) from error
    if not isinstance(read, dict) or read.get("setday timetable") != FORM:
        raise FileProblem(
            "This is no saved timetable of a form known here.",
            do="Name a file that setday timetable solve --keep has written.",
            where=name,
        )
    try:
        return SavedTimetable(
            house=str(read["house"]),
            periods=tuple(_periods(read)),
            minutes={str(task["key"]): int(task["student_minutes"]) for task in read["tasks"]},
        )
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise FileProblem(
            f"The saved timetable is damaged: {error}.",
            do="Solve it again and keep it anew.",
            where=name,
        ) from error


def _periods(read: dict[str, Any]) -> Iterator[SavedPeriod]:
    for period in read["periods"]:
        yield SavedPeriod(
            day=date.fromisoformat(period["date"]),
            begin=time.fromisoformat(period["begin"]),
            school_class=str(period["class"]),
            crews=tuple(
                SavedCrew(task=str(crew["task"]), students=tuple(map(str, crew["students"])))
                for crew in period["crews"]
            ),
        )
