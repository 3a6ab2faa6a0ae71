"""Bell sheets of a timetable: each crew's page with the drawing of just its place."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from setday.actions.bells.pictures import Pictures
from setday.actions.timetable.solving import Crew, Timetable
from setday.roster import Meeting
from setday.sheets import (
    BellPeriod,
    Book,
    CrewCard,
    Sheet,
    book_pdf,
    crew_sheet,
    overview_sheet,
    wall_sheet_of,
)
from setday.timetable.tasks import KindOfWork, Work, kinds_of_work

__all__ = ["CAUTION", "bell_periods", "bells_pdf", "early_task", "watched"]

CAUTION = "Rates are for planning, never for hurrying people. The instructor decides."


def bell_periods(
    timetable: Timetable, on: date, *, pictures: Pictures | None = None, school_class: str = ""
) -> tuple[BellPeriod, ...]:
    """Return the periods of a day, crew by crew.

    Parameters
    ----------
    timetable : Timetable
    on : date
    pictures : Pictures or None
        Draws the places and counts the material; None leaves both out.
    school_class : str
        Key of one class; "" for all.
    """
    meetings = [
        meeting
        for meeting in timetable.day.meetings[: len(timetable.rows)]
        if meeting.date == on and school_class in ("", meeting.school_class)
    ]
    return tuple(_period(timetable, meeting, pictures) for meeting in meetings)


def _period(timetable: Timetable, meeting: Meeting, pictures: Pictures | None) -> BellPeriod:
    day = timetable.day
    names = day.names
    groups = {group.key: group for group in day.plan.classes}
    group = groups[meeting.school_class]
    crews = timetable.crews[meeting.number]
    busy = {key for crew in crews for key in crew.students}
    present = day.problem.periods[meeting.number].present
    return BellPeriod(
        title=f"{meeting.date:%A %-d %B %Y}, {meeting.begin:%-H:%M}, {group.name}",
        minutes=meeting.minutes,
        crews=tuple(_card(timetable, meeting, crew, crews, pictures) for crew in crews),
        absent=tuple(names[key] for key in sorted(meeting.absent)),
        guests=meeting.guests,
        without=tuple(names[key] for key in sorted(present - busy)),
        attention_there=meeting.attention,
    )


def _card(
    timetable: Timetable,
    meeting: Meeting,
    crew: Crew,
    crews: tuple[Crew, ...],
    pictures: Pictures | None,
) -> CrewCard:
    day = timetable.day
    work = day.works.get(crew.work) or _bench()
    kind = kinds_of_work()[work.kind]
    drawn, more = pictures.of_work(work) if pictures else ((), "")
    return CrewCard(
        number=crew.number,
        members=tuple(day.names[key] for key in crew.students),
        what=work.label,
        where=work.place,
        how_much=_how_much(
            timetable, meeting, crew, work, told=not (pictures and pictures.withheld.anything)
        ),
        material=_material(work, pictures),
        tools=kind.tools,
        steps=kind.steps,
        cautions=kind.cautions,
        figure_first=kind.figure_first,
        signs=kind.signs,
        early=early_task(timetable, meeting, crew, crews),
        signoffs=", ".join(work.signoffs),
        attention=0 if work.filler else work.attention,
        watch=watched(kind, guest=work.guest),
        pictures=drawn,
        more_pictures=more,
    )


def _bench() -> Work:
    return Work(
        key="bench",
        label="Shop and practice bench",
        trade="bench",
        kind="bench",
        place="shop",
        minutes=0,
        filler=True,
    )


def _how_much(timetable: Timetable, meeting: Meeting, crew: Crew, work: Work, *, told: bool) -> str:
    """Return what this period is about of the whole, where it may be told, and which of its periods it is."""
    if work.filler or not work.minutes:
        return ""
    periods = [n for n, row in enumerate(timetable.crews) if any(c.work == work.key for c in row)]
    at, many = periods.index(meeting.number) + 1, len(periods)
    turn = f"period {at} of {many}" if many > 1 else "done this period"
    if not work.quantity or not told:
        return turn
    share = len(crew.students) * meeting.minutes / work.minutes
    whole = f"{work.quantity:,.0f} {work.unit}"
    if share >= 1:
        return f"{whole}, {turn}"
    if at == many:
        return f"the rest of {whole}, {turn}"
    part = work.quantity * share
    shown = f"{part:,.0f}" if part >= 10 else f"{part:,.1f}".removesuffix(".0")
    return f"about {shown} of {whole}, {turn}"


def _material(work: Work, pictures: Pictures | None) -> tuple[str, ...]:
    if work.filler:
        return ("what lies ready at the bench",)
    listed = pictures.material(work) if pictures else ()
    return listed or (f"from the pile marked '{work.label}'; ask the instructor",)


def watched(kind: KindOfWork, *, guest: str = "") -> tuple[str, str, str]:
    """Return what the instructor looks at in a crew: before it begins, meanwhile, and at the end."""
    begins = [f"guest: {guest}"] if guest else []
    begins += [f"what they figured: {kind.figure_first}"] if kind.figure_first else []
    return "; ".join(begins), "; ".join(kind.cautions[:1]), kind.signs


def early_task(timetable: Timetable, meeting: Meeting, crew: Crew, crews: Sequence[Crew]) -> str:
    """Return what a crew does when it is done early: the next ready task that needs no new set-up.

    First its own next one of the same trade and place, then of the same trade anywhere that is ready, then
    a hand for a crew of the same trade, and otherwise the bench.
    """
    day = timetable.day
    own = day.works.get(crew.work)
    if own is None or own.filler:
        return "Figure the next sealed figure on your list, or show a task you know to somebody new to it."
    ready = [work for work in _ready(timetable, meeting, crew) if work.trade == own.trade]
    for work in sorted(ready, key=lambda each: (each.place != own.place, each.kind != own.kind)):
        return f"Begin: {work.label} ({work.place}), after the instructor has seen this one."
    for other in crews:
        theirs = day.works.get(other.work)
        if other is crew or theirs is None or theirs.trade != own.trade:
            continue
        if _has_room(theirs, other):
            return f"Give crew {other.number} a hand: {theirs.label} ({theirs.place})."
    return "Clean up, show it to the instructor, then to the practice bench."


def _has_room(work: Work, crew: Crew) -> bool:
    return not work.filler and len(crew.students) < work.crew_most


def _ready(timetable: Timetable, meeting: Meeting, crew: Crew) -> Iterator[Work]:
    """Yield the works not yet begun whose waits are over now, or once the crew's own is done."""
    day = timetable.day
    ended = _ended(timetable.crews[: meeting.number])
    begun = {c.work for row in timetable.crews[: meeting.number + 1] for c in row}
    last = _ended(timetable.crews)
    students = {s.key: s for s in day.problem.students}
    for work in day.work.works:
        task = day.problem.tasks[day.problem.number[work.key]]
        if (
            work.filler
            or work.key in begun
            or not work.minutes
            or task.allowed
            or task.begin > meeting.number
        ):
            continue
        waits = [w for w in work.after if not _over(w.key, w.days, meeting, day.meetings, (ended, last))]
        if waits or not task.crew_least <= len(crew.students) <= task.crew_most:
            continue
        if all(day.problem.may(students[key], task) for key in crew.students):
            yield work


def _over(
    key: str,
    days: int,
    meeting: Meeting,
    meetings: Sequence[Meeting],
    ends: tuple[Mapping[str, int], Mapping[str, int]],
) -> bool:
    ended, last = ends
    if key not in ended or ended[key] != last.get(key):
        return False
    return (meeting.date - meetings[ended[key]].date).days >= days


def _ended(crews: Sequence[Sequence[Crew]]) -> dict[str, int]:
    """Return the last period each task has run in."""
    return {crew.work: number for number, row in enumerate(crews) for crew in row}


def bells_pdf(timetable: Timetable, periods: Sequence[BellPeriod], *, dated: date) -> bytes:
    """Return the bell sheets of some periods as PDF: the wall's, the instructor's, then crew by crew."""
    sheets: list[Sheet] = [wall_sheet_of(period) for period in periods]
    sheets.append(overview_sheet(periods))
    sheets += [crew_sheet(crew, period) for period in periods for crew in period.crews]
    book = Book(house=timetable.day.work.house, dated=dated, sheets=tuple(sheets), caution=CAUTION)
    return book_pdf(book)
