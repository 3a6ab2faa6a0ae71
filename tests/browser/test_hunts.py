"""A hunt in the browser: an instructor and a crew's tablet side by side, then a real fault searched."""

import re

import pytest

from tests.browser.test_screens import OVERFLOW, TOO_SMALL, WIDTHS, check
from tests.sheets.printed import page_count, words_of

pytestmark = pytest.mark.browser

HALL = "three-way-light-between"


def plant(page, *, seed="7"):
    """Plant a fault in the hall light; return the code and the sheet's address."""
    page.goto(f"/hunts/new/standard/{HALL}/")
    page.get_by_label("Number of the draw").fill(seed)
    page.get_by_role("button", name="Plant it and get a code").click()
    page.get_by_role("heading", name=re.compile("Hunt [0-9]+")).wait_for()
    return page.locator(".gauges .code").inner_text(), page.url


def come_in(page, code, name):
    page.goto("/hunt/")
    page.get_by_label("Code").fill(code.lower())
    page.get_by_label("Name of your crew").fill(name)
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("heading", name="The room as it stands").wait_for()


def look(page, first, second):
    for place, word in enumerate((first, second)):
        page.get_by_role("group", name=f"S{place + 1}").get_by_label(word).check()
    page.get_by_role("button", name="Set them so and look at the lamps").click()
    page.wait_for_load_state()


@pytest.mark.parametrize("width", WIDTHS)
def test_a_crew_hunts_from_the_code_to_the_answer(open_at, tablet, barriers, shots, width):
    desk, crew = open_at(width), tablet(width)
    code, sheet = plant(desk)
    check(desk, "hunt-begun", shots, barriers)
    crew.goto("/hunt/")
    check(crew, "hunt-enter", shots, barriers)
    come_in(crew, code, f"Blue hats {width}")
    check(crew, "hunt-room", shots, barriers)
    look(crew, "up", "down")
    look(crew, "up", "up")
    _open_and_read(crew)
    check(crew, "hunt-room-read", shots, barriers)
    _name(crew, shots, barriers)
    crew.get_by_text("The answer is sealed until the instructor opens it.").wait_for()
    check(crew, "hunt-sealed", shots, barriers)
    desk.get_by_text(f"Blue hats {width}").first.wait_for(timeout=10_000)  # the sheet keeps itself current
    desk.get_by_role("button", name="Open the answer to the crews").click()
    desk.get_by_role("button", name="Seal the answer again").wait_for()
    for summary in desk.locator("details summary").all():
        summary.click()
    check(desk, "hunt-opened", shots, barriers)
    crew.get_by_role("link", name="Reload").click()
    crew.get_by_text("What was planted:").wait_for()
    crew.locator("details summary").first.click()
    check(crew, "hunt-answer", shots, barriers)
    assert desk.url == sheet


def _open_and_read(crew):
    crew.get_by_role("group", name="Box near").get_by_label("Breaker off, locked, tested dead").check()
    crew.get_by_role("group", name="Box near").get_by_role("button", name="Open this box").click()
    box = crew.get_by_role("group", name="Box near")
    box.get_by_label("From").select_option("S1 common")
    box.get_by_label("to", exact=True).select_option("feed black")
    box.get_by_role("button", name="Read continuity, dead").click()
    crew.get_by_role("status").get_by_text("continuity from S1 common to feed black").wait_for()
    assert len(crew.locator("table tbody tr").all()) == 3


def _name(crew, shots, barriers):
    crew.get_by_role("link", name="Name the fault").click()
    check(crew, "hunt-name-kind", shots, barriers)
    crew.get_by_label("A conductor in the wrong splice or on the wrong terminal").check()
    crew.get_by_role("button", name="Then say where").click()
    crew.get_by_label("First point").select_option("near: N1 black")
    crew.get_by_label("Second point").select_option("near: S1 traveler 2")
    check(crew, "hunt-name-where", shots, barriers)
    crew.get_by_role("button", name="This is the fault").click()


def test_a_crew_can_hunt_with_a_keyboard_alone(open_at, tablet):
    code, _sheet = plant(open_at(1280))
    crew = tablet(1280)
    crew.goto("/hunt/")
    crew.get_by_label("Code").focus()
    crew.keyboard.type(code)
    crew.keyboard.press("Tab")
    crew.keyboard.type("Keys only")
    crew.keyboard.press("Enter")
    crew.get_by_role("heading", name="The room as it stands").wait_for()
    crew.get_by_role("group", name="S1").get_by_label("down").focus()
    crew.keyboard.press("ArrowUp")
    crew.keyboard.press("Enter")
    crew.get_by_role("status").get_by_text("S1 up, S2 down").wait_for()


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(
    ("name", "address"),
    [
        ("hunts", "/hunts/"),
        ("hunts-choose", "/hunts/new/"),
        ("hunts-plant", f"/hunts/new/standard/{HALL}/"),
        ("faults", "/faults/"),
    ],
)
def test_the_instructors_sheets_are_open_to_all(open_at, barriers, shots, name, address, width):
    page = open_at(width)
    page.goto(address)
    check(page, name, shots, barriers)


@pytest.mark.parametrize("width", WIDTHS)
def test_a_real_fault_is_searched_from_what_was_observed(open_at, barriers, shots, width):
    page = open_at(width)
    page.goto("/hunts/new/")
    # The standard one stands below hookups of that name which were kept.
    cards = page.get_by_role("listitem").filter(has_text="Hall light between its two switches")
    cards.last.get_by_role("button", name="Find a real fault").click()
    page.get_by_text("Nothing typed yet.").wait_for()
    for first, second in (("up", "up"), ("up", "down"), ("down", "up"), ("down", "down")):
        form = page.locator("form").filter(has=page.get_by_role("heading", name="Add what the lamps did"))
        form.get_by_role("group", name="S1").get_by_label(first).check()
        form.get_by_role("group", name="S2").get_by_label(second).check()
        form.get_by_label("L1").select_option("off")
        form.get_by_role("button", name="Add what was seen").click()
        page.wait_for_load_state()
    reading = page.locator("form").filter(has=page.get_by_role("heading", name="Add a reading"))
    assert reading.get_by_label("From").input_value() != ""
    reading.get_by_label("The meter showed").select_option("dead:open")
    reading.get_by_role("button", name="Add the reading").click()
    page.wait_for_load_state()
    check(page, "fault-searched", shots, barriers)
    page.get_by_role("link", name="Set other likelihoods").click()
    check(page, "fault-likelihoods", shots, barriers)


def test_two_faults_are_looked_for_live_and_stopped(open_at, barriers, shots):
    page = open_at(1280)
    page.goto("/hunts/new/")
    page.get_by_role("listitem").filter(has_text="Six switches").last.get_by_role(
        "button", name="Find a real fault"
    ).click()
    page.get_by_label("The breaker opened").check()
    page.get_by_role("button", name="Add what was seen").click()
    page.get_by_role("button", name="Look for two faults at once").click()
    page.get_by_text(re.compile("[1-9].* of all pairs of faults compared")).first.wait_for(timeout=60_000)
    assert page.evaluate(OVERFLOW) <= 0
    assert page.evaluate(TOO_SMALL) == []
    page.screenshot(path=shots / "fault-two.png")
    page.get_by_role("button", name="Stop, and keep what was found").click()
    page.get_by_text("The search was stopped: there may be more.").wait_for(timeout=60_000)


def test_the_sheets_of_a_hunt_print_without_what_can_only_be_pressed(open_at, tablet, shots):
    desk, crew = open_at(1280), tablet(1280)
    code, _sheet = plant(desk, seed="9")
    come_in(crew, code, "Paper hats")
    look(crew, "up", "down")
    for page, name, shown in ((desk, "hunt", code), (crew, "room", "Log of flips and readings")):
        path = shots / f"print-{name}.pdf"
        page.pdf(path=path, format="Letter", prefer_css_page_size=True)
        pdf = path.read_bytes()
        said = " ".join(words_of(pdf, page=n) for n in range(1, page_count(pdf) + 1))
        assert shown in said
        assert "Only the instructor energizes." in said
        for pressed in ("Open this box", "Close the hunt", "Take this crew out", "What is planted"):
            assert pressed not in said


def test_a_crews_sheet_speaks_spanish(open_at, tablet, barriers, shots):
    code, _sheet = plant(open_at(1280))
    crew = tablet(360)
    come_in(crew, code, "Azules")
    crew.get_by_role("button", name="Español").click()
    crew.get_by_role("heading", name="El cuarto como está").wait_for()
    check(crew, "hunt-room-es", shots, barriers)
