"""The way a newcomer goes: in by the code, a house with mistakes, drawn, boarded, ordered, printed."""

import re
import signal

import pytest

from setday.actions.houses import demo_text
from tests.browser.conftest import NAME, PASSWORD, start_site

pytestmark = pytest.mark.browser

SHED = demo_text("shed").replace("name: Practice shed", "name: Tool shed")
BROKEN = SHED.replace("center: 6'-0\"", "center: 6.0").replace("wall: south wall", "wall: sooth wall")
FIRST = 1 + BROKEN[: BROKEN.index("sooth wall")].count("\n")
SECOND = 1 + BROKEN[: BROKEN.index("center: 6.0")].count("\n")


def test_the_whole_way(tmp_path, page, shots):
    process, site = start_site(tmp_path)
    try:
        _come_in(page, site)
        _bring_in_a_house_with_mistakes(page, shots)
        _go_from_plan_to_wall_to_surface(page)
        _lay_out_the_boards(page, shots)
        _order_and_print(page, shots)
    finally:
        process.terminate()
        process.wait(timeout=20)
        process.stdout.close()


def _come_in(page, site):
    page.goto(site.address)
    page.get_by_label("First-start code").fill(site.code)
    page.get_by_label("Your name").fill(NAME)
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.get_by_label("Password once more").fill(PASSWORD)
    page.get_by_role("button", name="Start").click()
    page.get_by_role("heading", name="Houses").wait_for()


def _bring_in_a_house_with_mistakes(page, shots):
    page.get_by_role("link", name="A new house").click()
    text = page.get_by_label("The house file", exact=True)
    text.fill(BROKEN)
    page.get_by_role("button", name="Only check").click()
    page.get_by_text("2 problems").wait_for()
    page.get_by_role("button", name="Keep as a new house").click()
    page.get_by_text("Nothing was kept yet").wait_for()
    for line in (FIRST, SECOND):
        beside = page.locator(f"#line-{line} + tr.note-row .finding.problem")
        assert beside.is_visible(), f"no finding beside line {line}"
    page.screenshot(path=shots / "walk-refused.png", full_page=True)
    assert text.input_value() == BROKEN
    page.get_by_role("link", name=f"Go to line {SECOND} in the text").click()
    chosen = text.evaluate("area => area.value.slice(area.selectionStart, area.selectionEnd)")
    assert "center: 6.0" in chosen
    text.fill(SHED)
    page.get_by_role("button", name="Keep as a new house").click()
    page.get_by_text("Tool shed is kept as version 1.").wait_for()


def _go_from_plan_to_wall_to_surface(page):
    page.locator("main svg:visible a[href*='/walls/']").first.click()
    page.get_by_role("heading", name="Seen from its left side").wait_for()
    page.locator(".card a").first.click()
    page.get_by_role("heading", level=1, name=re.compile("workroom")).wait_for()


def _lay_out_the_boards(page, shots):
    page.get_by_role("link", name="B1 Boards").click()
    page.get_by_label("Search for").select_option("60")
    page.get_by_role("button", name="Lay out the boards").click()
    page.get_by_text("Proven bound").first.wait_for()
    page.get_by_text("Look at the best layout so far").wait_for(timeout=30_000)
    page.screenshot(path=shots / "walk-running.png", full_page=True)
    page.reload()
    page.get_by_text("Best layout so far").first.wait_for()
    page.get_by_role("button", name="Stop, and keep the best layout").click()
    page.get_by_role("heading", name="By area, and by layout").wait_for(timeout=30_000)
    assert page.get_by_text("stopped by hand").is_visible() or page.get_by_text("the cheapest").is_visible()
    page.get_by_role("link", name="workroom, north wall").click()
    page.get_by_role("heading", level=1, name="workroom, north wall").wait_for()
    assert page.locator("main svg:visible").count() == 1


def _order_and_print(page, shots):
    page.get_by_role("link", name="M1 Buying list").click()
    page.get_by_role("heading", name="Deliveries").wait_for()
    with page.expect_download() as waiting:
        page.get_by_role("link", name="CSV").click()
    assert waiting.value.suggested_filename == "tool-shed-buying-list.csv"
    page.emulate_media(media="print")
    page.pdf(path=shots / "walk-buying.pdf", format="Letter", prefer_css_page_size=True)
    assert page.locator(".rail").is_hidden()
    assert page.locator(".title-block").is_visible()


def test_the_way_with_a_keyboard_alone(open_at):
    page = open_at(1280)
    page.goto("/")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    _tab_to(page, lambda: "Practice shed" in page.evaluate("document.activeElement.textContent"))
    page.keyboard.press("Enter")
    page.get_by_role("heading", level=1, name="Practice shed").wait_for()
    _tab_to(page, lambda: "/walls/" in (page.evaluate("document.activeElement.getAttribute('href')") or ""))
    assert page.evaluate("document.activeElement.closest('svg') !== null"), "the wall is on the plan"
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Seen from its left side").wait_for()
    _tab_to(
        page, lambda: "/surfaces/" in (page.evaluate("document.activeElement.getAttribute('href')") or "")
    )
    page.keyboard.press("Enter")
    page.get_by_role("heading", level=1, name=re.compile("workroom")).wait_for()


def _tab_to(page, there):
    for _ in range(60):
        if there():
            return
        page.keyboard.press("Tab")
    raise AssertionError("sixty tabs did not lead there")


def test_a_site_stopped_in_the_middle_of_a_run_keeps_its_best_layout(tmp_path, page):
    process, site = start_site(tmp_path)
    _come_in(page, site)
    page.goto(f"{site.address}/houses/practice-shed/boards/")
    page.get_by_label("Search for").select_option("600")
    page.get_by_role("button", name="Lay out the boards").click()
    page.get_by_text("Look at the best layout so far").wait_for(timeout=30_000)
    process.send_signal(signal.SIGINT)
    said, _ = process.communicate(timeout=20)
    assert "Traceback" not in said
    page.goto("about:blank")
    process, site = start_site(tmp_path)
    try:
        assert not site.code, "the instructor is known already"
        page.goto(f"{site.address}/houses/practice-shed/boards/1/")
        if page.get_by_role("button", name="Sign in").is_visible():  # another port keeps no cookies
            page.get_by_label("Your name").fill(NAME)
            page.get_by_label("Password").fill(PASSWORD)
            page.get_by_role("button", name="Sign in").click()
        page.get_by_text("The site was stopped while this run was at work").wait_for()
        assert page.get_by_role("heading", name="By area, and by layout").is_visible()
    finally:
        process.terminate()
        process.wait(timeout=20)
        process.stdout.close()


def test_ways_are_laid_out_one_after_another_and_compared(open_at, shots):
    page = open_at(1280)
    page.goto("/houses/practice-shed/boards/what-if/")
    page.get_by_label("Search for, each way").select_option("15")
    page.get_by_role("button", name="Lay it out each way").click()
    page.get_by_role("heading", name="Runs side by side").wait_for()
    assert page.locator("#compare tbody tr").count() == 2
    costs = "[...document.querySelectorAll('#compare tbody tr')].map((row) => row.innerText)"
    page.wait_for_function(f"() => {costs}.every((words) => words.includes('$'))", timeout=60_000)
    page.screenshot(path=shots / "what-if-compared.png", full_page=True)
    assert page.get_by_role("img", name="Cost of boards").is_visible()


def test_everything_works_without_scripts(open_at):
    page = open_at(1280, java_script_enabled=False)
    page.goto("/houses/new/")
    page.get_by_label("The house file", exact=True).fill(BROKEN)
    page.get_by_role("button", name="Keep as a new house").click()
    assert page.locator(f"#line-{FIRST} + tr.note-row .finding.problem").is_visible()
    page.goto("/houses/practice-shed/boards/")
    page.get_by_label("Search for").select_option("600")
    page.get_by_role("button", name="Lay out the boards").click()
    for _ in range(30):  # the page reloads itself
        if page.get_by_text("Look at the best layout so far").is_visible():
            break
        page.wait_for_timeout(1000)
    page.get_by_role("button", name="Stop, and keep the best layout").click()
    for _ in range(30):
        if page.get_by_role("heading", name="By area, and by layout").is_visible():
            return
        page.wait_for_timeout(1000)
    raise AssertionError("the result did not come")
