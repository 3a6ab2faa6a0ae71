"""Under whose sign-in somebody was named: ticks on a tablet, marks in a classmate's name, for who teaches."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.urls import reverse
from django.utils import timezone

from setday.web.keeping.models import ClassPeriod, Device, GateMark, Member, PeriodNote, PresenceTick
from setday.web.people.devices import know_this_one
from tests.web.gates import at, work
from tests.web.people import browser_of, morning_of


@pytest.fixture
def period(school, shed):
    begins = timezone.now() - timedelta(minutes=30)
    facts = {"school": school, "school_class": morning_of(school), "house": shed, "begins": begins}
    return ClassPeriod.objects.create(minutes=90, **facts)


@pytest.fixture
def cal(period):
    return browser_of(Member.objects.get(key="cal-o"))


@pytest.fixture
def ivy(period):
    return Member.objects.get(key="ivy-l")


def tick(browser, *keys):
    return browser.post(reverse("people:present"), {"with": keys})


def record(desk, period):
    return desk.get(f"/periods/{period.pk}/record/").content.decode().replace("&#x27;", "'")


def test_a_classmate_ticked_and_named_at_a_gate_stands_on_the_record_with_whose_sign_in(
    desk, period, shed, cal, ivy
):
    tick(cal, ivy.key)
    named = {"do": "done", "item": work(shed), "by": f"member-{ivy.pk}", "entry": str(uuid4())}
    assert cal.post(at("mark"), named).status_code == 302
    mark = GateMark.objects.get()
    assert (mark.by_name, mark.signed_in_name) == (ivy.shown_as, "Cal Ortega")
    page = record(desk, period)
    assert "Ivy Lind ticked as being here (sign-in: Cal Ortega)" in page
    assert f"{ivy.shown_as} named at a gate: {mark.label} (sign-in: Cal Ortega)" in page


def test_what_one_checks_off_oneself_is_not_among_those_named(desk, period, shed, cal):
    cal.post(at("mark"), {"do": "done", "item": work(shed), "entry": str(uuid4())})
    assert GateMark.objects.get().signed_in_name == "Cal Ortega"
    assert "Named under another's sign-in" not in record(desk, period)


def test_a_tick_is_written_once_and_so_is_taking_it_off(period, cal, ivy):
    for keys in ([ivy.key], [ivy.key], [], []):
        tick(cal, *keys)
    assert list(PresenceTick.objects.values_list("member__key", "here")) == [
        ("ivy-l", True),
        ("ivy-l", False),
    ]


def test_the_chosen_device_is_told_too(desk, period, cal, ivy, rf, school):
    from django.http import HttpResponse

    request, response = rf.get("/"), HttpResponse()
    know_this_one(request, response, school=school, name="tablet 3")
    cal.cookies["setday_device"] = response.cookies["setday_device"].value
    tick(cal, ivy.key)
    cal.post(f"/periods/{period.pk}/note/", {"note-text": "no screws", "entry": str(uuid4())})
    assert Device.objects.get().name == "tablet 3"
    assert "(sign-in: Cal Ortega, at tablet 3)" in record(desk, period)


def test_ticks_of_other_periods_are_not_told(desk, period, cal, ivy):
    tick(cal, ivy.key)
    PresenceTick.objects.update(at=period.begins - timedelta(minutes=5))
    assert "ticked as being here" not in record(desk, period)
    PresenceTick.objects.update(at=timezone.now())
    period.closed_at = timezone.now() - timedelta(minutes=1)
    period.save()
    assert "ticked as being here" not in record(desk, period)


def test_no_student_reads_who_named_whom(period, cal, ivy):
    tick(cal, ivy.key)
    assert cal.get(f"/periods/{period.pk}/record/").status_code == 403
    assert PeriodNote.objects.count() == 0
