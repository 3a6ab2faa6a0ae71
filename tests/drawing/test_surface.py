from setday.drawing import surface_elevation, surface_table
from tests.drawing.every import link
from tests.drawing.houses import tiny_house
from tests.drawing.reading import SVG, root_of, texts_of

SURFACE = tiny_house().surfaces[0]


def test_openings_and_wet_areas_are_named():
    texts = texts_of(surface_elevation(SURFACE))
    assert {"wide window", "tub", "no board"} <= set(texts)


def test_a_center_line_for_every_member_behind():
    lines = [e for e in root_of(surface_elevation(SURFACE)).iter(f"{SVG}line") if e.get("stroke-dasharray")]
    assert len(lines) == len(SURFACE.backing)


def test_members_are_dimensioned_in_inches():
    assert texts_of(surface_elevation(SURFACE)).count('16"') == 2


def test_members_can_be_left_out():
    svg = surface_elevation(SURFACE, members=False)
    assert not [e for e in root_of(svg).iter(f"{SVG}line") if e.get("stroke-dasharray")]


def test_its_walls_are_links():
    svg = surface_elevation(SURFACE, link=link)
    assert [a.get("href") for a in root_of(svg).iter(f"{SVG}a")] == ["/wall/south?a=1&b=2"]


def test_the_table_runs_from_left_to_right_with_everything():
    table = surface_table(SURFACE)
    assert len(table.rows) == len(SURFACE.openings) + len(SURFACE.wet) + len(SURFACE.backing)
    assert table.rows[0][2] == '3/4"'
    assert table.rows[-1][2] == "10'-6\""


def test_a_ceiling_says_where_north_is_when_seen_from_below():
    ceiling = next(surface for surface in tiny_house().surfaces if surface.id == "bedroom/ceiling")
    assert any("Up is north, right is west." in text for text in texts_of(surface_elevation(ceiling)))
