"""How doors are taken to hang: common practice, no source."""

import pytest

from setday.house import build_house, hung
from tests.house.sketches import at, ceiling, door, house, ring, room, wall


def with_door(distance):
    """Two rooms with a wall across; its door stands so far from the wall's south end."""
    across = wall("across", at("14'", '5.5"'), at("14'", "11'-6 1/2\""), kind="partition")
    return build_house(
        house(
            (*ring("24'", "12'"), across),
            openings=(door("front", "south", "4'", "west"), door("inner", "across", distance, "south")),
            rooms=(room("big", "6'", "6'"), room("small", "20'", "6'")),
            ceilings=(ceiling("big"), ceiling("small")),
        )
    ).house


@pytest.mark.parametrize(("distance", "at_start"), [('6"', True), ("6'", False)])
def test_a_door_opens_against_the_nearer_wall_of_the_room(distance, at_start):
    made = with_door(distance)
    inner = made.wall("across")
    assert hung(made, inner, inner.openings[0]).hinge_at_start is at_start


def test_a_door_swings_into_the_smaller_room():
    made = with_door("2'")
    inner = made.wall("across")
    assert made.room("small").area < made.room("big").area
    assert hung(made, inner, inner.openings[0]).side == "right"


def test_an_outside_door_swings_in():
    made = with_door("2'")
    south = made.wall("south")
    assert hung(made, south, south.openings[0]).side == "left"
