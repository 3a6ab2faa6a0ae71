"""A whole class day in the browser: from a house and a roster to the record of a wall and of the period.

Every page is looked at on a phone and on a laptop: `look` turns each to the other width and back.
"""

import re
from urllib.parse import urlsplit

import pytest

from tests.browser.test_people import begin_class, cards_of
from tests.browser.test_screens import WIDTHS, check

pytestmark = pytest.mark.browser

NAMES = ("Remy Falk", "Suki Dorn", "Tove Lunt")
DONE_WORDS = "Doors hang true."


@pytest.fixture
def look(barriers, shots):
    """Return a function that looks at a page on a phone and on a laptop; what is wrong is said at the end."""
    wrong = []

    def both(page, name):
        own = page.viewport_size
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 800})
            try:
                check(page, f"day-{name}", shots, barriers)
            except AssertionError as error:
                wrong.append(f"{name}, {width} px: {error}")
        page.set_viewport_size(own)

    yield both
    assert wrong == []


def bring_in_house(desk, name, look):
    """Bring a house in as the instructor does; return the start of its addresses."""
    desk.goto("/houses/new/")
    desk.get_by_role("button", name="Start from the practice shed").click()
    text = desk.get_by_label("The house file", exact=True)
    text.fill(re.sub(r"(?m)^(house|name): .*$", rf"\1: {name}", text.input_value(), count=1))
    desk.get_by_role("button", name="Keep as a new house").click()
    desk.get_by_role("heading", name=name).first.wait_for()
    look(desk, "house")
    return "/".join(urlsplit(desk.url).path.split("/")[:3])


def class_with_cards(desk, name, shots, barriers):
    """Make the class from a typed roster and print its cards; return who has which code."""
    begin_class(desk, name)
    desk.get_by_role("link", name="Bring in a roster").click()
    desk.get_by_label("The roster").fill("\n".join(NAMES))
    desk.get_by_role("button", name="Look at it").click()
    desk.get_by_role("button", name="Keep those ticked").click()
    desk.get_by_text("students are new in the class").wait_for()
    return cards_of(desk, shots, barriers)


def begin_period(desk, name, house, look):
    """Begin the period and see who is here: one is away; return its address."""
    desk.goto("/periods/")
    desk.get_by_role("link", name="Begin a period").click()
    desk.get_by_label("Class", exact=True).select_option(label=name)
    desk.get_by_label("House", exact=True).select_option(label=house)
    look(desk, "begin")
    desk.get_by_role("button", name="Begin", exact=True).click()
    desk.get_by_role("heading", name="Who is here").wait_for()
    look(desk, "who")
    desk.get_by_role("button", name=re.compile("^Tove Lunt . not looked")).click()
    desk.get_by_role("button", name=re.compile("^Tove Lunt . here")).click()
    desk.get_by_role("button", name=re.compile("^Tove Lunt . away")).wait_for()
    desk.get_by_role("button", name="All the others are here").click()
    desk.get_by_role("button", name=re.compile("^Suki Dorn . here")).wait_for()
    look(desk, "attendance")
    return desk.url


def send_crew(desk, period, look):
    """Put a task on the list and send a crew of two to it."""
    desk.get_by_role("link", name="Tasks of the house").click()
    desk.get_by_label("What is to be done").fill("Hang doors")
    desk.get_by_label("Trade", exact=True).fill("trim")
    desk.get_by_label("Place", exact=True).fill("workroom")
    desk.get_by_label("How much").fill("4")
    desk.get_by_label("Unit").fill("doors")
    desk.get_by_role("button", name="Put it on the list").click()
    desk.get_by_role("rowheader", name="Hang doors").wait_for()
    look(desk, "tasks")
    desk.goto(f"{period}crews/")
    desk.get_by_label("First").first.select_option(label="Hang doors · workroom")
    for who in ("Remy Falk", "Suki Dorn"):
        desk.get_by_role("group", name=who).get_by_role("radio", name="1", exact=True).check()
    look(desk, "crews")
    desk.get_by_role("button", name="Keep the crews").click()
    desk.get_by_text("The crews are kept.").wait_for()
    desk.goto(f"{period}wall/")
    desk.get_by_text("Remy F.").wait_for()
    look(desk, "wall")


def sign_in(crew, code):
    """Come in with a card."""
    crew.goto("/card/")
    crew.get_by_label("The digits on your card").fill(code)
    crew.get_by_role("button", name="Sign in").last.click()
    crew.get_by_role("heading", name="Remy F.").wait_for()


def work(crew, look):
    """Start, write a note, do a part, lose the network for one entry, get it back."""
    crew.get_by_role("link", name="Our work today").click()
    look(crew, "today")
    crew.locator(".places svg").first.wait_for()
    crew.get_by_text("Take care:").wait_for()
    crew.get_by_role("button", name="Start").click()
    crew.get_by_text("at work").wait_for()
    crew.get_by_text("A note", exact=True).click()
    crew.get_by_label("Note", exact=True).fill("The second hinge is short of screws.")
    crew.get_by_role("button", name="Keep the note").click()
    crew.get_by_text("Kept.").wait_for()
    crew.get_by_label("How much was done").fill("1.5")
    crew.get_by_role("button", name="Partly done").click()
    crew.get_by_text("1.5 of 4 doors").wait_for()
    crew.context.set_offline(True)
    crew.get_by_label("How much was done").fill("1")
    crew.get_by_role("button", name="Partly done").click()
    crew.get_by_text("1 to send: kept on this tablet until the network returns.").wait_for()
    look(crew, "offline")
    crew.context.set_offline(False)
    crew.get_by_text("2.5 of 4 doors").wait_for(timeout=20_000)
    crew.get_by_label("How much was done").fill("1.5")
    crew.get_by_role("button", name="Done", exact=True).click()
    crew.get_by_text("4 of 4 doors").wait_for()
    look(crew, "done")


def figure_sealed(desk, crew, house, name, look):
    """Offer a figure; a student forgets a wall, is given a hint, and sees the slip once it is opened."""
    desk.goto(f"{house}/sealed/")
    desk.get_by_label("Figure", exact=True).select_option("room/workroom/boards")
    desk.get_by_label("Class", exact=True).select_option(label=name)
    desk.get_by_label("After a wrong answer").check()
    look(desk, "offers")
    desk.get_by_role("button", name="Offer it").click()
    desk.get_by_text("sealed: no student sees the answer").wait_for()
    crew.goto("/mine/")
    crew.get_by_role("link", name="Sealed figures").click()
    look(crew, "figures")
    crew.get_by_role("link", name=re.compile("Boards of the workroom")).click()
    for n, (what, comes_out) in enumerate(
        [
            ("walls and ceiling, net", "454.6 ft2"),
            ("sheets", "15 sheets"),
            ("sheets with waste", "16.5 sheets"),
        ],
        1,
    ):
        line = crew.get_by_role("group", name=f"Line {n}", exact=True)
        line.get_by_label("What it is").fill(what)
        line.get_by_label("What comes out").fill(comes_out)
    crew.get_by_label("Answer, in sheets").fill("17")
    crew.get_by_role("button", name="Hand in").click()
    crew.get_by_text("A hint:").wait_for()
    look(crew, "hint")
    assert "579.3" not in crew.content()
    desk.get_by_role("button", name="Open it for the students").click()
    desk.get_by_text("here it goes wrong").wait_for()
    look(desk, "opened")
    crew.reload()
    crew.get_by_role("heading", name="The right working").wait_for()
    assert "north wall" in crew.get_by_role("main").inner_text()
    look(crew, "slip")


def close_wall(desk, crew, house, look):
    """A student checks a wall off, the instructor closes it; its record is printed."""
    crew.goto("/mine/")
    crew.get_by_role("link", name="Gates").click()
    crew.goto(f"{house}/gates/surfaces/workroom/west/")
    for box in crew.get_by_role("group", name="Tick what is in").get_by_role("checkbox").all():
        box.check()
    look(crew, "gate")
    crew.get_by_role("button", name="Check off what is ticked").click()
    crew.get_by_text(re.compile(r"things? (is|are) checked off")).first.wait_for()
    look(crew, "checked-off")
    desk.goto(f"{house}/gates/surfaces/workroom/west/")
    desk.get_by_role("button", name=re.compile("^Confirm .* checked off")).click()
    desk.get_by_text("1 thing is confirmed.").wait_for()
    desk.get_by_label(re.compile("framing inspection passed")).check()
    desk.get_by_role("button", name="Confirm what is ticked").click()
    desk.get_by_role("heading", name=re.compile("ready to close$")).wait_for()
    look(desk, "ready")
    desk.get_by_role("button", name="The boards are on: close this surface").click()
    desk.get_by_role("heading", name="Behind workroom, west wall", level=1).wait_for()
    look(desk, "behind")
    address = desk.get_by_role("link", name=re.compile("Print the page")).get_attribute("href")
    assert desk.request.get(address).headers["content-type"] == "application/pdf"


def ring_out(desk, crew, period, name, look, shots):
    """Close the period; its record tells every entry once, and hours are there."""
    desk.goto(period)
    desk.get_by_label("A word on the period").fill(DONE_WORDS)
    look(desk, "sheet")
    desk.get_by_role("button", name="Close the period").click()
    desk.goto(f"{period}record/")
    desk.get_by_text(DONE_WORDS).wait_for()
    entered = desk.get_by_role("main").inner_text()
    assert entered.count("Hang doors, partly done, 1 doors") == 1
    assert entered.count("second hinge") == 1
    look(desk, "record")
    printed = desk.request.get(f"{period}record.pdf")
    assert printed.body().startswith(b"%PDF")
    (shots / "day-record.pdf").write_bytes(printed.body())
    desk.get_by_role("link", name="Hours").click()
    desk.get_by_role("heading", name=f"Hours: {name}").wait_for()
    look(desk, "hours")
    crew.goto("/today/hours/")
    assert "Suki" not in crew.content()
    look(crew, "own-hours")


def test_a_class_day_from_the_house_to_the_bell(open_at, tablet, look, barriers, shots):
    desk, crew, name = open_at(1280), tablet(360), "Yard class"
    house = bring_in_house(desk, "Yard shed", look)
    codes = class_with_cards(desk, name, shots, barriers)
    period = begin_period(desk, name, "Yard shed", look)
    send_crew(desk, period, look)
    sign_in(crew, codes["Remy Falk"])
    look(crew, "mine")
    work(crew, look)
    figure_sealed(desk, crew, house, name, look)
    close_wall(desk, crew, house, look)
    ring_out(desk, crew, period, name, look, shots)
    by_keyboard_alone(tablet(1280), codes["Suki Dorn"])


def by_keyboard_alone(page, code):
    """Come in, open the sheet of work, go to the gates and sign out, without a finger on the glass."""
    page.goto("/card/")
    press_until(page, "document.activeElement.matches('input.digits')")
    page.keyboard.type(code)
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Suki D.").wait_for()
    for words, heading in (("Our work today", "Our work today"), ("My sheet", "Suki D."), ("Gates", "Gates")):
        press_until(page, f"document.activeElement.textContent.trim() === '{words}'")
        page.keyboard.press("Enter")
        page.get_by_role("heading", name=heading, level=1).wait_for()


def press_until(page, reached):
    """Press the tab key until something is reached."""
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate(reached):
            return
    raise AssertionError(f"not reached by keyboard: {reached}")
