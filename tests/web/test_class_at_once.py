"""What keeps a class of forty from waiting: pages that ask no more of the records as the year goes on."""

from datetime import timedelta
from pathlib import Path
from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from setday.web.database import database_settings
from setday.web.gates.house import gate_sheet, warm_up
from setday.web.keeping.models import ClassPeriod, CrewSeat, CrewWork, PeriodCrew, PeriodMark
from setday.web.keeping.turns import in_turn
from setday.web.period.tasks import keep_typed
from tests.web.people import browser_of, morning_of

SURFACE = "/houses/practice-shed/gates/surfaces/workroom/west/"


@pytest.fixture
def crew(school, shed):
    """Return a crew of one at work on one task."""
    morning = morning_of(school)
    begins = timezone.now() - timedelta(minutes=30)
    period = ClassPeriod.objects.create(
        school=school, school_class=morning, house=shed, begins=begins, minutes=90
    )
    made = PeriodCrew.objects.create(period=period, number=1)
    CrewSeat.objects.create(period=period, crew=made, member=morning.members.get(key="cal-o"))
    CrewWork.objects.create(crew=made, task=keep_typed(shed, label="Trim", trade="trim", place="yard"))
    return made


@pytest.fixture
def cal(crew):
    return browser_of(crew.seats.get().member)


def asked_of_records(job):
    """Return how often a page asks the records."""
    with CaptureQueriesContext(connection) as asked:
        assert job().status_code == 200
    return len(asked)


def speak(crew, times):
    """Let a crew say something often."""
    for _ in range(times):
        PeriodMark.objects.create(
            period=crew.period, crew=crew, task=crew.works.get().task, kind="partly done",
            entry=uuid4(), at=timezone.now(), by="Cal Ortega", members=["cal-o"], quantity=1,
        )  # fmt: skip


def test_a_crews_sheet_asks_as_often_after_many_entries_as_after_one(crew, cal):
    speak(crew, 1)
    cal.get("/today/")  # notes that the tablet is in use
    before = asked_of_records(lambda: cal.get("/today/"))
    speak(crew, 30)
    assert asked_of_records(lambda: cal.get("/today/")) == before


def test_what_is_behind_a_wall_is_the_same_drawing_each_time(crew, cal):
    assert cal.get(SURFACE).content.count(b"<svg") == cal.get(SURFACE).content.count(b"<svg") > 0


def test_what_is_asked_of_gates_is_worked_out_once(crew, rf, school):
    request = rf.get("/")
    request.school = school
    assert gate_sheet(request, "practice-shed").asked is gate_sheet(request, "practice-shed").asked


def test_gates_are_worked_out_at_the_start_for_houses_with_an_open_period(crew, monkeypatch):
    worked_out = []
    monkeypatch.setattr("setday.web.gates.house.gates_in_force", lambda house: worked_out.append(house.key))
    monkeypatch.setattr("setday.web.gates.house.connection.close", lambda: None)
    warm_up()
    assert worked_out == ["practice-shed"]


def test_what_is_acknowledged_is_on_the_disk():
    options = database_settings("", folder=Path())["OPTIONS"]
    assert "synchronous=FULL" in options["init_command"]
    assert options["transaction_mode"] == "IMMEDIATE"


@pytest.mark.django_db
def test_a_turn_is_a_transaction():
    with in_turn():
        assert connection.in_atomic_block
