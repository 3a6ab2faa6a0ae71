"""Where walls stand that were walked or taped, worked out by hand."""

import pytest
from hypothesis import given, settings

from setday.house import Point, WallLine, build_house
from setday.measure import Length, parse_length
from tests.files.typed import HOUSE, PLAIN, changed, line_of, read
from tests.strategies import FOOT, lengths

DEPTH = parse_length('3 1/2"')
OUTSIDE = parse_length('5 1/2"')


def wall(text: str, name: str):
    """Return one typed wall of a file that has no findings."""
    file = read(text)
    assert file.findings == ()
    return next(each for each in file.description.walls if each.name == name)


def feet(x: float, y: float) -> Point:
    """Return a plan point in feet."""
    return Point(x=Length(round(x * FOOT)), y=Length(round(y * FOOT)))


def test_a_walk_goes_from_corner_to_corner():
    corners = [(each.start, each.end) for each in read(PLAIN).description.walls[:4]]
    points = [feet(0, 0), feet(24, 0), feet(24, 16), feet(0, 16)]
    assert corners == list(zip(points, [*points[1:], points[0]], strict=True))


@pytest.mark.parametrize(
    ("line", "clockwise", "expected"),
    [
        ("outside face", False, WallLine.RIGHT),
        ("inside face", False, WallLine.LEFT),
        ("outside face", True, WallLine.LEFT),
        ("inside face", True, WallLine.RIGHT),
        ("center", True, WallLine.CENTER),
    ],
)
def test_the_line_walked_has_the_framing_on_the_right_side(line, clockwise, expected):
    text = changed("  walk:\n", f"  line: {line}\n  walk:\n")
    if clockwise:
        text = text.replace("north 16'", "south 16'", 1).replace("west: south 16'", "west: north 16'")
    text = text[: text.index("walls:\n  middle")]
    assert {each.line for each in read(text).description.walls} == {expected}


def test_the_demo_house_comes_out_as_drawn_on_paper():
    # From the plan: the west faces, from zero, worked out with pencil and paper.
    expected = {
        "living wall": "28'-7\"",  # 43'-6" - 5 1/2" - 14'-2" - 3 1/2"
        "wet wall": "20'-0\"",  # 28'-7" - 8'-1 1/2" - 5 1/2"
        "bath wall": "14'-8\"",  # 20'-0" - 5'-0 1/2" - 3 1/2"
        "entry wall": "24'-6\"",  # 5 1/2" + 14'-7 1/2" + 3 1/2" + 5'-6 1/2" + 3 1/2" + 3'-3 1/2"
    }
    walls = {each.name: each for each in read(HOUSE).description.walls}
    west = {}
    for name in expected:
        at, deep = walls[name].start.x, OUTSIDE if name == "wet wall" else DEPTH
        west[name] = at if walls[name].line is WallLine.LEFT else at - deep
    assert {name: str(x) for name, x in west.items()} == {
        name: str(parse_length(x)) for name, x in expected.items()
    }


FACES = [
    # where the wall stands, its east face from zero [in]: 12' from the west wall's faces and middle
    ("west face: 12' east of west", 144 + 5.5 + 3.5),
    ("west face: 12' east of the far face of west", 144 + 3.5),
    ("west face: 12' east of the center of west", 144 + 2.75 + 3.5),
    ("east face: 12' east of west", 144 + 5.5),
    ("center: 12' east of west", 144 + 5.5 + 1.75),
    ("west face: 12' west of east", 288 - 5.5 - 144 + 3.5),
    ("east face: 12'", 144),
]


@pytest.mark.parametrize(("stands", "east_face"), FACES, ids=[row[0] for row in FACES])
def test_a_wall_stands_where_the_tape_says(stands, east_face):
    text = changed("west face: 12' east of west", stands)
    typed = wall(text, "middle wall")
    at = {WallLine.RIGHT: 0, WallLine.CENTER: 1.75, WallLine.LEFT: 3.5}[typed.line]
    assert typed.start.x.inches + at == east_face


ENDS = [
    ("from: south, to: north", 5.5, 186.5),
    ("from: south, length: 6'", 5.5, 77.5),
    ("from: 2' north of south, to: north", 29.5, 186.5),
    ("from: 4', to: 3' south of north", 48, 150.5),
]


@pytest.mark.parametrize(("ends", "low", "high"), ENDS, ids=[row[0] for row in ENDS])
def test_a_wall_runs_from_face_to_face(ends, low, high):
    typed = wall(changed("from: south, to: north", ends), "middle wall")
    assert (typed.start.y.inches, typed.end.y.inches) == (low, high)


@pytest.mark.parametrize("end", ["to: north, ", "to: north wall, ", "to: North, ", "to: the north wall, "])
def test_walls_are_found_by_the_names_people_use(end):
    assert wall(changed("to: north, ", end), "middle wall").end.y.inches == 186.5


def test_a_slanted_wall_goes_by_points_or_by_a_leg_on_the_compass():
    slanted = "corner wall: {from: [18', 0'], to: [24', 6'], line: left face}"
    text = changed("walls:\n  middle", f"walls:\n  {slanted}\n  middle")
    typed = wall(text, "corner wall")
    assert (typed.start, typed.end, typed.line) == (feet(18, 0), feet(24, 6), WallLine.LEFT)


def test_a_wall_that_meets_a_slanted_one_ends_in_its_framing():
    text = changed("walls:\n  middle", "walls:\n  corner wall: {from: [18', 0'], to: [24', 6']}\n  middle")
    short = "  short wall: {runs: east, from: middle wall, to: corner wall, center: 3'}\nopenings:\n"
    typed = wall(text.replace("openings:\n", short), "short wall")
    assert typed.end == feet(21, 3)


def test_a_walk_with_slanted_legs_closes():
    text = PLAIN.replace("east: north 16'", "east: north 12'\n    slant: northwest 5'-7 7/8\"")
    text = text.replace("north: west 24'", "north: west 20'")
    assert [str(each) for each in read(text).findings] == []
    assert read(text).description.walls[2].end == feet(20, 16)


def test_sizes_of_doors_and_windows_become_rough_openings():
    openings = {each.name: each for each in read(PLAIN).description.openings}
    sizes = {name: (str(each.width), str(each.height), str(each.sill)) for name, each in openings.items()}
    # 3'-0" + 2", 6'-8" + 2 1/2"; 4'-0" + 1/2", 3'-6" + 1/2", head at 6'-10 1/2"
    assert sizes["front door"] == ("3'-2\"", "6'-10 1/2\"", '0"')
    assert sizes["window"] == ("4'-0 1/2\"", "3'-6 1/2\"", "3'-4\"")


def test_four_figures_are_a_door_in_feet_and_inches():
    openings = read(changed("door: 3'-0\" x 6'-8\"", "door: 3068")).description.openings
    assert openings == read(PLAIN).description.openings


def test_a_rough_size_is_taken_as_it_is():
    opening = read(changed("door: 3'-0\" x 6'-8\"", "door: rough 3'-1\" x 6'-9\"")).description.openings[0]
    assert (str(opening.width), str(opening.height)) == ("3'-1\"", "6'-9\"")


@settings(max_examples=30)
@given(wide=lengths(10 * FOOT), deep=lengths(10 * FOOT), at=lengths(3 * FOOT, 6 * FOOT))
def test_rooms_and_the_wall_between_them_fill_the_house(wide, deep, at):
    text = PLAIN.replace("24'", str_exact(wide)).replace("16'", str_exact(deep))
    text = text.replace("west face: 12' east", f"west face: {str_exact(at)} east")
    text = text[: text.index("openings:")] + "rooms:\n  a: {at: [2', 2']}\n"
    built = build_house(read(text).readable)
    assert built.house is not None, [str(each) for each in built.findings]
    clear = deep - OUTSIDE * 2
    assert built.house.room("a").area.sqft == pytest.approx(at.feet * clear.feet, abs=0.01)


def str_exact(length: Length) -> str:
    """Write a length to the sixty-fourth."""
    return f'{length.exact_inches.__floor__()} {length.sixtyfourths % 64}/64"'.replace(' 0/64"', '"')


DEMO_AREAS = {
    # Clear sizes read off the plan, in feet and inches.
    "living": ("14'-2\"", "25'-7\""),
    "kitchen": ("8'-1 1/2\"", "11'-3\""),
    "bath": ("5'-0 1/2\"", "11'-3\""),
    "hall": ("17'-5\"", "3'-4\""),
    "south bedroom": ("14'-7 1/2\"", "10'-5\""),
    "stair": ("3'-3 1/2\"", "10'-5\""),
}


@pytest.mark.parametrize("room", DEMO_AREAS)
def test_rooms_of_the_demo_house_are_as_large_as_on_the_plan(room):
    house = build_house(read(HOUSE).description).house
    wide, deep = (parse_length(text) for text in DEMO_AREAS[room])
    assert house.room(room).area.sqft == pytest.approx(wide.feet * deep.feet, abs=0.001)


@pytest.mark.parametrize(
    "written",
    [
        "2'-6\" from middle wall going west",
        "2'-6\" west of middle wall",
        "2'-6\" west of the middle wall going west",
    ],
)
def test_the_way_the_tape_ran_along_a_wall_can_be_said_before_or_after(written):
    text = changed("5' from middle wall going west", written)
    (window,) = (o for o in read(text).description.openings if o.name == "window")
    assert (window.measured_from, window.going, window.distance.inches) == ("middle wall", "west", 30)


@pytest.mark.parametrize("written", ["3' west of middle wall going east", "3' west of west end"])
def test_a_tape_that_runs_two_ways_at_once_or_off_the_wall_is_a_slip(written):
    text = changed("5' from middle wall going west", written)
    assert [f.where.line for f in read(text).findings] == [line_of(text, written)]


@pytest.mark.parametrize(
    "written",
    [
        "at: 6' east, 7'-6\" north",
        "at: 7'-6\" north, 6' east",
        "at: 5'-6 1/2\" east of the west wall, 7' 0 1/2\" north of south",
    ],
)
def test_a_point_in_braces_is_read_over_its_comma(written):
    file = read(changed("at: [6', 6']", written))
    assert file.findings == ()
    west = next(room for room in file.description.rooms if room.name == "west room")
    assert west.at == Point(x=parse_length("6'"), y=parse_length("7'-6\""))
    assert west.use == "bedroom"


def test_only_the_two_halves_of_a_point_are_joined():
    assert read(changed("at: [6', 6']", "at: 6' east, 5' west")).description is None
    assert read(changed("at: [6', 6']", "at: 6' east, north")).description is None
