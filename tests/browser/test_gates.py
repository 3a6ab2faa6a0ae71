"""Gates in a real browser: a wall tapped on the plan, checked, confirmed, closed, its record printed."""

import re
from uuid import uuid4

import pytest

from tests.browser.test_people import begin_class, bring_in, cards_of
from tests.browser.test_screens import WIDTHS, check
from tests.web.photos import jpeg

pytestmark = pytest.mark.browser

WIRED = "/houses/plover-lane-house-with-its-wiring/gates"
WALL = f"{WIRED}/surfaces/bath/south/"
SHED = "/houses/practice-shed/gates"


@pytest.mark.parametrize("width", WIDTHS)
def test_the_plan_of_gates_is_open_to_all(open_at, barriers, shots, width):
    page = open_at(width)
    page.goto(f"{WIRED}/")
    check(page, "gates-plan", shots, barriers)


@pytest.mark.parametrize("width", WIDTHS)
def test_the_gate_of_a_wall_is_open_to_all(open_at, barriers, shots, width):
    page = open_at(width)
    page.goto(WALL)
    page.evaluate("document.querySelectorAll('main details').forEach((each) => { each.open = true; })")
    check(page, "gates-wall", shots, barriers)


def test_a_wall_is_tapped_on_the_plan(open_at):
    page = open_at(1280)
    page.goto(f"{WIRED}/")
    page.locator(".on-desk a[aria-label^='bath, south wall']").click()
    page.get_by_role("heading", name=re.compile("^bath, south wall: not ready")).wait_for()
    assert page.get_by_text("box 'bath switches at bath door'").first.is_visible()


def test_a_wall_is_reached_and_opened_by_keyboard_alone(open_at):
    page = open_at(1280)
    page.goto(f"{WIRED}/")
    page.locator(".on-desk a[aria-label^='bath, south wall']").focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name=re.compile("^bath, south wall")).wait_for()


@pytest.mark.parametrize("width", WIDTHS)
def test_a_wall_is_confirmed_by_keyboard_closed_and_its_record_opened(open_at, barriers, shots, width):
    page = open_at(width)
    side = "east" if width < 500 else "west"
    page.goto(f"{SHED}/surfaces/workroom/{side}/")
    boxes = page.get_by_role("group", name="Tick what you looked at").get_by_role("checkbox")
    for n in range(boxes.count()):
        boxes.nth(n).focus()
        page.keyboard.press("Space")
    button = page.get_by_role("button", name="Confirm what is ticked")
    button.focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name=re.compile("ready to close$")).wait_for()
    check(page, "gates-ready", shots, barriers)
    page.get_by_role("button", name="The boards are on: close this surface").focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name=f"Behind workroom, {side} wall", level=1).wait_for()
    check(page, "gates-record", shots, barriers)
    address = page.get_by_role("link", name=re.compile("Print the page")).get_attribute("href")
    answer = page.request.get(address)
    assert answer.headers["content-type"] == "application/pdf"
    page.goto(f"{SHED}/surfaces/workroom/{side}/")
    assert page.get_by_role("heading", name=re.compile("closed$")).is_visible()


def test_what_was_refused_is_shown_as_it_was_typed(open_at, shots, barriers):
    page = open_at(360)
    page.goto(f"{SHED}/surfaces/workroom/south/")
    page.get_by_label("Why, for refusing and overruling").fill("x")
    page.get_by_role("button", name="Overrule what is ticked").click()
    page.get_by_role("alert").wait_for()
    assert page.get_by_label("Why, for refusing and overruling").input_value() == "x"
    check(page, "gates-refused", shots, barriers)


def test_a_student_checks_off_with_a_photo_and_the_instructor_confirms(open_at, tablet, barriers, shots):
    desk, crew = open_at(1280), tablet(360)
    begin_class(desk, "Gates")
    bring_in(desk, "Cal Ortega\nIvy Lind", shots, barriers)
    code = cards_of(desk, shots, barriers)["Cal Ortega"]
    crew.goto("/card/")
    for digit in code.replace("-", ""):
        crew.get_by_role("button", name=digit, exact=True).click()
    crew.get_by_role("heading", name="Cal O.").wait_for()
    crew.get_by_role("link", name="Gates").click()
    check(crew, "gates-houses", shots, barriers)
    crew.get_by_role("link", name="Plover Lane house with its wiring").click()
    check(crew, "gates-student-plan", shots, barriers)
    crew.goto(f"{WIRED}/surfaces/kitchen/east/")
    check(crew, "gates-student", shots, barriers)
    crew.get_by_role("checkbox", name=re.compile("^backing at every corner")).check()
    photo = {"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": jpeg(900, 600)}
    crew.get_by_label("A photo, if you took one").set_input_files(photo)
    crew.get_by_role("button", name="Check off what is ticked").click()
    crew.get_by_text("1 thing is checked off.").wait_for()
    check(crew, "gates-student-done", shots, barriers)
    desk.goto(f"{WIRED}/surfaces/kitchen/east/")
    assert desk.get_by_text(re.compile("done by Cal O.")).first.is_visible()
    check(desk, "gates-to-see", shots, barriers)
    shown = desk.request.get(desk.get_by_role("link", name="photo 1").first.get_attribute("href"))
    assert shown.headers["content-type"] == "image/jpeg"
    desk.get_by_role("button", name=re.compile("^Confirm the 1 thing")).click()
    desk.get_by_text("1 thing is confirmed.").wait_for()


def test_all_that_was_ticked_without_a_network_arrives_once(open_at, barriers, shots):
    page = open_at(360)
    page.goto(f"{WIRED}/surfaces/bath/north/")
    page.evaluate("document.querySelectorAll('main details').forEach((each) => { each.open = true; })")
    boxes = page.get_by_role("group", name="Tick what you looked at").locator("[name=item]")
    keys = [boxes.nth(n).get_attribute("value") for n in range(3)]
    for n in (0, 1):
        boxes.nth(n).check()
    page.context.set_offline(True)
    page.get_by_role("button", name="Confirm what is ticked").click()
    page.get_by_text("1 to send: kept on this tablet until the network returns.").wait_for()
    check(page, "gates-offline", shots, barriers)
    page.context.set_offline(False)
    page.get_by_text("2 things are confirmed.").wait_for(timeout=20_000)
    _kept_by_the_earlier_script(page, keys[2])
    page.reload()
    page.get_by_text("1 thing is confirmed.").wait_for(timeout=20_000)
    left = page.evaluate("[localStorage['setday-entries'], localStorage['setday-entries-2']]")
    assert left == [None, "[]"]


def _kept_by_the_earlier_script(page, key):
    """Put an entry where the script of an earlier version kept it, as it wrote it."""
    facts = {
        "do": "confirm",
        "item": key,
        "entry": str(uuid4()),
        "who": page.locator("[name=who]").first.input_value(),
    }
    to = page.locator("form[data-keep]").first.get_attribute("action")
    page.evaluate(
        "(kept) => { localStorage['setday-entries'] = JSON.stringify([kept]); }", {"to": to, "fields": facts}
    )
