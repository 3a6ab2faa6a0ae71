"""The plan of a hookup, sealed and opened; and its stage, built from forms."""

import re
from html import unescape

import pytest

from setday.actions.switching.hookups import open_hookup
from setday.switching import stage_of
from setday.web.keeping.models import HookupVersion, KeptHookup
from tests.web.hookups import HALL, HERE, page, the_hall

# ---- planned


def test_the_plan_is_sealed_until_it_is_opened(desk, hall):
    sealed = page(desk.get(f"{HERE}plan/"))
    for told in ("<svg xmlns", "conductor-feet, w", str(the_hall().joins[0]), "14/3"):
        assert told not in sealed.split('id="sheet"')[1]
    desk.post(f"{HERE}plan/", {"do": "keep"})
    assert hall.versions.count() == 1
    desk.post(f"{HERE}plan/", {"do": "open"})
    opened = page(desk.get(f"{HERE}plan/"))
    assert "Least among all hookups" in opened
    assert "88" in opened, "22 ft of four conductors"
    desk.post(f"{HERE}plan/", {"do": "seal"})
    assert "Least among all hookups" not in page(desk.get(f"{HERE}plan/"))


def test_a_plan_is_kept_as_another_version_of_a_stage_without_joins(desk):
    stage = HALL[: HALL.index("cables:")] + HALL[HALL.index("wants:") :]
    desk.post("/hookups/new/", {"text": stage})
    desk.post(f"{HERE}plan/", {"do": "open"})
    answer = desk.post(f"{HERE}plan/", {"do": "keep"}, follow=True)
    assert "Kept as version 2" in page(answer)
    assert "It does what is wanted in all 4 positions." in page(desk.get(f"{HERE}judge/"))


def test_where_there_is_no_plan_it_is_said_what_would_help(desk):
    desk.post("/hookups/new/", {"text": HALL.replace("  - light to far, 10 ft\n", "", 1)})
    desk.post(f"{HERE}plan/", {"do": "open"})
    assert "No path leads from the feed's box to far" in page(desk.get(f"{HERE}plan/"))


# ---- the stage from forms


class Builder:
    """Fills in the forms of the stage one after the other, with the draft the page gives back."""

    def __init__(self, browser, address="/hookups/build/"):
        self.browser, self.address, self.text, self.answer = browser, address, "", None
        self.look(browser.get(address))

    def look(self, answer):
        self.answer = answer
        found = re.search(r'<textarea name="text"[^>]*>(.*?)</textarea>', answer.content.decode(), re.DOTALL)
        self.text = unescape(found[1]).lstrip("\n") if found else self.text
        return answer

    def put(self, part, **fields):
        return self.look(self.browser.post(self.address, {"text": self.text, "add": part, **fields}))

    def off(self, named):
        return self.look(self.browser.post(self.address, {"text": self.text, "off": named}))

    def keep(self, called):
        answer = {"text": self.text, "do": "keep", "called": called}
        return self.browser.post(self.address, answer, follow=True)


def test_a_stage_is_built_from_nothing_by_forms_alone(desk):
    stage = Builder(desk)
    stage.put("box", name="near", volume="18", column="1", row="1")
    stage.put("box", name="light", metal="on")
    stage.put("feed", box="near", kind="14/2", length="30 ft", breaker="15")
    stage.off("box:box 1")
    stage.put("device", name="S1", kind="single-pole switch", box="near")
    stage.put("device", name="L1", kind="lamp", box="light", watts="60")
    stage.put("cable", name="N1", kind="14/2", a="near", b="light", length="12'-6\"")
    stage.put("path", a="near", b="light", length="12.5")
    stage.put("want", load="L1", switches=["S1"])
    assert stage.answer.status_code == 200
    assert not KeptHookup.objects.exists(), "nothing is kept before the button that says so"
    answer = stage.keep("Closet light")
    assert answer.redirect_chain[-1][0] == "/hookups/closet-light/draw/"
    hookup = open_hookup(HookupVersion.objects.get().text, name="x").sound()
    assert hookup == stage_of(hookup)
    assert [box.name for box in hookup.boxes] == ["near", "light"]
    assert (hookup.cables[0].length_ft, hookup.feed.box) == (12.5, "near")
    assert str(hookup.wants[0]) == "L1 from S1"


@pytest.mark.parametrize(
    ("part", "fields", "says"),
    [
        ("box", {"name": ""}, "required"),
        ("box", {"name": "a: b"}, "letters, figures and spaces"),
        ("box", {"name": "big", "volume": "-3"}, "greater than or equal"),
        (
            "cable",
            {"name": "N1", "kind": "14/3", "a": "near", "b": "near", "length": "4"},
            "two different boxes",
        ),
        ("cable", {"name": "N9", "kind": "14/3", "a": "near", "b": "near", "length": "long"}, "length"),
        ("cable", {"name": "N9", "kind": "99/3", "a": "near", "b": "far", "length": "4"}, "valid choice"),
        ("device", {"name": "S1", "kind": "lamp", "box": "near"}, "two things have this name"),
        ("device", {"name": "feed", "kind": "lamp", "box": "near"}, "meaning of its own"),
        ("feed", {"box": "near", "kind": "14/2", "length": "0", "breaker": "15"}, "0 ft"),
        ("want", {"load": "L7"}, "valid choice"),
    ],
)
def test_what_does_not_fit_is_refused_in_words_and_the_stage_stays(desk, hall, part, fields, says):
    stage = Builder(desk, f"{HERE}stage/")
    before = stage.text
    answer = stage.put(part, **fields)
    assert answer.status_code == 422
    assert says in page(answer)
    assert stage.text == before


def test_a_box_taken_off_takes_what_hangs_on_it(desk, hall):
    stage = Builder(desk, f"{HERE}stage/")
    stage.off("box:far")
    stage.keep("Hall light")
    hookup = open_hookup(hall.newest.text, name="x").sound()
    assert [device.name for device in hookup.devices] == ["S1", "L1"]
    assert [cable.name for cable in hookup.cables] == ["N1"]
    assert all(point.holder not in {"N2", "S2"} for join in hookup.joins for point in join.points)


def test_the_box_where_the_feed_enters_is_not_taken_off(desk, hall):
    answer = Builder(desk, f"{HERE}stage/").off("box:near")
    assert answer.status_code == 422
    assert "it enters box 'near', which is not there" in page(answer)


@pytest.mark.parametrize("off", ["", "box", "box:nowhere", "path:99", "path:x", "want:L9", "thing:S1"])
def test_taking_off_what_is_not_there_changes_nothing(desk, hall, off):
    stage = Builder(desk, f"{HERE}stage/")
    before = stage.text
    stage.off(off)
    assert stage.text == before


def test_a_draft_that_was_spoiled_on_the_way_begins_again(desk, hall):
    answer = desk.post(f"{HERE}stage/", {"text": "boxes: [", "add": "box", "name": "x"}, follow=True)
    assert "begins as it was kept" in page(answer)
