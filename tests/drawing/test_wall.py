from collections import Counter

import pytest

from setday.drawing import wall_elevation, wall_table
from setday.house import MemberKind
from tests.drawing.every import link
from tests.drawing.houses import tiny_house
from tests.drawing.reading import SVG, lettering_of, root_of, texts_of

WALL = tiny_house().wall("south")


@pytest.mark.parametrize("side", ["left", "right"])
def test_every_member_is_drawn_once(side):
    svg = wall_elevation(WALL, side=side)
    drawn = Counter(e.get("data-id") for e in root_of(svg).iter() if e.get("data-kind") == "member")
    assert drawn == Counter(str(member.kind) for member in WALL.members)


def test_from_the_left_the_start_is_at_the_right():
    places = {}
    for side in ("left", "right"):
        names = {
            lettered.text: lettered.box.left for lettered in lettering_of(wall_elevation(WALL, side=side))
        }
        places[side] = (names["front door"], names["wide window"])
    assert places["right"][0] < places["right"][1]
    assert places["left"][0] > places["left"][1]


@pytest.mark.parametrize("side", ["left", "right"])
def test_tape_readings_run_from_the_start_on_both_sides(side):
    texts = texts_of(wall_elevation(WALL, side=side))
    assert '15 1/4"' in texts
    assert '310 1/2"' in texts


def test_openings_carry_their_rough_size():
    assert "5'-0\" x 4'-0\"" in texts_of(wall_elevation(WALL))


def test_marks_under_the_plate_are_explained():
    texts = " ".join(texts_of(wall_elevation(WALL)))
    assert "X stud, E end stud, K king stud, J jack stud, C cripple" in texts


def test_surfaces_of_this_side_only_are_links():
    house = tiny_house()
    for side, wanted in (("left", {"/surface/bedroom/south?a=1&b=2"}), ("right", set())):
        svg = wall_elevation(WALL, side=side, surfaces=house.surfaces, link=link)
        assert {a.get("href") for a in root_of(svg).iter(f"{SVG}a")} == wanted


def test_the_table_has_every_member_with_its_length():
    table = wall_table(WALL)
    assert len(table.rows) == len(WALL.members)
    lengths = {row[1]: row[4] for row in table.rows}
    assert lengths[str(MemberKind.STUD)] == '92 5/8"'
