"""The bell sheet on a phone: what it says of a task, what it keeps back, what comes when done early."""

import re
from datetime import date, timedelta

import pytest
from django.utils import timezone

from setday.actions.houses import demo_text
from setday.web.keeping.houses import add_version
from setday.web.keeping.models import (
    Attendance,
    ClassPeriod,
    CrewSeat,
    CrewWork,
    HouseTask,
    Member,
    MemberSignOff,
    PeriodCrew,
    PeriodMark,
    SealedOffer,
)
from setday.web.period.bells import forget
from setday.web.period.tasks import keep_typed, take_tasks
from tests.web.people import browser_of, morning_of

BOARDS = "room/workroom/boards"
RUN = "surface/workroom/north/run"


@pytest.fixture
def crew(shed, school):
    """Return a crew of two at the walls of the workroom, each signed off for everything."""
    morning = morning_of(school)
    take_tasks(shed)
    begins = timezone.now() - timedelta(minutes=5)
    period = ClassPeriod.objects.create(
        school=school, school_class=morning, house=shed, begins=begins, minutes=90
    )
    made = PeriodCrew.objects.create(period=period, number=1)
    for member in morning.members.order_by("pk"):
        Member.objects.filter(pk=member.pk).update(born=date(2005, 3, 14))
        Attendance.objects.create(period=period, member=member, state="here")
        CrewSeat.objects.create(period=period, crew=made, member=member)
        for what in ("lift", "respirator", "saw", "ladder", "drill", "electrical"):
            MemberSignOff.objects.create(member=member, what=what, on=date(2026, 1, 5), by="Ana Ruiz")
    give(made, walls(shed))
    return made


def walls(shed):
    return shed.tasks.get(skill="hang-walls")


def give(crew, *tasks):
    CrewWork.objects.filter(crew=crew).delete()
    for order, task in enumerate(tasks):
        CrewWork.objects.create(crew=crew, task=task, order=order)


def page(crew, *, language="en"):
    browser = browser_of(crew.seats.order_by("pk").first().member)
    browser.cookies["setday_language"] = language
    return browser.get("/today/").content.decode()


def sealed(crew, figure, **more):
    period = crew.period
    return SealedOffer.objects.create(
        school=period.school,
        school_class=period.school_class,
        version=period.house.newest,
        figure=figure,
        **more,
    )


def drawn(text):
    return re.findall(r"<figcaption>([^<]*)", text)


SAID = ["Take care:", "Figure first", "Material", "Tools", "Steps", "Who signs", "Done early?"]


@pytest.mark.parametrize("words", SAID)
def test_a_task_of_the_house_says_what_its_paper_sheet_says(crew, words):
    assert words in page(crew)


def test_the_walls_of_just_that_place_are_drawn(crew):
    said = drawn(page(crew))
    assert said
    assert all("workroom" in title for title in said)


def test_what_this_period_is_about_goes_by_the_planned_minutes(crew, shed):
    task = walls(shed)
    share = task.quantity * 2 * 90 / task.minutes
    said = "All that is left" if share >= task.quantity else f"About {share:,.0f} ft2 this period."
    assert said in page(crew)


@pytest.mark.parametrize("words", ["Hang doors", "from the pile marked", "Miter saw", "Who signs"])
def test_a_task_typed_by_hand_says_what_is_known(crew, shed, words):
    typed = keep_typed(shed, label="Hang doors", trade="trim-doors", place="workroom", quantity=2.0)
    give(crew, typed)
    assert words in page(crew)


def test_typed_work_of_no_known_trade_is_told_too(crew, shed):
    give(crew, keep_typed(shed, label="Sweep the yard", trade="yard work", place="yard"))
    text = page(crew)
    assert "Sweep the yard" in text
    assert drawn(text) == []


def test_a_house_that_cannot_be_built_any_more_still_says_how(crew, shed):
    add_version(shed, name=shed.name, file_name="shed.yaml", text="setday house: 1\nwalls: {}\n")
    text = page(crew)
    assert "Tools" in text
    assert drawn(text) == []


def test_no_two_things_on_the_page_have_one_id(crew, shed):
    typed = [keep_typed(shed, label=f"Scribe {n}", trade="paint", place="workroom") for n in (1, 2)]
    give(crew, walls(shed), *typed)
    ids = re.findall(r' id="([^"]+)"', page(crew))
    assert len(ids) == len(set(ids))


def test_kept_boards_are_drawn_with_their_lengths(crew, laid_out):
    forget()
    text = page(crew)
    assert any(title.startswith("Boards of workroom") for title in drawn(text))


@pytest.mark.parametrize("figure", [BOARDS, RUN])
def test_sealed_boards_are_not_drawn_and_the_page_says_so(crew, laid_out, figure):
    sealed(crew, figure)
    text = page(crew)
    assert all("without measures" in title for title in drawn(text))
    assert "A figure of this place is sealed" in text


def test_boards_to_lay_are_not_drawn_on_their_wall(crew, laid_out):
    sealed(crew, RUN, by_layout=True)
    text = page(crew)
    assert "Boards of workroom, north wall" not in text
    assert "workroom, north wall, seen from inside" in text


def test_once_opened_the_drawing_comes_back(crew, laid_out):
    offer = sealed(crew, BOARDS)
    assert "without measures" in page(crew)
    SealedOffer.objects.filter(pk=offer.pk).update(opened_at=timezone.now())
    assert "Boards of workroom" in page(crew)


def test_another_class_keeps_its_drawings(crew, school):
    from setday.web.keeping.members import keep_class

    offer = sealed(crew, BOARDS)
    SealedOffer.objects.filter(pk=offer.pk).update(school_class=keep_class(school, name="Afternoon"))
    assert "without measures" not in page(crew)


@pytest.mark.parametrize("skill", ["hang-walls", "hang-ceilings"])
@pytest.mark.parametrize("figure", [BOARDS, "room/workroom/floor", "room/workroom/walls"])
def test_no_byte_of_the_sheet_tells_how_large_a_sealed_place_is(crew, shed, figure, skill):
    """By a house of other measures the page is the same, byte by byte, but for fresh marks."""
    give(crew, shed.tasks.get(skill=skill))
    sealed(crew, figure)
    before = bytes_of(page(crew))
    larger = demo_text("shed").replace("16'", "18'").replace("8'-1 1/8\"", "9'-1 1/8\"")
    add_version(shed, name=shed.name, file_name="shed.yaml", text=larger)
    shown = HouseTask.objects.get(house=shed, skill=skill)
    take_tasks(type(shed).objects.get(pk=shed.pk))
    assert HouseTask.objects.get(house=shed, skill=skill).quantity != shown.quantity
    assert bytes_of(page(crew)) == before


def bytes_of(text):
    text = re.sub(r'name="csrfmiddlewaretoken" value="\w+"', "", text)
    text = re.sub(r'name="entry" value="[-\w]+"', "", text)
    return re.sub(r"\d{4}-\d\d-\d\d \d\d:\d\d", "", text)


def test_the_sealed_figure_of_a_place_is_linked_to_and_no_other(crew):
    offer, other = sealed(crew, BOARDS), sealed(crew, "house/perimeter")
    text = page(crew)
    assert f'href="/sealed/{offer.pk}/"' in text
    assert f'href="/sealed/{other.pk}/"' not in text


def test_a_figure_offered_to_a_crew_mate_alone_is_no_link_but_still_kept_back(crew):
    offer = sealed(crew, BOARDS)
    offer.members.add(crew.seats.order_by("pk").last().member)
    text = page(crew)
    assert f'href="/sealed/{offer.pk}/"' not in text
    assert "without measures" in text


def test_done_early_the_next_of_its_own_list_comes_first(crew, shed):
    ready = keep_typed(shed, label="Fit the latch", trade="trim", place="workroom")
    give(crew, keep_typed(shed, label="Hang doors", trade="trim", place="workroom"))
    assert f"Begin: {ready.label} (workroom)" in page(crew)


@pytest.mark.parametrize(
    "facts",
    [
        {"trade": "siding"},
        {"signoffs": ["crane"]},
        {"crew_least": 3},
        {"after": ["typed-1"]},
        {"gone": True},
    ],
    ids=["another trade", "not signed off", "too few", "what dries before it", "gone"],
)
def test_what_the_crew_cannot_begin_is_not_offered(crew, shed, facts):
    give(crew, keep_typed(shed, label="Hang doors", trade="trim", place="workroom"))
    keep_typed(shed, **{"label": "Fit the latch", "trade": "trim", "place": "workroom", **facts})
    assert "Fit the latch" not in page(crew)


def test_what_another_crew_has_or_is_done_is_not_offered(crew, shed):
    own, taken, over = (
        keep_typed(shed, label=label, trade="trim", place="workroom")
        for label in ("Hang doors", "Fit the latch", "Nail the base")
    )
    give(crew, own)
    other = PeriodCrew.objects.create(period=crew.period, number=2)
    give(other, taken)
    PeriodMark.objects.create(
        entry="6b1f0a52-3e0e-4a2f-9a4c-8d8f6f0a1b2d", period=crew.period, crew=other, task=over, kind="done",
        members=[], at=timezone.now(), by="Ana Ruiz",
    )  # fmt: skip
    text = page(crew)
    assert "Fit the latch" not in text
    assert "Nail the base" not in text
    assert "Ask crew 2" in text


@pytest.mark.parametrize(("shut", "offered"), [(True, False), (False, True)], ids=["shut", "open"])
def test_boards_are_offered_only_where_the_gate_is_open(crew, shed, monkeypatch, shut, offered):
    ceiling = shed.tasks.get(skill="hang-ceilings")
    give(crew, ceiling)
    HouseTask.objects.filter(house=shed, skill="hang-walls").update(after=[ceiling.key])
    if not shut:
        monkeypatch.setattr("setday.web.period.early.shut_gates", lambda *_asked: {})
    assert (f"Begin: {walls(shed).label}" in page(crew)) is offered


def test_labels_are_spanish(crew):
    text = page(crew, language="es")
    assert "Herramientas" in text
    assert "Done early?" not in text


def test_cautions_are_spanish(crew):
    assert "Un panel se lleva entre dos." in page(crew, language="es")


def test_every_caution_of_the_table_can_be_said_in_the_readers_language():
    from setday.timetable.tasks import kinds_of_work
    from setday.web.period.caution_words import CAUTIONS

    assert {caution for kind in kinds_of_work().values() for caution in kind.cautions} == CAUTIONS


def test_the_instructor_sees_who_needs_watching_the_most_first(crew, shed, desk):
    other = PeriodCrew.objects.create(period=crew.period, number=2)
    give(other, shed.tasks.get(skill="hang-ceilings"))
    text = desk.get(f"/periods/{crew.period_id}/").content.decode()
    table = text.partition("Who needs watching, and when")[2]
    assert re.findall(r"(\d)/10", table) == ["4", "2"]
    assert "Nobody under a board that is not fastened" in table


def test_a_students_page_does_not_say_who_needs_watching(crew):
    assert "watching" not in page(crew)


def test_a_task_of_a_timetable_handed_over_is_told_too(shed, school):
    from setday.web.timetable.figured import forget as forget_timetables
    from setday.web.timetable.figured import timetable_of
    from setday.web.timetable.handing import hand_over
    from tests.web.timetables import class_of, searched

    forget_timetables()
    made, timetable = class_of(school), timetable_of(searched(shed))
    period = hand_over(shed, timetable, timetable.day.meetings[0]).period
    ClassPeriod.objects.filter(pk=period.pk).update(begins=timezone.now() - timedelta(minutes=5))
    crew = next(each for each in period.crews.all() if each.works.filter(task__filler=False).exists())
    text = page(crew)
    assert crew.works.first().task.label in text
    assert all(words in text for words in ("Tools", "Steps", "Take care:", "Who signs", "Done early?"))
    assert made.members.count() == 4
