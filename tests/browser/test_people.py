"""People in the browser: a class set up, cards made, a student in and out on a tablet, a device chosen."""

import re

import pytest

from tests.browser.test_screens import WIDTHS, check

pytestmark = pytest.mark.browser


def begin_class(page, name):
    page.goto("/people/")
    page.get_by_label("Name of the class").fill(name)
    page.get_by_role("button", name="Begin the class").click()
    page.get_by_role("heading", name=name, level=1).wait_for()


def bring_in(page, lines, shots, barriers):
    page.get_by_role("link", name="Bring in a roster").click()
    check(page, "people-roster-empty", shots, barriers)
    page.get_by_label("The roster").fill(lines)
    page.get_by_role("button", name="Look at it").click()
    page.get_by_role("heading", name="Who is on it").wait_for()
    check(page, "people-roster", shots, barriers)
    page.get_by_role("button", name="Keep those ticked").click()
    page.get_by_text("students are new in the class").wait_for()


def cards_of(page, shots, barriers):
    """Make the cards; return names and codes as they stand on the page."""
    page.get_by_role("link", name="Sign-in cards").click()
    check(page, "people-cards", shots, barriers)
    page.get_by_role("button", name=re.compile("cards that are missing")).click()
    page.get_by_text("shown this one time").wait_for()
    check(page, "people-cards-made", shots, barriers)
    rows = page.locator(".sign-in-cards li").all()
    return {row.locator(".who").inner_text(): row.locator(".digits").inner_text() for row in rows}


@pytest.mark.parametrize("width", WIDTHS)
def test_from_a_roster_to_a_student_in_and_out(open_at, tablet, barriers, shots, width):
    desk, crew = open_at(width), tablet(width)
    begin_class(desk, f"Morning {width}")
    check(desk, "people-class-empty", shots, barriers)
    bring_in(desk, "Cal Ortega, 2009-05-12\nIvy Lind\nOz Lee\nCal Ortega, 2009-05-12", shots, barriers)
    check(desk, "people-class", shots, barriers)
    class_address = desk.url
    codes = cards_of(desk, shots, barriers)
    assert sorted(codes) == ["Cal Ortega", "Ivy Lind", "Oz Lee"]
    _sign_off(desk, class_address, shots, barriers)
    _in_by_the_keys(crew, codes["Cal Ortega"], shots, barriers)
    _with_others(crew, shots, barriers)
    crew.get_by_role("button", name="Sign out").last.click()
    crew.get_by_label("The digits on your card").wait_for()


def _sign_off(page, address, shots, barriers):
    page.goto(f"{address}sign-offs/")
    page.get_by_label("Safety test or skill").fill("ladder")
    page.get_by_label("Cal Ortega").check()
    page.get_by_role("button", name="Sign off").click()
    page.get_by_text("Signed off: Cal Ortega").wait_for()
    check(page, "people-sign-offs", shots, barriers)
    page.get_by_role("link", name="Cal Ortega").click()
    page.get_by_role("heading", name="Cal Ortega").wait_for()
    check(page, "people-member", shots, barriers)


def _in_by_the_keys(page, code, shots, barriers):
    page.goto("/card/")
    check(page, "people-card", shots, barriers)
    for digit in code.replace("-", ""):
        page.get_by_role("button", name=digit, exact=True).click()
    page.get_by_role("heading", name="Cal O.").wait_for()  # the last digit sends it
    page.get_by_text("ladder").wait_for()
    check(page, "people-mine", shots, barriers)


def _with_others(page, shots, barriers):
    page.get_by_role("link", name="Who works with me").click()
    page.get_by_label("Ivy L.").check()
    check(page, "people-present", shots, barriers)
    page.get_by_role("button", name="That is us").click()
    page.get_by_text("With me: Ivy L.").wait_for()


def test_a_student_comes_in_with_the_keyboard_alone(open_at, tablet, barriers, shots):
    desk, crew = open_at(1280), tablet(1280)
    begin_class(desk, "Keyboard")
    bring_in(desk, "Bea Stone\nWill Okafor", shots, barriers)
    codes = cards_of(desk, shots, barriers)
    crew.goto("/card/")
    for _ in range(30):
        crew.keyboard.press("Tab")
        if crew.evaluate("document.activeElement.matches('input.digits')"):
            break
    crew.keyboard.type(codes["Bea Stone"].replace("-", ""))
    crew.keyboard.press("Enter")
    crew.get_by_role("heading", name="Bea S.").wait_for()


@pytest.mark.parametrize("width", WIDTHS)
def test_accounts_devices_and_schools(open_at, tablet, barriers, shots, width):
    desk, other = open_at(width), tablet(width)
    desk.goto("/people/accounts/")
    desk.get_by_label("Name").fill(f"Dee Park {width}")
    desk.get_by_label(re.compile("^helper")).check()
    check(desk, "people-accounts", shots, barriers)
    desk.get_by_role("button", name="Make the account").click()
    check(desk, "people-account-made", shots, barriers)
    code = desk.locator(".read-out").inner_text()
    other.goto("/choose/")
    check(other, "people-choose", shots, barriers)
    other.get_by_label("Your one-time code").fill(code)
    other.get_by_label("Your name").fill(f"Dee Park {width}")
    other.get_by_label("Password", exact=True).fill("a short flight of stairs")
    other.get_by_label("Password once more").fill("a short flight of stairs")
    other.get_by_role("button", name="Sign in").click()
    other.get_by_role("heading", name="Houses").wait_for()
    assert other.get_by_role("link", name="People", exact=True).count() == 0
    desk.goto("/people/devices/")
    desk.get_by_label("What you call the device").fill(f"tablet {width}")
    desk.get_by_role("button", name="Make its code").click()
    check(desk, "people-devices", shots, barriers)
    other.goto("/device/")
    check(other, "people-device", shots, barriers)
    other.get_by_label("Device code").fill(desk.locator(".read-out").inner_text())
    other.get_by_role("button", name="Choose this device").click()
    other.get_by_text(f"This device is chosen: tablet {width}.").wait_for()
    desk.goto("/people/schools/")
    check(desk, "people-schools", shots, barriers)


def test_a_tablet_left_alone_signs_itself_out(open_at, tablet, barriers, shots):
    desk, crew = open_at(1280), tablet(360)
    begin_class(desk, "Idle")
    bring_in(desk, "Sam Hill\nJo Brandt", shots, barriers)
    codes = cards_of(desk, shots, barriers)
    crew.clock.install()
    crew.goto("/card/")
    crew.get_by_label("The digits on your card").fill(codes["Sam Hill"])
    crew.get_by_role("button", name="Sign in").click()
    crew.get_by_role("heading", name="Sam H.").wait_for()
    crew.clock.fast_forward("14:00")
    assert crew.get_by_role("heading", name="Sam H.").is_visible()
    crew.clock.fast_forward("02:00")
    crew.get_by_label("The digits on your card").wait_for()
