"""Hookups in the browser: flipped and seen, drawn with a finger, a keyboard, without scripts, by a crew."""

import re

import pytest

from setday.actions.switching.hookups import example_text, open_hookup
from setday.drawing import point_key
from tests.browser.test_screens import check

pytestmark = pytest.mark.browser

HALL = "/hookups/hall-light-between-its-two-switches"
SHOP = "/hookups/shop-with-three-lights-and-four-switches"
SHEETS = {
    "hookups": "/hookups/",
    "hookup-new": "/hookups/new/",
    "hookup-build": "/hookups/build/",
    "hookup": f"{HALL}/?at=11",
    "hookup-dark": f"{HALL}/?at=10",
    "hookup-eight-boxes": f"{SHOP}/",
    "hookup-judged": f"{HALL}/judge/",
    "hookup-bench": f"{HALL}/draw/",
    "hookup-bench-eight-boxes": f"{SHOP}/draw/",
    "hookup-drawn-tried": f"{HALL}/draw/try/",
    "hookup-drawn-judged": f"{HALL}/draw/judge/",
    "hookup-plan-sealed": f"{SHOP}/plan/",
    "hookup-stage": f"{HALL}/stage/",
    "hookup-file": f"{HALL}/file/",
    "hookup-edit": f"{HALL}/file/edit/",
    "hookup-versions": f"{HALL}/versions/",
    "hookup-crews": f"{HALL}/crews/",
    "hookups-of-house": "/houses/practice-shed/hookups/",
    "bench-door": "/bench/",
}


@pytest.fixture(scope="session", autouse=True)
def kept(site, browser, signed_in):
    """Keep two standard circuits."""
    context = browser.new_context(storage_state=signed_in, base_url=site.address)
    page = context.new_page()
    for name in ("three-way-light-between", "eight-boxes"):
        page.goto(f"/hookups/new/?start={name}")
        page.get_by_role("button", name="Keep as a new hookup").click()
        page.get_by_text("is kept as version 1").wait_for()
    context.close()


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("sheet", sorted(SHEETS))
def test_the_sheets_of_hookups_are_open_to_all(open_at, barriers, shots, sheet, width):
    page = open_at(width)
    page.goto(SHEETS[sheet])
    check(page, sheet, shots, barriers)


@pytest.mark.parametrize("width", [360, 1280])
def test_every_part_of_the_stage_is_open_to_all(open_at, barriers, shots, width):
    page = open_at(width)
    page.goto(f"{HALL}/stage/")
    for summary in page.locator("main details > summary").all():
        summary.click()
    check(page, "hookup-stage-open", shots, barriers)


def test_the_name_typed_first_is_not_lost_when_a_box_is_put_on(open_at):
    page = open_at(1280)
    page.goto("/hookups/build/")
    page.fill("#called", "Shed light")
    page.get_by_text("A box", exact=True).click()
    box = page.locator("form", has=page.locator("button[name=add][value=box]"))
    box.locator("[name=name]").fill("door")
    box.locator("button").click()
    page.locator("th", has_text="Box door").wait_for()
    assert page.input_value("#called") == "Shed light"


def sign(page, load):
    return page.locator(".sign", has_text=load)


def test_a_flip_is_seen_at_once_and_without_a_network(open_at):
    page = open_at(1280)
    page.goto(f"{HALL}/?at=00")
    page.context.set_offline(True)
    assert sign(page, "L1").get_attribute("data-look") == "full"
    page.get_by_role("button", name=re.compile("Flip S2")).click()
    assert sign(page, "L1").get_attribute("data-look") == "off"
    assert page.locator("[data-said]").inner_text() == "S1 down, S2 up. L1 off. Breaker holds."
    assert page.get_by_text("Every lamp is off, and this is still energized").is_visible()
    assert page.locator('tr[aria-current="true"]').get_attribute("data-row") == "01"
    assert page.url.endswith("?at=01")
    wide = page.locator(".on-desk svg")
    assert wide.locator('[data-id="L1"]').get_attribute("data-look") == "off"
    assert wide.locator(".sd-live").count() > 0, "what is energized though off is banded"
    assert wide.locator(".sd-way").count() == 0, "no current flows"


def test_a_switch_in_the_drawing_is_flipped_by_touch_and_by_keyboard(open_at):
    page = open_at(360, has_touch=True)
    page.goto(f"{HALL}/?at=00")
    phone = page.locator(".on-phone svg")
    phone.locator('a:has([data-id="S1"])').tap()
    assert sign(page, "L1").get_attribute("data-look") == "off"
    phone.locator('a:has([data-id="S1"])').focus()
    page.keyboard.press("Enter")
    assert sign(page, "L1").get_attribute("data-look") == "full"
    marks = phone.locator(".sd-way")
    assert marks.count() > 10, "current is shown by marks, not by color alone"
    box = phone.locator('a:has([data-id="S1"])').bounding_box()
    assert min(box["width"], box["height"]) >= 48


BANDS = """
(svg) => [...new Set(
  [...svg.querySelectorAll(".sd-now")].map((band) => band.closest("g[data-at]")?.dataset.at)
)].filter(Boolean).sort()
"""


def test_the_drawing_in_the_page_tells_the_same_as_the_one_from_the_site(open_at):
    page, plain = open_at(1280), open_at(1280, java_script_enabled=False)
    for at in ("0000", "0111", "1010"):
        page.goto(f"{SHOP}/?at={at}")
        plain.goto(f"{SHOP}/?at={at}")
        told = page.locator(".on-desk svg").evaluate(BANDS)
        assert told == plain.locator(".on-desk svg").evaluate(BANDS)
        assert told, "something is always energized"


def test_who_wants_less_motion_sees_marks_that_stand_still(open_at):
    page = open_at(1280, reduced_motion="reduce")
    page.goto(f"{HALL}/?at=11")
    style = "(mark) => getComputedStyle(mark).animationName"
    assert page.locator(".on-desk .sd-way").first.evaluate(style) == "none"
    moving = open_at(1280, reduced_motion="no-preference")
    moving.goto(f"{HALL}/?at=11")
    assert moving.locator(".on-desk .sd-way").first.evaluate(style) == "swell"


def test_an_open_breaker_is_shown(open_at):
    page = open_at(1280)
    text = example_text("single-pole-feed-at-switch").replace("name: ", "name: Shorted ", 1)
    hookup = open_hookup(text, name="x").sound()
    lamp = next(join for join in hookup.joins if any(point.part == "silver" for point in join.points))
    hot = next(j for j in hookup.joins if any(p.holder == "L1" and p.part == "brass" for p in j.points))
    shorted = text.replace(f"    - {lamp}\n", "").replace(f"    - {hot}\n", f"    - {hot} + {lamp}\n")
    page.goto("/hookups/new/")
    page.get_by_label("The hookup file", exact=True).fill(shorted)
    page.get_by_role("button", name="Keep as a new hookup").click()
    page.locator("details.sealed-joins > summary").click()
    page.get_by_role("button", name=re.compile("Flip S1")).click()
    assert page.locator(".sign.breaker").get_attribute("data-opens") == "yes"
    assert page.locator(".on-desk svg").get_by_text("breaker OPEN").is_visible()
    assert page.locator(".on-desk svg .sd-live").count() == 0


# ---- drawn by hand


def pairs():
    hookup = open_hookup(example_text("three-way-light-between"), name="x").sound()
    for join in hookup.joins:
        first, *others = [point_key(point) for point in join.points]
        yield from ((first, other) for other in others)


def pin(page, key):
    return page.locator(f'.pin[value="{key}"]')


def said(page, words):
    page.locator(".bench-said", has_text=words).wait_for()


def take_all_apart(page):
    page.goto(f"{HALL}/draw/")
    page.get_by_role("button", name="Take all apart").click()
    page.wait_for_function("() => !document.querySelector('[name=apart]')")


def test_a_hookup_is_drawn_with_a_finger_tried_and_judged(open_at, barriers, shots):
    page = open_at(360, has_touch=True)
    take_all_apart(page)
    for first, second in pairs():
        pin(page, first).tap()
        said(page, "is picked")
        pin(page, second).tap()
        said(page, "are joined")
    page.get_by_role("button", name="N2 white: re-mark").first.tap()
    said(page, "The white of N2")
    check(page, "hookup-drawn", shots, barriers)
    page.get_by_role("button", name="Undo").tap()
    said(page, "undone")
    page.get_by_role("button", name="Redo").tap()
    said(page, "done again")
    page.get_by_role("link", name="Judge it").click()
    assert page.get_by_text("It does what is wanted in all 4 positions.").is_visible()
    assert page.get_by_text("Nothing was found against them.").is_visible()
    page.goto(f"{HALL}/draw/try/")
    page.get_by_role("button", name=re.compile("Flip S1")).tap()
    assert sign(page, "L1").get_attribute("data-look") in {"full", "off"}


def test_two_ends_are_joined_and_taken_apart_with_the_keyboard_alone(open_at):
    page = open_at(1280)
    take_all_apart(page)
    pin(page, "near|feed|black").focus()
    page.keyboard.press("Enter")
    said(page, "feed black is picked")
    assert page.evaluate("document.activeElement.value") == "near|feed|black", "the focus stays"
    for _ in range(40):
        if page.evaluate("document.activeElement.value") == "near|S1|common":
            break
        page.keyboard.press("Tab")
    page.keyboard.press("Space")
    said(page, "feed black and S1 common are joined.")
    apart = page.get_by_role("button", name="Take apart: feed black + S1 common")
    apart.focus()
    page.keyboard.press("Enter")
    said(page, "are taken apart")
    page.wait_for_function("() => document.activeElement.className === 'bench-said'")
    pin(page, "near|feed|black").press("Enter")
    said(page, "is picked")
    page.keyboard.press("Escape")
    said(page, "is let go")


def test_a_tap_that_does_not_reach_the_site_is_said_and_nothing_drawn_is_lost(open_at):
    page = open_at(1280)
    take_all_apart(page)
    pin(page, "near|feed|white").click()
    said(page, "is picked")
    page.context.set_offline(True)
    pin(page, "near|N1|white").click()
    page.get_by_text("The last tap did not reach the site").wait_for()
    page.context.set_offline(False)
    pin(page, "near|N1|white").click()
    said(page, "feed white and N1 white are joined.")
    assert page.get_by_text("The last tap did not reach the site").is_hidden()


def test_everything_works_without_scripts(open_at):
    page = open_at(1280, java_script_enabled=False)
    page.goto(f"{HALL}/?at=00")
    page.get_by_role("button", name=re.compile("Flip S1")).click()
    assert page.get_by_text("S1 up, S2 down. L1 off.").is_visible()
    page.locator('.on-desk a:has([data-id="S2"])').click()
    assert page.get_by_text("S1 up, S2 up. L1 full.").is_visible()
    page.goto(f"{HALL}/draw/")
    page.get_by_role("button", name="Take all apart").click()
    pin(page, "far|N2|black").click()
    pin(page, "far|S2|common").click()
    assert page.get_by_text("N2 black and S2 common are joined.").first.is_visible()
    page.get_by_role("button", name="Undo").click()
    assert page.get_by_text("The last step is undone.").first.is_visible()


def test_the_sheet_prints_its_drawing_with_what_is_energized(open_at, shots):
    page = open_at(1280)
    page.goto(f"{HALL}/?at=11")
    page.emulate_media(media="print")
    page.pdf(path=shots / "hookup-printed.pdf", format="Letter", prefer_css_page_size=True)
    assert page.locator(".on-desk svg").is_visible()
    assert page.locator(".sd-way").first.is_visible()
    assert page.locator(".hookup-caution").is_visible()
    assert page.locator(".rail").is_hidden()


def test_a_crew_comes_by_its_code_and_draws_while_the_plan_stays_sealed(
    site, open_at, browser, barriers, shots
):
    page = open_at(1280)
    page.goto(f"{HALL}/crews/")
    page.get_by_role("button", name="Open the bench to crews").click()
    code = page.locator(".bench-code").inner_text()
    context = browser.new_context(
        viewport={"width": 360, "height": 800}, base_url=site.address, locale="en-US"
    )
    tablet = context.new_page()
    tablet.goto("/bench/")
    tablet.get_by_label("Code of the bench").fill(code.lower())
    tablet.get_by_label("Name of your crew").fill("North wall")
    tablet.get_by_role("button", name="To the bench").click()
    tablet.get_by_role("heading", name="Draw the hookup").wait_for()
    check(tablet, "bench-of-a-crew", shots, barriers)
    pin(tablet, "far|N2|black").click()
    said(tablet, "is picked")
    pin(tablet, "far|S2|common").click()
    said(tablet, "are joined")
    for sheet in ("try", "judge"):
        tablet.goto(f"/bench/{sheet}/")
        check(tablet, f"bench-{sheet}", shots, barriers)
    tablet.goto(f"{HALL}/")
    assert "/sign-in/" in tablet.url
    tablet.goto("/bench/plan/")
    assert tablet.get_by_role("heading", name="There is no such sheet").is_visible()
    page.reload()
    assert page.get_by_role("link", name="North wall").is_visible()
    check(page, "hookup-crews-at-work", shots, barriers)
    context.close()


def test_the_plan_is_shown_once_the_instructor_opens_it(open_at, barriers, shots):
    page = open_at(1280)
    page.goto(f"{SHOP}/plan/")
    page.get_by_role("button", name="Open the plan").click()
    page.get_by_text("Least among all hookups").wait_for()
    check(page, "hookup-plan", shots, barriers)
    page.get_by_role("button", name="Seal it again").click()
    page.get_by_text("The plan is sealed.").first.wait_for()
    assert page.get_by_text("Least among all hookups").count() == 0


def test_quick_taps_are_all_taken_in_their_order(open_at):
    page = open_at(1280)
    take_all_apart(page)

    def slowly(route):
        page.wait_for_timeout(250)
        route.continue_()

    page.route("**/draw/", slowly)
    taps = ["light|N1|white", "light|L1|silver", "light|N1|bare", "light|N2|bare"]
    page.evaluate(
        '(keys) => keys.forEach((key) => document.querySelector(`.pin[value="${key}"]`).click())', taps
    )
    page.get_by_role("button", name="Take apart: N1 bare + N2 bare").wait_for()
    assert page.get_by_role("button", name="Take apart: N1 white + L1 silver").is_visible()
