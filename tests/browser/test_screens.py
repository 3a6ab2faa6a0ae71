"""Every screen: nothing keeps people out of it, nothing overflows a phone, everything can be pressed."""

import os
import re

import pytest

from tests.sheets.printed import page_count, words_of

pytestmark = pytest.mark.browser

WIDTHS = (360, 1280)
KEPT = bool(os.environ.get("SETDAY_SHOTS"))
"""Whether somebody wants to look at the screens afterwards; taking their pictures takes its time."""
DOOR = {"sign-in": "/sign-in/", "help": "/help/", "not-found": "/nowhere/"}
SHED = "/houses/practice-shed"
HOUSE = {
    "houses": "/",
    "put-away": "/houses/put-away/",
    "new": "/houses/new/",
    "keys": "/houses/keys/",
    "plan": f"{SHED}/",
    "studs": f"{SHED}/?studs=yes",
    "rooms": f"{SHED}/rooms/",
    "wall": f"{SHED}/walls/south wall/",
    "surface": f"{SHED}/surfaces/workroom/south/",
    "file": f"{SHED}/file/",
    "edit": f"{SHED}/file/edit/",
    "versions": f"{SHED}/versions/",
    "compare": f"{SHED}/compare/?from=1&to=1",
    "prices": "/prices/",
    "stock": "/stock/",
    "help-inside": "/help/",
}
RUN = {
    "runs": f"{SHED}/boards/",
    "run": "{run}",
    "cuts": "{run}cuts/",
    "cut": "{run}cuts/1/",
    "by-room": "{run}rooms/",
    "rules": "{run}rules/",
    "on-surface": "{run}on/workroom/south/",
    "surface-with-boards": f"{SHED}/surfaces/workroom/south/",
    "what-if": f"{SHED}/boards/what-if/",
    "runs-compared": f"{SHED}/boards/compare/?run=1",
    "buying": f"{SHED}/buying/",
    "workings": f"{SHED}/workings/",
    "paper": f"{SHED}/paper/",
}
BIG = {
    "demo-plan": "/houses/{demo}/",
    "demo-rooms": "/houses/{demo}/rooms/",
}

OVERFLOW = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
TOO_SMALL = """
() => [...document.querySelectorAll("button, .button, nav a, summary, input:not([type=hidden]), select")]
  .filter((each) => each.checkVisibility() && !each.closest(".choice"))
  .map((each) => [each.textContent.trim() || each.name, each.getBoundingClientRect()])
  .filter(([, box]) => box.height < 48 || box.width < 48)
  .map(([words, box]) => `${words}: ${Math.round(box.width)} x ${Math.round(box.height)}`)
"""


def check(page, name, shots, barriers):
    """Look at one page: keep a picture of it where pictures are wanted, and say what is wrong with it."""
    if KEPT:
        page.screenshot(path=shots / f"{name}-{page.viewport_size['width']}.png", full_page=True)
    assert barriers(page) == []
    assert page.evaluate(OVERFLOW) <= 0, "the page is wider than the screen"
    assert page.evaluate(TOO_SMALL) == [], "too small for a glove"


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("screen", sorted(DOOR))
def test_the_door_is_open_to_all(site, signed_in, browser, barriers, shots, screen, width):
    context = browser.new_context(viewport={"width": width, "height": 800}, base_url=site.address)
    page = context.new_page()
    page.goto(DOOR[screen])
    check(page, screen, shots, barriers)
    context.close()


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("screen", sorted(HOUSE))
def test_the_sheets_of_a_house_are_open_to_all(open_at, barriers, shots, screen, width):
    page = open_at(width)
    page.goto(HOUSE[screen])
    check(page, screen, shots, barriers)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("screen", sorted(RUN))
def test_the_sheets_of_a_run_are_open_to_all(open_at, laid_out, barriers, shots, screen, width):
    page = open_at(width)
    page.goto(RUN[screen].format(run=laid_out))
    check(page, screen, shots, barriers)


@pytest.mark.parametrize("width", WIDTHS)
def test_a_refused_file_is_open_to_all(open_at, barriers, shots, width):
    page = open_at(width)
    page.goto("/houses/new/")
    page.get_by_label("The house file", exact=True).fill("setday house: 1\nname: x\nwalls:\n\t- a\n")
    page.get_by_role("button", name="Keep as a new house").click()
    page.get_by_text("Nothing was kept yet").wait_for()
    check(page, "refused", shots, barriers)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("screen", sorted(BIG))
def test_the_sheets_of_a_whole_house_are_open_to_all(open_at, barriers, shots, screen, width):
    page = open_at(width)
    page.goto("/")
    links = page.locator(".card h2 a")
    demo = next(a for a in (each.get_attribute("href") for each in links.all()) if "shed" not in a)
    page.goto(BIG[screen].format(demo=demo.split("/")[2]))
    check(page, screen, shots, barriers)


@pytest.mark.parametrize("screen", ["plan", "file", "versions"])
def test_a_sheet_prints_what_it_shows(open_at, shots, screen):
    page = open_at(1280)
    page.goto(HOUSE[screen])
    page.emulate_media(media="print")
    page.pdf(path=shots / f"{screen}.pdf", format="Letter", prefer_css_page_size=True)
    assert [each for each in page.locator(".rail, .tabs").all() if each.is_visible()] == []
    assert page.locator(".title-block").is_visible()
    assert page.locator("main h1").is_visible()


def test_the_pages_speak_spanish(open_at, barriers, shots):
    page = open_at(1280)
    page.goto("/houses/practice-shed/")
    page.get_by_role("button", name="Español").click()
    assert page.locator("html").get_attribute("lang") == "es"
    assert page.get_by_role("link", name="Archivo de la casa").is_visible()
    check(page, "plan-es", shots, barriers)


@pytest.mark.parametrize(("screen", "names"), [("file", "House file"), ("buying", "Buying list")])
def test_every_printed_page_names_the_house_and_the_sheet(open_at, laid_out, shots, screen, names):
    page = open_at(1280)
    page.goto({**HOUSE, **RUN}[screen].format(run=laid_out))
    path = shots / f"{screen}-named.pdf"
    page.pdf(path=path, format="Letter", prefer_css_page_size=True)
    pdf = path.read_bytes()
    pages = [words_of(pdf, page=number) for number in range(1, page_count(pdf) + 1)]
    assert len(pages) > 1
    assert [n for n, text in enumerate(pages, 1) if not re.search(rf"Practice shed .*{names}", text)] == []


def test_at_the_door_enter_signs_in_and_the_language_keeps_the_name(site, signed_in, browser):
    page = browser.new_context(base_url=site.address, locale="en-US").new_page()
    page.goto("/sign-in/")
    page.locator("#id_name").fill("Nobody Here")
    page.get_by_role("button", name="Español").click()
    page.wait_for_load_state()
    assert page.locator("html").get_attribute("lang") == "es"
    assert page.locator("#id_name").input_value() == "Nobody Here"
    page.locator("#id_password").fill("not the password")
    page.locator("#id_password").press("Enter")
    page.locator("[role=alert]").wait_for()
    assert page.locator("html").get_attribute("lang") == "es"
    assert page.url.endswith("/sign-in/")
    page.context.close()


def test_half_a_house_stays_in_the_form_when_the_language_is_changed(open_at):
    page = open_at(1280)
    page.goto(f"{SHED}/file/edit/")
    page.locator("#id_text").fill("house: Half a house\nwalls:\n")
    page.locator("#id_note").fill("moved the window")
    page.get_by_role("button", name="Español").click()
    page.wait_for_load_state()
    assert page.locator("html").get_attribute("lang") == "es"
    assert page.locator("#id_text").input_value() == "house: Half a house\nwalls:\n"
    assert page.locator("#id_note").input_value() == "moved the window"
    page.locator("#id_note").press("Enter")
    page.locator("[role=alert]").wait_for()
    assert page.url.endswith(f"{SHED}/file/edit/")
    assert page.locator("html").get_attribute("lang") == "es"
