"""Minutes of every student by trade and skill, summed from the periods as they were."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from setday.roster import Student
from setday.roster.periods import CrewTask, Spell

__all__ = ["Hours", "StudentHours", "hours_of", "hours_table"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StudentHours:
    """What one student was at.

    Parameters
    ----------
    student : Student
    minutes : tuple of (str, str, int)
        Trade, skill, minutes [min], by trade and skill.
    lacking : tuple of (str, int)
        Trades whose wanted minutes are not reached, and by how much [min].
    """

    student: Student
    minutes: tuple[tuple[str, str, int], ...]
    lacking: tuple[tuple[str, int], ...]

    @property
    def total(self) -> int:
        """All minutes [min]."""
        return sum(each for _trade, _skill, each in self.minutes)

    def of_trade(self, trade: str) -> int:
        """Return the minutes in one trade [min]."""
        return sum(each for name, _skill, each in self.minutes if name == trade)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """The hours of a class.

    Parameters
    ----------
    trades : tuple of str
        Every trade that anybody was at or is to reach hours in.
    students : tuple of StudentHours
        In the order given.
    """

    trades: tuple[str, ...]
    students: tuple[StudentHours, ...]

    def not_yet(self, trade: str) -> tuple[Student, ...]:
        """Return who was never at a trade."""
        return tuple(each.student for each in self.students if not each.of_trade(trade))


def hours_of(students: Sequence[Student], spells: Iterable[Spell], tasks: Mapping[str, CrewTask]) -> Hours:
    """Sum the minutes of every student.

    Parameters
    ----------
    students : sequence of Student
    spells : iterable of Spell
        Of all periods that count.
    tasks : mapping
        Task by key; spells at tasks that are not in it are left out.
    """
    counted: dict[str, Counter[tuple[str, str]]] = {student.key: Counter() for student in students}
    for spell in spells:
        task = tasks.get(spell.task)
        if task is None:
            continue
        for member in set(spell.members) & counted.keys():
            counted[member][task.trade, task.skill] += spell.minutes
    trades = {trade for own in counted.values() for trade, _skill in own}
    trades |= {trade for student in students for trade, _minutes in student.targets}
    return Hours(
        trades=tuple(sorted(trades)), students=tuple(_student(each, counted[each.key]) for each in students)
    )


def _student(student: Student, own: Mapping[tuple[str, str], int]) -> StudentHours:
    found = tuple((trade, skill, minutes) for (trade, skill), minutes in sorted(own.items()))
    plain = StudentHours(student=student, minutes=found, lacking=())
    lacking = tuple(
        (trade, wanted - plain.of_trade(trade))
        for trade, wanted in student.targets
        if plain.of_trade(trade) < wanted
    )
    return StudentHours(student=student, minutes=found, lacking=lacking)


def hours_table(hours: Hours) -> tuple[tuple[str, ...], ...]:
    """Return the rows of a table: heads, then a row a student, hours to the quarter [h].

    Examples
    --------
    >>> from datetime import datetime
    >>> ann = Student(key="a", name="Ann")
    >>> felt = CrewTask(key="f", label="Felt", trade="roofing", place="roof")
    >>> spell = Spell(
    ...     crew="1",
    ...     task="f",
    ...     members=("a",),
    ...     begins=datetime(2026, 9, 7, 8),
    ...     ends=datetime(2026, 9, 7, 9, 30),
    ... )
    >>> hours_table(hours_of([ann], [spell], {"f": felt}))
    (('student', 'roofing', 'all'), ('Ann', '1.5', '1.5'))
    """
    head = ("student", *hours.trades, "all")
    rows = [
        (
            each.student.name,
            *(_hours(each.of_trade(trade)) for trade in hours.trades),
            _hours(each.total),
        )
        for each in hours.students
    ]
    return (head, *rows)


def _hours(minutes: int) -> str:
    """Return minutes as hours to the nearest quarter [h]."""
    return f"{round(minutes / 15) / 4:g}"
