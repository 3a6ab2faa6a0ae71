"""Runs without a way: the sentence names what blocks, and what would open one."""

from dataclasses import replace

from setday.cable import PANEL, route_cables
from setday.house import TypedReserve, Wiring
from tests.cable.routed import built, feed, inches, on_ceiling, on_wall, passages, plain_shed, wired
from tests.house.sketches import at, ceiling, door, house, ring, room


def sentence(home, start: str, end: str, **local: str) -> str:
    outcome = route_cables(passages(home, **local), [feed(start, end)])
    assert outcome.runs == ()
    assert len(outcome.findings) == 1
    return str(outcome.findings[0])


def two_boxes(**more: object):
    shed = plain_shed(**more)
    return shed, [on_wall(shed, "a", "south", 30, 16), on_wall(shed, "b", "north", 30, 16)]


def test_a_box_in_a_closed_wall_names_the_wall():
    shed, boxes = two_boxes()
    said = sentence(wired(shed, boxes, closed=("north",)), "a", "b")
    assert "box 'b' stands in wall 'north', which is to take no cable" in said
    assert "Take 'north' off the closed walls" in said


def test_a_box_in_a_header_names_the_opening():
    shed = built(
        house(
            ring("16'", "12'"),
            openings=(door("front", "south", "6'", "west"),),
            rooms=(room("shop", "8'", "6'"),),
            ceilings=(ceiling("shop"),),
        )
    )
    opening = shed.wall("south").openings[0]
    middle = (opening.along + opening.width // 2).inches
    home = wired(shed, [on_wall(shed, "a", "north", 30, 16), on_wall(shed, "b", "south", middle, 86)])
    assert "box 'b' stands inside the header of 'front'" in sentence(home, "a", "b")


def test_a_light_over_a_hatch_that_fills_the_room_is_told():
    shed, boxes = two_boxes()
    home = wired(shed, [*boxes, on_ceiling("light", 400, 72)])
    assert "box 'light' stands over no room" in sentence(home, "a", "light")


def test_a_reserved_space_across_the_only_way_is_named_with_the_way_it_would_open():
    # The north wall is taken from side to side over box b; under it is less room than these rules ask for.
    chase = TypedReserve(
        name="chase",
        trade="plumber",
        corner=at("0'", "11'"),
        east=inches(192),
        north=inches(12),
        bottom=inches(13),
        top=inches(96),
    )
    shed, boxes = two_boxes(reserves=(chase,))
    low = on_wall(shed, "low", "north", 30, 8)
    said = sentence(wired(shed, [*boxes, low]), "a", "low", least_gap='12"')
    assert "the space reserved for 'chase' stands in between" in said
    assert "That opens a way of" in said


def test_without_a_panel_the_home_run_says_what_is_missing():
    shed, boxes = two_boxes()
    home = replace(wired(shed, boxes), wiring=Wiring())
    assert "the panel has no place" in sentence(home, PANEL, "a")


def test_a_run_to_a_box_that_does_not_exist_is_told():
    shed, boxes = two_boxes()
    assert "there is no box 'c'" in sentence(wired(shed, boxes), "a", "c")


def test_every_run_without_a_way_is_told_at_once():
    shed, boxes = two_boxes()
    home = wired(shed, boxes, closed=("north", "south"))
    cables = [feed("a", "b", number="1-1"), feed("a", "x", number="1-2"), feed(PANEL, "b", number="1-3")]
    outcome = route_cables(passages(home), cables)
    assert sorted(finding.about for finding in outcome.findings) == ["run 1-1", "run 1-2", "run 1-3"]
