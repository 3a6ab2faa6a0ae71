"""The timetable in a real browser: a class file, a search watched, every sheet looked at."""

import pytest

from tests.browser.test_screens import WIDTHS, check

pytestmark = pytest.mark.browser

AT = "/houses/plover-lane-house-with-its-wiring/timetable"


@pytest.fixture(scope="module")
def solved(site, browser, signed_in):
    """Bring in the demo's class file and search; the page leads to the timetable by itself."""
    context = browser.new_context(storage_state=signed_in, base_url=site.address)
    page = context.new_page()
    page.goto(f"{AT}/class/edit/?start=demo")
    page.get_by_role("button", name="Keep the class file").click()
    page.get_by_role("heading", name="Class file", exact=True).wait_for()
    page.goto(f"{AT}/")
    page.get_by_label("How long to search").select_option("30")
    page.get_by_role("button", name="Search", exact=True).click()
    page.get_by_role("heading", name="The next periods").wait_for(timeout=240_000)
    context.close()


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(
    ("name", "path"),
    [
        ("plan", "/"),
        ("run", "/1/"),
        ("period", "/periods/12/"),
        ("change", "/periods/12/change/"),
        ("repair", "/repair/"),
        ("ahead", "/ahead/"),
        ("class-file", "/class/"),
        ("class-edit", "/class/edit/"),
        ("school", "/class/school/"),
    ],
)
def test_every_sheet_of_a_timetable_is_open_to_all(solved, open_at, barriers, shots, name, path, width):
    page = open_at(width)
    page.goto(f"{AT}{path}")
    page.evaluate("document.querySelectorAll('main details').forEach((each) => { each.open = true; })")
    check(page, f"timetable-{name}", shots, barriers)


def test_a_change_by_hand_is_checked_by_keyboard(solved, open_at):
    page = open_at(1280)
    page.goto(f"{AT}/periods/12/change/")
    page.locator("select").first.focus()
    page.keyboard.press("Home")
    page.get_by_role("button", name="Only say what it breaks").focus()
    page.keyboard.press("Enter")
    page.get_by_text("instead of").first.wait_for()


@pytest.mark.parametrize("width", WIDTHS)
def test_odds_are_played_and_shown(solved, open_at, barriers, shots, width):
    page = open_at(width)
    page.goto(f"{AT}/")
    page.get_by_role("button", name="Play it 20,000 times").click()
    page.get_by_role("heading", name="Odds of making set day").wait_for(timeout=240_000)
    check(page, "timetable-odds", shots, barriers)


def test_on_a_phone_two_weeks_are_read_without_pushing(solved, open_at):
    page = open_at(360)
    page.goto(f"{AT}/")
    for box in [each.bounding_box() for each in page.locator(".held svg").all()]:
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 360
    assert page.locator(".held svg").count() == 2
    assert not page.locator(".pushed").first.is_visible()
