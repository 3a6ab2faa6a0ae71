"""The demo houses make sense as houses, worked out without the reader's or the core's own geometry."""

import networkx as nx
import pytest
from shapely import Point as Spot
from shapely import Polygon, box, unary_union

from setday.files import HouseFile
from setday.house import House, OpeningKind, TypedWall, WallLine, build_house
from tests.files.typed import HOUSE, SHED, read
from tests.house.uprights import in_each_other

FILES = {"shed": read(SHED), "house": read(HOUSE)}


def built(file: HouseFile) -> House:
    """Return the house of a file."""
    house = build_house(file.description).house
    assert house is not None
    return house


def strip(wall: TypedWall, depth: float) -> Polygon:
    """Return a wall's framing on the plan, from its two points alone [in]."""
    x0, y0, x1, y1 = (v.inches for p in (wall.start, wall.end) for v in (p.x, p.y))
    left = {WallLine.LEFT: 0.0, WallLine.CENTER: depth / 2, WallLine.RIGHT: depth}[wall.line]
    dx, dy = (x1 > x0) - (x1 < x0), (y1 > y0) - (y1 < y0)
    near, far = left, left - depth
    return box(
        *sorted((x0 - dy * near, x1 - dy * far))[:1],
        *sorted((y0 + dx * near, y1 + dx * far))[:1],
        *sorted((x0 - dy * near, x1 - dy * far))[1:],
        *sorted((y0 + dx * near, y1 + dx * far))[1:],
    )


def spaces(file: HouseFile) -> list[Polygon]:
    """Return the spaces the walls leave inside the house."""
    depths = {kind.name: kind.depth.inches for kind in file.description.kinds}
    framing = unary_union([strip(wall, depths[wall.kind]) for wall in file.description.walls])
    inside = box(*framing.bounds).difference(framing)
    return list(getattr(inside, "geoms", [inside]))


@pytest.mark.parametrize("name", FILES)
def test_a_demo_house_has_no_findings_at_all(name):
    assert FILES[name].findings == ()
    assert build_house(FILES[name].description).findings == ()


@pytest.mark.parametrize("name", FILES)
def test_every_space_is_one_room_and_every_room_a_space(name):
    file = FILES[name]
    at = [Spot(room.at.x.inches, room.at.y.inches) for room in file.description.rooms]
    held = [[n for n, spot in enumerate(at) if space.contains(spot)] for space in spaces(file)]
    assert sorted(held) == [[n] for n in range(len(at))]


@pytest.mark.parametrize("name", FILES)
def test_the_rooms_are_as_large_as_the_spaces_between_the_walls(name):
    expected = sorted(space.area / 144 for space in spaces(FILES[name]))
    assert sorted(room.area.sqft for room in built(FILES[name]).rooms) == pytest.approx(expected, abs=0.01)


def test_the_house_is_about_1150_square_feet():
    inner = unary_union(spaces(FILES["house"])).bounds
    wide, deep = inner[2] - inner[0] + 2 * 5.5, inner[3] - inner[1] + 2 * 5.5
    assert wide * deep / 144 == pytest.approx(1150, abs=5)


def leads_to(house: House) -> nx.Graph:
    """Return which room opens into which, and into the open."""
    ways = {OpeningKind.DOOR.value, OpeningKind.CASED.value}
    seen: dict[str, list[str]] = {}
    for surface in house.surfaces:
        for opening in surface.openings:
            if opening.kind in ways:
                seen.setdefault(opening.name, []).append(surface.room)
    return nx.Graph([(*rooms, "outdoors")[:2] for rooms in seen.values()])


@pytest.mark.parametrize("name", FILES)
def test_every_room_can_be_walked_to_from_outdoors(name):
    house = built(FILES[name])
    graph = leads_to(house)
    assert {room.name for room in house.rooms} | {"outdoors"} == set(graph.nodes)
    assert nx.is_connected(graph)


def test_every_bedroom_has_a_window_and_a_closet():
    house = built(FILES["house"])
    graph = leads_to(house)
    use = {room.name: room.use for room in house.rooms}
    for bedroom in (name for name, what in use.items() if what == "bedroom"):
        windows = [o for s in house.surfaces if s.room == bedroom for o in s.openings if o.kind == "window"]
        assert windows
        assert [room for room in graph[bedroom] if use.get(room) == "closet"]


def test_the_house_has_what_the_first_lessons_need():
    said = FILES["house"].description
    assert len([room for room in said.rooms if room.use == "bedroom"]) == 2
    assert [ceiling.room for ceiling in said.ceilings if ceiling.rise] == ["living"]
    assert "wet wall" in {wall.kind for wall in said.walls}
    assert said.floor_holes
    assert said.hatches
    assert said.drops
    assert said.reserves
    assert {wet.board for wet in said.wets} == {"none"}


def test_the_shed_is_one_room():
    assert [room.name for room in FILES["shed"].description.rooms] == ["workroom"]


@pytest.mark.parametrize("name", FILES)
def test_no_two_uprights_of_a_demo_house_stand_in_each_other(name):
    assert in_each_other(built(FILES[name])) == []
