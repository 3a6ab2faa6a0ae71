"""A sealed figure in the browser: offered at the desk, tried on a tablet, opened; boards laid by hand."""

import re

import pytest

from tests.browser.test_screens import SHED, WIDTHS, check

pytestmark = pytest.mark.browser

FLOOR, WALL = "room/workroom/floor", "surface/workroom/north/run"


@pytest.fixture
def student(open_at, tablet):
    """Return a function that begins a class with one student, and opens a tablet signed in by the card."""

    def begin(width, named):
        desk = open_at(1280)
        desk.goto("/people/")
        desk.get_by_label("Name of the class").fill(named)
        desk.get_by_role("button", name="Begin the class").click()
        desk.get_by_label("Name", exact=True).fill(f"Bo {named}")
        desk.get_by_label("As crews read it").fill(f"Bo {named}")
        desk.get_by_role("button", name="Into the class").click()
        desk.get_by_role("link", name="Sign-in cards").click()
        desk.get_by_role("button", name=re.compile("Make the 1 card")).click()
        code = desk.locator(".digits").first.inner_text()
        page = tablet(width)
        page.goto("/card/")
        page.locator("[name=code]").fill(code)
        page.get_by_role("button", name="Sign in").locator("visible=true").first.click()
        page.get_by_role("link", name="Sealed figures").wait_for()
        return page

    return begin


def offer(desk, named, figure, *, layout=False):
    """Offer a figure of the shed to a class; return where the desk then is."""
    desk.goto(f"{SHED}/sealed/")
    desk.get_by_label("Figure", exact=True).select_option(figure)
    desk.get_by_label("Class", exact=True).select_option(label=named)
    desk.get_by_label("How often it may be handed in").select_option("2")
    if layout:
        desk.get_by_label("Lay the boards on the drawn wall").check()
    else:
        desk.get_by_label("After a wrong answer").check()
    desk.get_by_role("button", name="Offer it").click()
    desk.get_by_text("sealed: no student sees the answer").wait_for()


@pytest.mark.parametrize("width", WIDTHS)
def test_a_figure_is_offered_tried_hinted_opened_and_marked(open_at, student, barriers, shots, width):
    named = f"figures {width}"
    crew, desk = student(width, named), open_at(width)
    offer(desk, named, FLOOR)
    check(desk, "sealed-offered", shots, barriers)
    crew.get_by_role("link", name="Sealed figures").click()
    check(crew, "sealed-mine", shots, barriers)
    crew.get_by_role("link", name="Floor of the workroom").click()
    crew.get_by_role("group", name="Line 1", exact=True).get_by_label("What it is").fill("north to south")
    crew.get_by_role("group", name="Line 1", exact=True).get_by_label("What comes out").fill("11'-1\"")
    crew.get_by_label("Answer, in ft2").fill("twelve-ish")
    check(crew, "sealed-try", shots, barriers)
    crew.get_by_role("button", name="Hand in").click()
    crew.get_by_text("Write it in digits").wait_for()
    assert crew.get_by_label("Answer, in ft2").input_value() == "twelve-ish"
    crew.get_by_label("Answer, in ft2").fill("22000")
    crew.get_by_role("button", name="Hand in").click()
    crew.get_by_text("What you handed in").wait_for()
    check(crew, "sealed-tried", shots, barriers)
    desk.reload()
    desk.get_by_text("Line by line").first.wait_for()
    check(desk, "sealed-handed-in", shots, barriers)
    desk.get_by_label("Which slip was it really?").select_option("arithmetic")
    desk.get_by_role("button", name="Mark it").click()
    desk.get_by_text("Marked: arithmetic.").wait_for()
    desk.get_by_role("button", name="Open it for the students").click()
    desk.get_by_text("Opened: the students see").wait_for()
    crew.reload()
    crew.get_by_role("heading", name="The right working").wait_for()
    check(crew, "sealed-opened", shots, barriers)
    desk.get_by_role("link", name=f"Slips of {named}: how often").click()
    check(desk, "sealed-odds", shots, barriers)


@pytest.mark.parametrize("width", WIDTHS)
def test_boards_are_laid_by_finger_and_by_keyboard(open_at, student, barriers, shots, width):
    named = f"layouts {width}"
    crew, desk = student(width, named), open_at(width)
    offer(desk, named, WALL, layout=True)
    crew.get_by_role("link", name="Sealed figures").click()
    crew.get_by_role("link", name=re.compile("Boards of the workroom, north wall")).click()
    with crew.expect_navigation():
        crew.locator("[data-end]:visible").last.click()
    assert crew.locator("dl.gauges dd").first.inner_text() == "1"
    check(crew, "sealed-laying", shots, barriers)
    while not crew.get_by_role("button", name="Hand in").count():
        row = crew.locator("#row").input_value()
        end = crew.locator(f"[data-row='{row}']:visible").last.get_attribute("data-end")
        crew.locator("#end").select_option(end)
        with crew.expect_navigation():
            crew.get_by_role("button", name="Lay it").press("Enter")
        assert not crew.get_by_role("alert").count()
    check(crew, "sealed-laid", shots, barriers)
    crew.context.set_offline(True)
    crew.get_by_role("button", name="Take the last one back").click()
    crew.get_by_text("what is on this sheet stays").wait_for()
    crew.get_by_role("button", name="Hand in").click()
    crew.get_by_text("1 to send: kept on this tablet until the network returns.").wait_for()
    crew.context.set_offline(False)
    crew.get_by_text("Handed in.").first.wait_for(timeout=20_000)
    desk.get_by_role("button", name="Open it for the students").click()
    desk.get_by_text("Best layout known, boards").wait_for()
    check(desk, "sealed-laid-opened", shots, barriers)
    crew.reload()
    crew.get_by_text("Best layout known").wait_for()
    check(crew, "sealed-laid-answer", shots, barriers)
