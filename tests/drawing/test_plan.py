from dataclasses import replace
from fractions import Fraction

import pytest

from setday.drawing import LANDSCAPE, LETTER, PHONE, Paper, opening_table, plan, plan_scale, room_table
from setday.measure import parse_length
from tests.drawing.every import link
from tests.drawing.houses import tiny_house
from tests.drawing.reading import SVG, root_of, size_of, texts_of


def marked(svg: str, kind: str) -> list[str]:
    return [element.get("data-id") for element in root_of(svg).iter() if element.get("data-kind") == kind]


def test_every_wall_and_room_is_marked_with_its_name():
    house, svg = tiny_house(), plan(tiny_house())
    assert sorted(marked(svg, "wall")) == sorted(wall.name for wall in house.walls)
    assert sorted(marked(svg, "room")) == sorted(room.name for room in house.rooms)


def test_every_opening_has_a_symbol_and_a_mark():
    house, svg = tiny_house(), plan(tiny_house())
    names = [opening.name for wall in house.walls for opening in wall.openings]
    assert sorted(marked(svg, "opening")) == sorted(names)
    assert {row[0] for row in opening_table(house).rows} <= set(texts_of(svg))


def test_walls_rooms_and_surfaces_are_links_a_keyboard_reaches():
    links = list(root_of(plan(tiny_house(), link=link)).iter(f"{SVG}a"))
    wanted = {"/wall/south?a=1&b=2", "/room/bedroom?a=1&b=2", "/surface/bedroom/south?a=1&b=2"}
    assert wanted <= {a.get("href") for a in links}
    assert all(a.get("aria-label") for a in links)


def test_ceilings_are_reached_by_the_arrows_of_their_framing():
    links = {a.get("href") for a in root_of(plan(tiny_house(), link=link)).iter(f"{SVG}a")}
    assert {"/surface/living/ceiling-north?a=1&b=2", "/surface/living/ceiling-south?a=1&b=2"} <= links


def test_a_thing_without_an_address_is_no_link():
    svg = plan(tiny_house(), link=lambda kind, name: "/room" if kind == "room" else None)
    assert {a.get("href") for a in root_of(svg).iter(f"{SVG}a")} == {"/room"}


@pytest.mark.parametrize(("paper", "words"), [(LETTER, '3/16" = 1\'-0"'), (LANDSCAPE, '3/16" = 1\'-0"')])
def test_a_printed_plan_is_to_an_architects_scale(paper, words):
    """26 ft at 3/16 in to the foot are 4-7/8 in of paper; at 1/4 in they leave no room for the chains."""
    scale = plan_scale(tiny_house(), paper=paper)
    assert scale.words == words
    assert f"Scale {words}" in texts_of(plan(tiny_house(), paper=paper))


def test_a_solid_wall_is_as_long_as_its_scale_says():
    """The south wall is 312 in; at 3/16 in to the foot that is 4.875 in of 96 units."""
    groups = [e for e in root_of(plan(tiny_house())).iter(f"{SVG}g") if e.get("data-id") == "south"]
    xs = [float(p.split(",")[0]) for g in groups for shape in g for p in shape.get("points", "").split()]
    assert max(xs) - min(xs) == pytest.approx(312 / 12 * 3 / 16 * 96, abs=0.02)


@pytest.mark.parametrize("paper", [LETTER, LANDSCAPE, PHONE])
def test_a_plan_stays_on_its_paper(paper):
    width, height = size_of(plan(tiny_house(), paper=paper))
    assert width <= paper.width + 1
    assert height <= paper.height + 1


def test_the_chain_of_openings_adds_up_to_the_house():
    texts = texts_of(plan(tiny_house()))
    chain = [parse_length(text) for text in texts if text in {"4'-11 1/4\"", "15'-0 3/4\"", "6'-0\""}]
    south = {parse_length(t).inches for t in ("4'-11 1/4\"", "15'-0 3/4\"", "6'-0\"")}
    assert sum(south) == 312
    assert south <= {length.inches for length in chain}


def test_rooms_too_small_for_their_words_are_in_the_key():
    words = texts_of(plan(tiny_house(), paper=Paper(width=250, height=1200, to_scale=False)))
    assert any(text.endswith("26.3 ft2") and "= linen & coats" in text for text in words)


@pytest.mark.parametrize("words", ["ridge 10'-0 1/4\"", "stair hole", "soffit", 'framing 24" o.c.'])
def test_what_hangs_above_and_opens_below_is_named(words):
    assert words in texts_of(plan(tiny_house()))


def test_the_plan_says_that_door_swings_are_by_convention():
    assert any("swings are drawn by convention" in text for text in texts_of(plan(tiny_house())))


def test_the_table_of_rooms_has_every_room():
    house = tiny_house()
    assert [row[0] for row in room_table(house).rows] == [room.name for room in house.rooms]
    assert room_table(house).rows[1][1] == "10'-6 3/4\" x 9'-6 3/4\""


@pytest.mark.parametrize(
    ("beyond", "into_it"),
    [("hall", False), ("stair", False), ("closet", False), ("living", True)],
)
def test_a_door_never_swings_into_a_hall_or_a_closet(beyond, into_it):
    """The bedroom door stands between the bedroom and a smaller room of that use."""
    from setday.drawing.plan_walls import WallOnPlan, _swing_side
    from tests.drawing.houses import inch

    house = tiny_house()
    living, bedroom, *rest = house.rooms
    living = replace(living, use=beyond, area=bedroom.area * Fraction(1, 2))
    on_plan = WallOnPlan(wall=house.wall("middle"), sight=None)
    opening = house.wall("middle").openings[0]
    side = _swing_side(on_plan, opening, replace(house, rooms=(living, bedroom, *rest)))
    x, _ = on_plan.plan_at((opening.along + opening.width // 2).inches, side * (on_plan.half + 2))
    assert (inch(x) < inch(180)) is into_it
