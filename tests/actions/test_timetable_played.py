"""The demo class from its first day on: mishaps every period, repaired each time, every hard rule kept."""

import random
import time

import pytest

from setday.actions import demo_text, open_house
from setday.actions.classes import demo_class_text, usable_plan
from setday.actions.timetable.problem import class_day
from setday.actions.timetable.repair import repair_timetable
from setday.actions.timetable.solving import solve_timetable
from setday.actions.timetable.standing import saved_of, standing
from setday.roster import Work as Asked
from setday.roster import may
from setday.solving import Limits
from setday.timetable.classwork import verify
from setday.timetable.tasks import PeriodLog, Worked

AWAY, WET = 0.06, 0.15


@pytest.fixture(scope="module")
def day():
    """The demo house and its classes."""
    plan, _ = usable_plan(demo_class_text(), name="class.yaml")
    return class_day(open_house(demo_text("wired"), name="wired.yaml"), plan, clock=time.perf_counter)


@pytest.fixture(scope="module")
def planned(day):
    """A timetable of the demo class."""
    limits = Limits(seconds=2, clock=time.perf_counter, workers=1)
    return solve_timetable(day, limits=limits)


def mishaps(draw, day, found, shares, number):
    """Return one period as it went: who was away, what fell out, and how far everything got."""
    meeting, period = day.meetings[number], day.problem.periods[number]
    absent = {key for key in sorted(period.present) if draw.random() < AWAY}
    wet = draw.random() < WET
    worked = []
    for crew in found.crews[number] if number < len(found.crews) else ():
        work = day.works.get(crew.work)
        here = [key for key in crew.students if key not in absent]
        if work is None or work.filler or not here or (wet and work.dry):
            continue
        pace = draw.choice((0.6, 0.8, 1.0, 1.0, 1.2))
        done = shares.get(work.key, 0.0) + pace * len(here) * period.minutes / max(1, work.minutes)
        shares[work.key] = min(1.0, round(done, 4))
        worked.append(Worked(task=work.key, students=tuple(here), done=shares[work.key]))
    return PeriodLog(
        date=meeting.date,
        begin=meeting.begin,
        school_class=meeting.school_class,
        absent=tuple(sorted(absent)),
        worked=tuple(worked),
    )


def forbidden(day, found, number):
    """Return who is on a work that the roster itself forbids on that day."""
    students = {student.key: student for student in day.plan.students}
    told = []
    for crew in found.crews[number] if number < len(found.crews) else ():
        work = day.works.get(crew.work)
        if work is None:
            continue
        asked = Asked(
            key=work.key,
            label=work.label,
            signoffs=work.signoffs,
            exposures=work.exposures,
            on_site=work.on_site,
        )
        on = day.meetings[number].date
        told += [
            (key, work.label, on)
            for key in crew.students
            if not may(students[key], asked, on=on, rules=day.plan.limits)
        ]
    return told


def test_the_demo_class_plays_to_its_end_with_mishaps_and_breaks_no_rule(day, planned):
    draw, shares, log, found, broken, left = random.Random(5), {}, [], planned, [], {"?": 1}
    for number in range(len(day.meetings) - 1):
        broken += forbidden(day, found, number)
        log.append(mishaps(draw, day, found, shares, number))
        stand = standing(day, saved_of(found), log)
        left = {key: minutes for key, minutes in stand.left.items() if minutes}
        if not left:
            break
        found = repair_timetable(day, stand, limits=None).timetable
        said = verify(stand.problem, found.rows, since=stand.since)
        broken += [line for line in said if not line.endswith("is not finished")]
    assert (broken, left) == ([], {})
