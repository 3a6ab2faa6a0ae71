"""What an instructor writes down for the timetable: tasks, rates, places and pins."""

from dataclasses import dataclass, field
from datetime import date

from setday.findings import Where
from setday.roster.bells import Stretch
from setday.roster.calendar import Calendar
from setday.roster.limits import LimitRules, Work
from setday.roster.people import SchoolClass, Student, plain

__all__ = ["After", "ClassPlan", "Pin", "Rate", "TypedTask", "rate_of", "student_hours"]


@dataclass(frozen=True, slots=True, kw_only=True)
class After:
    """What a task waits for: another task, and then time.

    Parameters
    ----------
    task : str
        Key of the task that has to be finished.
    days, hours : int
        Time from its end to this task's beginning [d], [h].
    """

    task: str
    days: int = 0
    hours: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """How long a work takes one student.

    Parameters
    ----------
    trade, work : str
        "siding", "lap siding".
    hours : float
        Student-hours for one unit [h].
    unit : str
        "ft2", "pieces" ...
    said_by : str
        Where the number comes from; "" where the instructor set it without a word.
    """

    trade: str
    work: str
    hours: float
    unit: str
    said_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedTask:
    """A task as the instructor typed it.

    Parameters
    ----------
    key, label, trade, place : str
    hours : float or None
        Student-hours [h]; None where `quantity` and a rate say it; 0 is a mark that takes no work.
    quantity : float or None
        In `unit`.
    unit, work : str
        Unit of the quantity, and which rate of the trade it goes by.
    crew_least, crew_most : int
    after : tuple of After
    signoffs, exposures : tuple of str
    attention : int
        Tenths of one instructor it needs while it runs.
    dry : bool
        True when it needs dry weather.
    clashes : tuple of str
        Trades that may not work in the same place in the same period.
    material_due, not_before : date or None
        Days before which it cannot begin.
    on : tuple of date
        The only days it may run on; empty for any.
    guest : str
        Who has to be there; "" for nobody.
    needs_gates, opens_gates : tuple of str
        Gates that have to be open before it, and that are open once it is done.
    on_site : bool
        False for practice benches.
    filler : bool
        Useful work that is never finished, for whoever is left over.
    where : Where
    """

    key: str
    label: str
    trade: str
    place: str
    hours: float | None = None
    quantity: float | None = None
    unit: str = ""
    work: str = ""
    crew_least: int = 1
    crew_most: int = 4
    after: tuple[After, ...] = ()
    signoffs: tuple[str, ...] = ()
    exposures: tuple[str, ...] = ()
    attention: int = 0
    dry: bool = False
    clashes: tuple[str, ...] = ()
    material_due: date | None = None
    not_before: date | None = None
    on: tuple[date, ...] = ()
    guest: str = ""
    needs_gates: tuple[str, ...] = ()
    opens_gates: tuple[str, ...] = ()
    on_site: bool = True
    filler: bool = False
    where: Where = Where()

    @property
    def as_work(self) -> Work:
        """What matters for who may do it."""
        return Work(
            key=self.key,
            label=self.label,
            signoffs=self.signoffs,
            exposures=self.exposures,
            on_site=self.on_site,
        )

    @property
    def begins(self) -> date | None:
        """The later one of the days before which it cannot begin."""
        return max(filter(None, (self.material_due, self.not_before)), default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """What the instructor wants to happen on a day, whatever else moves.

    Parameters
    ----------
    task : str
        Key of a task.
    days : Stretch
        It runs on each of these days on which the class meets.
    school_class : str
        Key of the class; "" for any.
    students : tuple of str
        Keys of those who are on it; empty leaves the crew open.
    where : Where
    """

    task: str
    days: Stretch
    school_class: str = ""
    students: tuple[str, ...] = ()
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassPlan:
    """All that is written down about the classes that build one house.

    Parameters
    ----------
    school : str
    house : str
        Name of the house; "" where it is not said.
    classes : tuple of SchoolClass
    calendar : Calendar
    places : tuple of (str, int)
        How many people a place holds.
    rates : tuple of Rate
    factors : tuple of (str, float)
        Trade and how many times the usual hours the class takes.
    tasks : tuple of TypedTask
    pins : tuple of Pin
    limits : LimitRules
    idle_allowed : bool
        True when somebody present may be left without work.
    """

    school: str
    classes: tuple[SchoolClass, ...]
    calendar: Calendar
    house: str = ""
    places: tuple[tuple[str, int], ...] = ()
    rates: tuple[Rate, ...] = ()
    factors: tuple[tuple[str, float], ...] = ()
    tasks: tuple[TypedTask, ...] = ()
    pins: tuple[Pin, ...] = ()
    limits: LimitRules = field(default_factory=LimitRules)
    idle_allowed: bool = False

    @property
    def students(self) -> tuple[Student, ...]:
        """The students of all classes."""
        return tuple(student for group in self.classes for student in group.students)


def student_hours(task: TypedTask, plan: ClassPlan) -> float | None:
    """Return the student-hours of a task [h], the class factor of its trade applied; None without a rate.

    Parameters
    ----------
    task : TypedTask
    plan : ClassPlan
        Gives rates and factors.
    """
    hours = task.hours
    if hours is None:
        rate = rate_of(task, plan.rates)
        if rate is None or task.quantity is None:
            return None
        hours = rate.hours * task.quantity
    return hours * dict(plan.factors).get(task.trade, 1.0)


def rate_of(task: TypedTask, rates: tuple[Rate, ...]) -> Rate | None:
    """Return the rate a task goes by, in its unit: by trade, and by work where the task names one.

    Parameters
    ----------
    task : TypedTask
    rates : tuple of Rate
    """
    fitting = [
        rate
        for rate in rates
        if plain(rate.trade) == plain(task.trade)
        and _singular(rate.unit) == _singular(task.unit)
        and (not task.work or plain(rate.work) == plain(task.work))
    ]
    return fitting[0] if len(fitting) == 1 else None


def _singular(unit: str) -> str:
    """Return a unit as it is compared: a rate says "per opening", a quantity "22 openings"."""
    return plain(unit).removesuffix("s")
