"""The switched groups of a house, taken to the bench: kept, sealed, and told when the house file changes."""

import pytest

from setday.actions.houses import demo_text
from setday.switching import judge
from setday.web.keeping.hookups import opened_hookup
from setday.web.keeping.houses import add_version
from setday.web.keeping.models import KeptHookup
from tests.web.hookups import HALL, page

E1 = "/houses/practice-shed/hookups/"
GROUP = {"group": "workroom light"}
WIDER = demo_text("shed").replace("east 16'", "east 20'").replace("west 16'", "west 20'")
SAME = demo_text("shed") + "\n# looked over\n"


@pytest.fixture
def taken(desk, shed):
    """Return the light of the shed, taken to the bench."""
    desk.post(f"{E1}take/", GROUP)
    return KeptHookup.objects.get()


def changed(shed, text):
    assert text != demo_text("shed")
    return add_version(shed, name="Practice shed", file_name="shed.yaml", text=text)


def test_the_sheet_lists_the_switched_groups_with_switches_lights_and_boxes(desk, shed):
    text = page(desk.get(E1))
    row = text.split('value="workroom light"')[0].split("<tr")[-1]
    assert "workroom switch: workroom light" in row
    assert "shed door light switch: shed door light" in row
    assert "workroom switches at shed door, workroom light, shed door light" in row
    assert "/houses/practice-shed/cable/circuits/" in row


def test_a_group_taken_is_kept_for_the_house_sealed_and_its_bench_is_opened(desk, shed):
    answer = desk.post(f"{E1}take/", GROUP)
    kept = KeptHookup.objects.get()
    assert answer.headers["Location"] == f"/hookups/{kept.key}/draw/"
    assert (kept.house, kept.plan_opened, kept.house_version) == (shed, False, 1)
    hookup = opened_hookup(kept).sound()
    assert {device.name for device in hookup.devices} >= {"workroom switch", "workroom light"}
    assert judge(hookup, mend=False).works
    text = page(desk.get(f"/hookups/{kept.key}/draw/"))
    assert not [join for join in hookup.joins if str(join) in text]


def test_a_group_that_was_taken_leads_to_its_bench_and_is_not_kept_twice(desk, taken):
    desk.post(f"{E1}take/", GROUP)
    assert KeptHookup.objects.get().versions.count() == 1
    row = page(desk.get(E1)).split("<tbody")[1].split("</tbody")[0]
    assert f'href="/hookups/{taken.key}/draw/"' in row
    assert "<form" not in row


def test_a_crew_draws_a_group_of_the_house_at_the_bench(desk, taken):
    from django.test import Client

    desk.post(f"/hookups/{taken.key}/crews/", {"do": "open"})
    taken.refresh_from_db()
    crew = Client()
    crew.post("/bench/", {"code": taken.bench_code, "name": "Reds"})
    text = page(crew.get("/bench/draw/"))
    assert "workroom switches at shed door" in text
    assert not [join for join in opened_hookup(taken).sound().joins if str(join) in text]


@pytest.mark.parametrize(("text", "said"), [(WIDER, "planned otherwise"), (SAME, "planned the same")])
def test_a_newer_house_file_makes_the_kept_one_older_and_says_whether_it_matters(
    desk, shed, taken, text, said
):
    changed(shed, text)
    sheet = page(desk.get(E1))
    assert "Kept from version 1 of the house file, which is older." in sheet
    assert f"This version is {said}." in sheet
    for part in ("", "judge/", "draw/", "plan/"):
        assert "It was taken from version 1 of the house file; version 2 is in force." in page(
            desk.get(f"/hookups/{taken.key}/{part}")
        )


def test_taken_again_it_is_the_next_version_of_the_same_hookup_and_sealed_again(desk, shed, taken):
    changed(shed, WIDER)
    desk.post(f"/hookups/{taken.key}/plan/", {"do": "open"})
    before = taken.newest.text
    desk.post(f"{E1}take/", GROUP)
    taken.refresh_from_db()
    assert (taken.house_version, taken.plan_opened, taken.versions.count()) == (2, False, 2)
    assert (taken.newest.text != before, taken.newest.note) == (True, "from version 2 of the house file")
    assert "which is older" not in page(desk.get(E1))
    assert "is in force" not in page(desk.get(f"/hookups/{taken.key}/"))


def test_what_was_drawn_stays_when_the_group_is_taken_again(desk, shed, taken):
    bench = f"/hookups/{taken.key}/draw/"
    for wire in ("feed", "N1"):
        box = opened_hookup(taken).sound().feed.box
        desk.post(bench, {"tap": f"{box}|{wire}|white"})
    assert "feed white + N1 white" in page(desk.get(bench))
    changed(shed, WIDER)
    desk.post(f"{E1}take/", GROUP)
    assert "feed white + N1 white" in page(desk.get(bench))


def test_taken_again_where_nothing_changed_no_version_is_added_and_the_plan_stays_open(desk, shed, taken):
    changed(shed, SAME)
    desk.post(f"/hookups/{taken.key}/plan/", {"do": "open"})
    desk.post(f"{E1}take/", GROUP)
    taken.refresh_from_db()
    assert (taken.house_version, taken.plan_opened, taken.versions.count()) == (2, True, 1)


def test_an_older_version_looked_at_makes_nothing_older(desk, shed, taken):
    changed(shed, WIDER)
    desk.post(f"{E1}take/", GROUP)
    assert "which is older" not in page(desk.get(f"{E1}?version=1"))
    desk.post(f"{E1}take/?version=1", GROUP)
    assert KeptHookup.objects.get().house_version == 2


def test_given_to_no_house_it_is_taken_from_none_any_more(desk, shed, taken):
    desk.post(f"/hookups/{taken.key}/versions/", {"house": ""})
    changed(shed, WIDER)
    assert "house file" not in page(desk.get(f"/hookups/{taken.key}/"))
    assert 'value="workroom light"' in page(desk.get(E1))


def test_a_group_that_is_none_is_not_found_and_nothing_is_kept(desk, shed):
    for group in ("attic light", "", "x" * 5000):
        assert desk.post(f"{E1}take/", {"group": group}).status_code == 404
    assert not KeptHookup.objects.exists()


def test_a_house_with_problems_keeps_its_sheet_and_says_why_no_groups_stand_on_it(desk, shed, taken):
    changed(shed, demo_text("shed").replace("wall: south wall", "wall: sooth wall"))
    text = page(desk.get(E1))
    assert "its circuits cannot be worked out" in text
    assert f'href="/hookups/{taken.key}/"' in text
    assert desk.post(f"{E1}take/", GROUP).headers["Location"].startswith("/houses/practice-shed/file/")


def test_a_hookup_brought_in_otherwise_is_never_older(desk, shed):
    desk.post("/hookups/new/?house=practice-shed", {"text": HALL})
    changed(shed, WIDER)
    assert "house file; version" not in page(desk.get(f"/hookups/{KeptHookup.objects.get().key}/"))


def test_the_sheet_speaks_spanish(desk, shed, taken):
    changed(shed, WIDER)
    desk.post("/language/", {"language": "es"})
    text = page(desk.get(E1))
    assert "Tomarla como está ahora" in text
    assert "Guardada de la versión 1 del archivo de la casa, que es anterior." in text


# ---- what the instructor sees while the plan is sealed


def folds(text):
    return '<details class="sealed-joins">' in text, '<details class="sealed-joins" open>' in text


def test_kept_joins_are_folded_while_the_plan_is_sealed(desk, hall):
    here = "/hookups/hall-light/"
    assert folds(page(desk.get(here))) == (True, False)
    assert folds(page(desk.get(f"{here}?at=10"))) == (False, True), "a flip without scripts keeps them open"
    for sheet in ("judge/", "file/"):
        assert "comes from the kept joins" in page(desk.get(f"{here}{sheet}"))
    desk.post(f"{here}plan/", {"do": "open"})
    assert folds(page(desk.get(here))) == (False, False)
    assert "comes from the kept joins" not in page(desk.get(f"{here}judge/"))
