"""What keeps a student off a piece of work: missing sign-offs, and the limits for minors.

The limits are those of 29 CFR 570 for employment and programmes like it.  State and district rules may
be stricter; the instructor and the school decide what holds.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache

from setday.errors import RuleError
from setday.findings import Finding, Severity
from setday.roster.bells import spoken_day
from setday.roster.people import Student, birthday, plain
from setday.rules import Source, load_table

__all__ = [
    "EVERY_LIMIT",
    "Limit",
    "LimitRules",
    "Work",
    "barring",
    "exposures",
    "limits",
    "may",
    "refusals",
]

EVERY_LIMIT = "all"
"""Key that sets every limit for minors aside."""
_ON_SITE, _ANY = "construction site", "any work"


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A piece of work, as far as it matters who may do it.

    Parameters
    ----------
    key, label : str
    signoffs : tuple of str
        Every member of the crew needs them all.
    exposures : tuple of str
        What it brings a student near, in the words of `exposures()`: "roofing", "power saw" ...
    on_site : bool
        False for practice benches and desk work: no construction work on the site.
    """

    key: str
    label: str
    signoffs: tuple[str, ...] = ()
    exposures: tuple[str, ...] = ()
    on_site: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One limit for minors.

    Parameters
    ----------
    key : str
        "order-16" ...
    order : str
        As people cite it: "Order 16".
    label : str
        What it is about.
    exposures : frozenset of str
    under : int
        It holds below this age [y].
    learner : bool
        True where student-learners of 16 and 17 may be exempt.
    source : Source
    """

    key: str
    order: str
    label: str
    exposures: frozenset[str]
    under: int
    learner: bool
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitRules:
    """Which limits for minors hold here.

    Parameters
    ----------
    set_aside : tuple of (str, str)
        Key of a limit, or "all", and why it does not hold here; sign-offs always hold.

    Raises
    ------
    RuleError
        For a limit that is none, and where no reason is stated; all of them at once.
    """

    set_aside: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        known = {EVERY_LIMIT, *(limit.key for limit in limits())}
        told = [f"There is no limit called {key!r}." for key, _ in self.set_aside if key not in known]
        told += [
            f"The limit {key!r} cannot be set aside without a reason."
            for key, reason in self.set_aside
            if key in known and not reason.strip()
        ]
        if told:
            raise RuleError(
                " ".join(told),
                do=f"Write who decided it and why; the limits are: {', '.join(sorted(known))}.",
            )

    def why_not(self, limit: Limit) -> str:
        """Return why a limit does not hold here; empty where it holds.

        Parameters
        ----------
        limit : Limit
        """
        reasons = dict(self.set_aside)
        return reasons.get(limit.key) or reasons.get(EVERY_LIMIT, "")


@cache
def limits() -> tuple[Limit, ...]:
    """Return every limit for minors, in the order of the table."""
    table = load_table("setday.roster", "limits")
    return tuple(
        Limit(
            key=row["key"],
            order=row["order"],
            label=row["label"],
            exposures=frozenset(row["exposures"].split("|")),
            under=int(row["under_years"]),
            learner=row["learner"] == "yes",
            source=table.source_of(row),
        )
        for row in table.rows
    )


@cache
def exposures() -> tuple[str, ...]:
    """Return the words for what a work may bring a student near, in alphabetical order."""
    return tuple(sorted({word for limit in limits() for word in limit.exposures} - {_ON_SITE, _ANY}))


def refusals(
    student: Student, work: Work, *, on: date, rules: LimitRules | None = None
) -> tuple[Finding, ...]:
    """Return what keeps a student off a piece of work on a day, and what was set aside or exempted.

    Parameters
    ----------
    student : Student
    work : Work
    on : date
        The day of the period.
    rules : LimitRules or None
        None: every limit holds.

    Returns
    -------
    tuple of Finding
        A problem bars the student.  A note tells of a limit set aside, with its reason, and of an
        exemption, with its conditions.  A student without a day of birth is taken for a minor of 16 or 17
        without exemption, and a question asks for it.

    Examples
    --------
    >>> ana = Student(key="ana", name="Ana", born=date(2010, 3, 9))
    >>> roof = Work(key="felt", label="Roll out the roof felt", exposures=("roofing",))
    >>> [(each.rule, each.severity.value) for each in refusals(ana, roof, on=date(2027, 4, 1))]
    [('limits.order-16', 'problem')]
    """
    in_force = rules or LimitRules()
    near = {plain(word) for word in work.exposures} | {_ANY} | ({_ON_SITE} if work.on_site else set())
    reached = [limit for limit in limits() if limit.exposures & near and _young(student, limit, on)]
    told = [_minor(student, work, limit, on, in_force.why_not(limit)) for limit in reached]
    return tuple(dict.fromkeys((*_unsigned(student, work, on), *told)))


def may(student: Student, work: Work, *, on: date, rules: LimitRules | None = None) -> bool:
    """Return whether nothing keeps a student off a piece of work on a day.

    Parameters
    ----------
    student : Student
    work : Work
    on : date
    rules : LimitRules or None
    """
    return not any(each.severity is Severity.PROBLEM for each in refusals(student, work, on=on, rules=rules))


def _young(student: Student, limit: Limit, on: date) -> bool:
    age = student.age(on)
    return age is None or age < limit.under


def _unsigned(student: Student, work: Work, on: date) -> Iterator[Finding]:
    for what in work.signoffs:
        if student.signed_off(what, on=on):
            continue
        later = [each.on for each in student.signoffs if plain(each.what) == plain(what)]
        found = f"the sign-off '{what}' is missing."
        if later:
            found = f"the sign-off '{what}' counts from {spoken_day(min(later))} only."
        do = f"Have {student.name} pass '{what}' and sign for it, or give the work to another."
        yield Finding(rule="limits.signoff", about=_about(student, work), found=found, do=do)


def _minor(student: Student, work: Work, limit: Limit, on: date, reason: str) -> Finding:
    said = f"{limit.label} ({limit.order}, under {limit.under})"
    if reason:
        return _said(student, work, limit, f"{said}: set aside here. Reason: {reason}", Severity.NOTE)
    if _exempt(student, limit, on):
        found = f"{said}: done as student-learner. It holds as long as {'; '.join(_conditions())}."
        return _said(student, work, limit, found, Severity.NOTE)
    if student.born is None:
        return _age_unknown(student, work, limit, said)
    reached = birthday(student.born, limit.under)
    found = f"{said}: {student.name} is {student.age(on)}, and {limit.under} on {spoken_day(reached)}."
    do = f"Give it to somebody of {limit.under}, or wait for {spoken_day(reached)}."
    return _said(student, work, limit, found, Severity.PROBLEM, do=f"{do}{_learner_too(limit)}")


def _age_unknown(student: Student, work: Work, limit: Limit, said: str) -> Finding:
    """Take somebody without a birth date for a minor of 16 or 17, and say so."""
    do = "Write the day of birth."
    if limit.under <= _learner_from():
        found = (
            f"the day of birth is not written; limits for those under {_learner_from()} were not looked at."
        )
        return Finding(
            rule="limits.birth-date", about=student.name, found=found, do=do, severity=Severity.ASK
        )
    found = f"{said}: the day of birth is not written, so {student.name} is taken for a minor of 16 or 17."
    return _said(student, work, limit, found, Severity.PROBLEM, do=do)


def _learner_too(limit: Limit) -> str:
    if not limit.learner:
        return "" if limit.under <= _learner_from() else " Student-learners are not exempt from this order."
    return f" From {_learner_from()} on, a written student-learner agreement lifts it under its conditions."


def _exempt(student: Student, limit: Limit, on: date) -> bool:
    age = student.age(on)
    return limit.learner and student.student_learner and age is not None and age >= _learner_from()


@cache
def _conditions() -> tuple[str, ...]:
    return tuple(row["condition"] for row in load_table("setday.roster", "learner").rows)


@cache
def _learner_from() -> int:
    return max(int(row["from_years"]) for row in load_table("setday.roster", "learner").rows)


def _said(
    student: Student, work: Work, limit: Limit, found: str, severity: Severity, *, do: str = ""
) -> Finding:
    return Finding(
        rule=f"limits.{limit.key}",
        about=_about(student, work),
        found=found,
        do=do,
        severity=severity,
        source=limit.source,
    )


def _about(student: Student, work: Work) -> str:
    return f"{student.name} on '{work.label}'"


def barring(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Return those findings that bar a student from a work.

    Parameters
    ----------
    findings : sequence of Finding
    """
    return tuple(each for each in findings if each.severity is Severity.PROBLEM)
