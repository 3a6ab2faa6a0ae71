"""Ways through the framing: as long as an independent search says, and as figured by hand."""

from itertools import combinations, pairwise
from math import hypot

import networkx as nx
import pytest

from setday.actions.cable.devices import propose_for
from setday.actions.houses import demo_text, open_house
from setday.cable import PANEL, Medium, route_cables
from setday.house import Axis, CeilingShape, Mount
from tests.cable import lattice
from tests.cable.routed import (
    built,
    drawn,
    feed,
    inches,
    on_ceiling,
    on_wall,
    passages,
    plain_shed,
    wired,
)
from tests.house.sketches import ceiling, door, house, ring, room


@pytest.mark.parametrize("seed", range(8))
def test_every_length_equals_a_search_on_a_fine_lattice(seed):
    home = drawn(seed)
    ways = passages(home)
    inside, below = lattice.net(home, below=False), lattice.net(home, below=True)
    names = [stop.name for stop in ways.stops if stop.name in ways.net.stops]
    wrong = []
    for first in names:
        net = below if first == PANEL else inside
        best = nx.single_source_dijkstra_path_length(net, lattice.place(home, first))
        for last in names:
            far = best[lattice.place(home, last)] if PANEL not in (first, last) or first == PANEL else None
            ours = ways.length(first, last)
            if far is not None and (ours is None or ours.sixtyfourths != far):
                wrong.append((first, last, ours, far / 64))
    assert wrong == []


def by_hand():
    """Ways in a shed of 16 x 12 ft, figured by hand: boxes at 16 in, the line of holes at 24 in."""
    shed = plain_shed()
    a, b = on_wall(shed, "a", "south", 24, 16), on_wall(shed, "b", "south", 96, 16)
    round_corner = on_wall(shed, "c", "east", 40, 16)
    light = on_ceiling("d", 96, 72)
    return wired(shed, [a, b, round_corner, light]), [
        ("a", "b", 8 + 72 + 8),  # up to the holes, 72 in along, down
        # The east wall stands between the faces of south and north (5-1/2 in deep): its framing starts at
        # 5-1/2 in, and the middles cross 2-3/4 in before that, 2-3/4 in from the south wall's end.
        ("b", "c", 8 + (192 - 2.75 - 96) + 2.75 + 40 + 8),
        # Up from 16 in to the top of the plates, then to the light over the middle of the room; the
        # middle of the south wall lies 2-3/4 in north of its outer face.
        ("b", "d", (97.125 - 16) + (72 - 2.75)),
        # Home run from the southwest corner: 6 in under the floor, along to the box, up to it.
        (PANEL, "a", 24 + 2.75 + 6 + 16),
    ]


@pytest.mark.parametrize("number", range(4))
def test_a_way_is_as_long_as_its_straight_parts_together(number):  # check E51
    home, cases = by_hand()
    start, end, expected = cases[number]
    assert passages(home).length(start, end) == inches(expected)


def test_the_points_of_a_way_are_as_far_apart_as_the_way_is_long():
    for seed in range(6):
        ways = passages(drawn(seed))
        for stop in ways.stops[1:]:
            points = ways.way(ways.stops[0].name, stop.name)
            if points is None:
                continue
            walked = sum(
                abs(a.plan.x - b.plan.x).sixtyfourths
                + abs(a.plan.y - b.plan.y).sixtyfourths
                + abs(a.up - b.up).sixtyfourths
                for a, b in pairwise(points)
            )
            assert walked == ways.length(ways.stops[0].name, stop.name).sixtyfourths


def beside_a_door(**header: object):
    """A shed with a door in its south wall and a box on each side of it, 48 in up."""
    description = house(
        ring("16'", "12'"),
        openings=(door("front", "south", "6'", "west", **header),),
        rooms=(room("shop", "8'", "6'"),),
        ceilings=(ceiling("shop"),),
    )
    shed = built(description)
    opening = shed.wall("south").openings[0]
    left, right = opening.along.inches, (opening.along + opening.width).inches
    return wired(
        shed, [on_wall(shed, "a", "south", left - 20, 48), on_wall(shed, "b", "south", right + 20, 48)]
    )


def test_a_door_is_passed_over_its_head():
    home = beside_a_door(header_depth=inches(1.5))
    run = route_cables(passages(home), [feed("a", "b")]).runs[0]
    assert any("over 'front'" in said for said in run.passes)
    assert all(point.medium is Medium.WALL for point in run.points)


def test_where_the_header_fills_the_wall_the_way_goes_over_the_ceiling():
    home = beside_a_door()  # a bearing wall: its header is 9-1/4 in deep
    opening = home.wall("south").openings[0]
    ways = passages(home)
    assert {point.medium for point in ways.way("a", "b")} == {Medium.WALL, Medium.CEILING}
    across = opening.width.inches + 40
    assert ways.length("a", "b") == inches(across + 2 * (97.125 - 48))


def test_home_runs_go_down_through_the_floor_and_others_stay_inside():
    home, _ = by_hand()
    ways = passages(home)
    assert any(point.medium is Medium.FLOOR for point in ways.way(PANEL, "b"))
    assert not any(point.medium is Medium.FLOOR for point in ways.way("a", "c"))


def test_over_a_slab_home_runs_come_down_from_the_ceiling():
    home, _ = by_hand()
    ways = passages(home, under_floor="never")
    points = ways.way(PANEL, "b")
    assert points is not None
    assert all(point.up.sixtyfourths >= 0 for point in points)


def test_a_way_reads_the_same_from_both_ends():
    ways = passages(drawn(3))
    names = list(ways.net.stops)
    assert all((ways.way(p, q) or ())[::-1] == (ways.way(q, p) or ()) for p, q in combinations(names, 2))


def under_a_ridge(rise: int):
    """A shed of 16 x 12 ft whose ceiling rises from both long walls to a ridge over its middle."""
    over = ceiling(
        "shop", shape=CeilingShape.VAULT, rise=inches(rise), ridge_runs=Axis.EAST_WEST, ridge_at=inches(72)
    )
    shed = built(house(ring("16'", "12'"), rooms=(room("shop", "8'", "6'"),), ceilings=(over,)))
    top = 97.125 + (72 - 5.5) * rise / 12
    light, low = on_ceiling("light", 96, 72, up=top), on_ceiling("low", 96, 40, up=97.125 + 34.5 * rise / 12)
    # The north wall runs west from the face of the east wall, 186-1/2 in east.
    boxes = [on_wall(shed, "a", "south", 96, 16), on_wall(shed, "b", "north", 90.5, 16)]
    return wired(shed, [*boxes, light, low])


@pytest.mark.parametrize("rise", [3, 5])
def test_over_a_sloping_ceiling_the_cable_follows_the_slope(rise):
    ways = passages(under_a_ridge(rise))
    # Up the wall, half of its thickness level, then up the slope over half of the room.
    expected = (97.125 - 16) + 2.75 + hypot(66.5, 66.5 * rise / 12)
    assert ways.length("a", "light").inches == pytest.approx(expected, abs=1 / 32)
    assert ways.length("light", "low").inches == pytest.approx(hypot(32, 32 * rise / 12), abs=1 / 32)


def test_from_wall_to_wall_a_way_goes_over_the_ridge_only_where_that_is_shorter():
    ways = passages(under_a_ridge(3))
    over = 2 * ((97.125 - 16) + 2.75 + hypot(66.5, 66.5 / 4))
    # The walls run on round the west end: 8 in up, along three walls' middles, 8 in down.
    round_the_end = 8 + (96 - 2.75) + (144 - 5.5) + (96 - 2.75) + 8
    assert ways.length("a", "b").inches == pytest.approx(min(over, round_the_end), abs=1 / 16)


def test_the_level_over_a_room_is_the_house_part_s_own():
    # The house part works out where ceiling devices hang; the scissors of the demo's living room among them.
    opened = open_house(demo_text("house"), name="house.yaml")
    home = propose_for(opened).house
    ways = passages(home)
    hung = [d for d in home.devices if d.typed.mount is Mount.CEILING]
    assert any(d.room == "living" for d in hung)
    for device in hung:
        points = ways.way(device.name, PANEL)
        assert points is not None
        assert points[0].up == device.height
        assert points[1].plan != points[0].plan, "nothing climbs where the light hangs on the framing"
