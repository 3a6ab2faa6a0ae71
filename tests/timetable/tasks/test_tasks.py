"""Kinds of work, zones of rooms, and small work done together."""

import pytest

from setday.actions import demo_text, open_house
from setday.timetable.tasks import After, Work, bundled, kinds_of_work, timetable_rules, zones_of


def work(key, *after, minutes=30, **changes):
    given = {"key": key, "label": f"Pull circuit {key}", "trade": "cable", "kind": "pull", "place": "house"}
    waits = tuple(After(key=each) for each in after)
    return Work(**(given | {"minutes": minutes, "crew_least": 2, "after": waits} | changes))


@pytest.mark.parametrize("kind", sorted(kinds_of_work()))
def test_every_kind_of_work_tells_a_crew_all_it_needs(kind):
    told = kinds_of_work()[kind]
    assert all((told.figure_first, told.steps, told.tools, told.cautions, told.signs))


def test_nobody_sands_beside_paint():
    assert "painting" in kinds_of_work()["sand"].clashes


def test_closets_and_hallways_go_with_the_room_they_open_to():
    zones = zones_of(open_house(demo_text("wired"), name="wired").built(), rules=timetable_rules())
    assert ("south bedroom", "south closet") in [zone.rooms for zone in zones]


def test_every_room_is_in_one_zone():
    house = open_house(demo_text("wired"), name="wired").built()
    zones = zones_of(house, rules=timetable_rules())
    assert sorted(room for zone in zones for room in zone.rooms) == sorted(room.name for room in house.rooms)


def test_small_work_is_done_together_until_it_fills_a_crew():
    made = bundled([work("1"), work("2"), work("3", minutes=70), work("4", minutes=70)], least_minutes=30)
    assert [(each.key, each.minutes, each.parts) for each in made] == [
        ("1 +1", 60, ("1", "2")),
        ("3", 70, ("3",)),
        ("4", 70, ("4",)),
    ]


def test_a_small_rest_goes_with_the_last_of_its_like():
    made = bundled([work("1", minutes=70), work("2")], least_minutes=30)
    assert [(each.key, each.minutes) for each in made] == [("1 +1", 100)]


def test_what_stays_alone_is_not_bundled():
    assert len(bundled([work("1"), work("2")], least_minutes=30, alone=frozenset({"1", "2"}))) == 2


def test_who_waits_for_one_of_a_bundle_waits_for_the_bundle():
    made = bundled([work("1"), work("2"), work("after", "2", minutes=600, kind="make-up")], least_minutes=30)
    assert made[-1].after == (After(key="1 +1"),)


def test_the_label_of_a_bundle_names_each_once():
    assert bundled([work("1"), work("2")], least_minutes=30)[0].label == "Pull circuit 1; 2"


@pytest.mark.parametrize("different", [{"place": "bath"}, {"trade": "pipe"}, {"signoffs": ("saw",)}])
def test_only_what_is_alike_is_done_together(different):
    assert len(bundled([work("1"), work("2", **different)], least_minutes=30)) == 2


@pytest.mark.parametrize(("done", "left"), [(0.0, 60), (0.5, 30), (0.999, 1), (1.0, 0)])
def test_what_is_left_of_a_work(done, left):
    assert work("1", minutes=60, done=done).left == left
