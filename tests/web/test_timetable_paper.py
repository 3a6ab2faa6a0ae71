"""The timetable on paper, what is ahead, and calendar files in and out."""

import datetime
from html import unescape

import pytest

from tests.web.timetables import kept_file, searched

AT = "/houses/practice-shed/timetable/"


@pytest.fixture(autouse=True)
def afresh():
    """Forget what the site keeps in memory: the records of every test begin at the same numbers."""
    from setday.web.timetable.figured import forget

    forget()


@pytest.fixture
def found(shed):
    """Return a short search for a timetable of the shed that has ended."""
    return searched(shed)


@pytest.mark.parametrize("page", ["periods/0/bells.pdf", "1/timetable.pdf", "ahead.pdf"])
def test_paper_is_a_pdf(desk, found, page):
    answer = desk.get(AT + page)
    assert (answer.status_code, answer.content[:5]) == (200, b"%PDF-")


def test_what_is_ahead_names_what_is_to_be_done_by_when(desk, found):
    from setday.web.timetable.figured import timetable_of

    page = desk.get(f"{AT}ahead/").content.decode()
    assert "Ahead" in page
    assert timetable_of(found).day.meetings[0].date.strftime("%Y") in page


def test_the_calendar_file_has_every_meeting_before_set_day(desk, shed):
    from setday.roster import meetings
    from setday.web.timetable.figured import plan_of

    plan = plan_of(kept_file(shed))
    text = desk.get(f"{AT}class/class.ics").content.decode()
    assert text.count("SUMMARY") >= len(meetings(plan.calendar, plan.classes)) > 50


ICS = """BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//Alder Flat//school//EN
BEGIN:VEVENT
UID:1@alder-flat.example
DTSTAMP:20260801T000000Z
DTSTART;VALUE=DATE:20270215
DTEND;VALUE=DATE:20270216
SUMMARY:No school
END:VEVENT
BEGIN:VEVENT
UID:2@alder-flat.example
DTSTAMP:20260801T000000Z
DTSTART:20270301T190000
DTEND:20270301T200000
SUMMARY:Band concert
END:VEVENT
END:VCALENDAR
""".replace("\n", "\r\n")


def test_a_schools_calendar_is_only_proposed(desk, shed):
    from django.core.files.uploadedfile import SimpleUploadedFile

    kept_file(shed)
    sent = SimpleUploadedFile("school.ics", ICS.encode(), content_type="text/calendar")
    answer = desk.post(f"{AT}class/school/", {"file": sent})
    assert [each["proposal"].summary for each in answer.context["proposals"]] == ["No school"]
    assert (answer.context["others"], shed.class_files.count()) == (1, 1)


def test_what_is_ticked_is_taken_into_the_class_file(desk, shed):
    from setday.web.timetable.figured import plan_of

    kept_file(shed)
    desk.post(f"{AT}class/school/", {"calendar": ICS, "take": "0"})
    newest = shed.class_files.order_by("-number").first()
    off = {each.days.first for each in plan_of(newest).calendar.days_off}
    assert (newest.number, datetime.date(2027, 2, 15) in off) == (2, True)


def test_nothing_that_is_not_ticked_is_taken_in(desk, shed):
    kept_file(shed)
    desk.post(f"{AT}class/school/", {"calendar": ICS})
    assert shed.class_files.count() == 1


def test_no_calendar_is_asked_for(desk, shed):
    kept_file(shed)
    assert desk.post(f"{AT}class/school/", {}).status_code == 422


def test_on_a_phone_the_next_two_weeks_come_before_the_whole(desk, found):
    page = desk.get(AT).content.decode()
    assert "Tasks over the next days" in page
    assert page.index("The next two weeks") < page.index("Push the drawings sideways.")


def test_a_period_says_who_needs_watching_and_when(desk, found):
    from setday.timetable.tasks import kinds_of_work
    from setday.web.timetable.figured import timetable_of

    timetable = timetable_of(found)
    works = [
        timetable.day.works[crew.work] for crew in timetable.crews[0] if crew.work in timetable.day.works
    ]
    told = unescape(desk.get(f"{AT}periods/0/").content.decode()).partition("Who needs watching, and when")[2]
    watched = [kinds_of_work()[work.kind] for work in works if not work.filler]
    assert watched
    assert [kind.signs for kind in watched if kind.signs not in told] == []


def test_paper_keeps_back_what_is_sealed_for_the_class(shed, school, found):
    """The quantity of the boards of the workroom, which its sealed figure asks for, is on no crew's sheet."""
    from setday.actions.bells.sheets import bell_periods
    from setday.web.keeping.models import SealedOffer
    from setday.web.period.bells import pictures_of
    from setday.web.timetable.figured import timetable_of
    from tests.web.timetables import class_of

    made, timetable = class_of(school), timetable_of(found)
    hung = next(m.date for m, row in zip(timetable.day.meetings, timetable.crews, strict=False)
                for crew in row if crew.work.startswith("boards/hang"))  # fmt: skip

    def cards():
        pictures = pictures_of(shed.newest, made, paper=True)
        periods = bell_periods(timetable, hung, pictures=pictures)
        return [card for period in periods for card in period.crews if card.what.startswith("Hang boards")]

    assert any("ft2" in card.how_much for card in cards())
    facts = {"school": school, "school_class": made, "version": shed.newest}
    SealedOffer.objects.create(figure="room/workroom/boards", **facts)
    assert cards()
    for card in cards():
        assert "ft2" not in card.how_much + " ".join(card.material)
        assert all("without measures" in svg for svg in card.pictures)
