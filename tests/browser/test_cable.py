"""Cable in a real browser: every sheet open to all, a device tapped, a run ticked and measured."""

import re

import pytest

from tests.browser.test_screens import WIDTHS, check

pytestmark = pytest.mark.browser

SHED = "/houses/practice-shed/cable"
SCREENS = {
    "cable-plan": f"{SHED}/",
    "cable-check": f"{SHED}/check/",
    "cable-panel": f"{SHED}/panel/",
    "cable-pulls": f"{SHED}/pulls/",
    "cable-circuit": f"{SHED}/circuits/1/",
    "cable-device": f"{SHED}/devices/workroom light/",
    "cable-wall": f"{SHED}/walls/south wall/",
}


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("screen", sorted(SCREENS))
def test_the_sheets_of_cable_are_open_to_all(open_at, barriers, shots, screen, width):
    page = open_at(width)
    page.goto(SCREENS[screen])
    check(page, screen, shots, barriers)


@pytest.mark.parametrize("width", WIDTHS)
def test_the_wiring_of_a_whole_house_is_open_to_all(open_at, barriers, shots, width):
    page = open_at(width)
    page.goto("/")
    demo = page.locator("a[href^='/houses/']:has-text('Plover')").first.get_attribute("href")
    page.goto(f"{demo}cable/")
    check(page, "cable-whole", shots, barriers)


@pytest.mark.parametrize("width", WIDTHS)
def test_a_circuit_with_everything_unfolded_is_open_to_all(open_at, barriers, shots, width):
    page = open_at(width)
    page.goto(f"{SHED}/circuits/1/")
    page.evaluate("document.querySelectorAll('main details').forEach((each) => { each.open = true; })")
    check(page, "cable-unfolded", shots, barriers)


def test_a_device_is_tapped_and_its_circuit_lights_up(open_at):
    page = open_at(1280)
    page.goto(f"{SHED}/")
    page.locator(".on-desk a[aria-label^='workroom light']").click()
    page.get_by_role("heading", name="Workroom light").wait_for()
    assert page.get_by_role("heading", name=re.compile("^Circuit 1:")).is_visible()
    assert page.locator(".on-desk svg title").first.text_content().startswith("Wiring plan")


def test_a_wall_is_tapped_and_shows_what_is_inside(open_at):
    page = open_at(1280)
    page.goto(f"{SHED}/")
    page.get_by_role("link", name="south wall", exact=True).last.click()
    page.get_by_role("heading", name="Inside south wall").wait_for()


def test_a_run_is_ticked_measured_and_taken_back(open_at):
    page = open_at(360)
    page.goto(f"{SHED}/circuits/1/")
    run = page.locator("#run-1-1")
    run.get_by_label("Measured length, if you measured it").fill("99' 6\"")
    run.get_by_role("button", name="Run 1-1 is in").click()
    page.get_by_text("more than planned").wait_for()
    page.locator("#run-1-1").get_by_role("button", name="Take run 1-1 back").click()
    page.get_by_text("Run 1-1 is taken back.").wait_for()


def test_the_wiring_plan_speaks_spanish(open_at):
    page = open_at(360)
    page.goto(f"{SHED}/")
    page.get_by_role("button", name="Español").click()
    page.get_by_role("heading", name="Plano eléctrico").wait_for()
    page.get_by_role("button", name="English").click()
