"""From a house to the bench: a switched group taken, drawn, tried, and taken again when the house changes."""

import re

import pytest

from setday.actions.houses import demo_text
from tests.browser.test_screens import check

pytestmark = pytest.mark.browser

BENCH_SHED = demo_text("shed").replace("name: Practice shed", "name: Bench shed")
WIDER = BENCH_SHED.replace("east 16'", "east 20'").replace("west 16'", "west 20'")
E1 = "/houses/bench-shed/hookups/"


def keep_house(page, address, text, button):
    page.goto(address)
    page.get_by_label("The house file", exact=True).fill(text)
    page.get_by_role("button", name=button).click()
    page.wait_for_url("**/houses/bench-shed/")


def looked_at(open_at, name, shots, barriers):
    """Look at the sheet of the house on a phone and on a laptop."""
    for width in (360, 1280):
        page = open_at(width)
        page.goto(E1)
        check(page, name, shots, barriers)


def test_a_group_goes_from_the_house_to_the_bench_and_again_when_the_house_changes(open_at, barriers, shots):
    page = open_at(1280)
    keep_house(page, "/houses/new/", BENCH_SHED, "Keep as a new house")
    page.get_by_role("link", name="Hookups").last.click()
    page.wait_for_url(f"**{E1}")
    looked_at(open_at, "house-groups", shots, barriers)

    page.get_by_role("button", name="Take to the bench: workroom light").click()
    page.get_by_text("is kept; its plan is sealed").wait_for()
    bench = page.url
    tap_two_ends(page)

    page.goto(bench.replace("draw/", ""))
    flip = page.get_by_role("button", name=re.compile("Flip workroom switch"))
    assert flip.is_hidden(), "the kept joins are the answer"
    check(page, "hookup-folded", shots, barriers)
    page.get_by_text("the kept joins are the answer: show them").click()
    flip.click()
    assert page.locator('.sign[data-load="0"]').get_attribute("data-look") == "full"

    keep_house(page, "/houses/bench-shed/file/edit/", WIDER, "Keep as another version")
    looked_at(open_at, "house-groups-older", shots, barriers)
    page.goto(E1)
    assert page.get_by_text("This version is planned otherwise.").is_visible()
    page.get_by_role("button", name="Take it as it is now: workroom light").click()
    page.wait_for_url(bench)
    drawn = page.get_by_role("button", name=re.compile("Take apart: .*feed white"))
    assert drawn.count() == 1, "what was drawn stays"
    page.goto(E1)
    assert page.get_by_text("which is older").count() == 0


def tap_two_ends(page):
    """Join the two whites of the box the feed enters."""
    for wire in ("feed", "N1"):
        page.locator(f'.pin[value$="|{wire}|white"]').first.click()
        page.locator(".bench-said", has_text=f"{wire} white").wait_for()
    page.locator(".bench-said", has_text="are joined").wait_for()
