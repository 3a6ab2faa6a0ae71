"""What is wrong with a house is found, all of it at once."""

from dataclasses import replace

import pytest

from setday.findings import Severity
from setday.house import HouseDescription, TypedWall, TypedWet, build_house
from setday.house.description import FloorHole, FramingChange, TypedDrop, TypedHatch, TypedReserve
from tests.house.sketches import at, ceiling, door, ft, house, ring, room, shed, two_rooms, wall, window


def found(description: HouseDescription) -> dict[str, str]:
    result = build_house(description)
    return {f.rule: str(f) for f in result.findings}


def _short_wall() -> HouseDescription:
    walls = shed().walls
    return replace(shed(), walls=(*walls[:3], replace(walls[3], start=at("0'", "11'-4\""))))


CASES: list[tuple[str, HouseDescription, str, str]] = [
    (
        "walls that do not meet",
        replace(
            two_rooms(),
            walls=(
                *two_rooms().walls[:4],
                wall("across", at("14'", '5.5"'), at("14'", "11'-2\""), kind="partition"),
            ),
        ),
        "house.walls-meet",
        "its end at (14'-0\" east, 11'-2\" north) stands 4 1/2\" away from wall 'north'",
    ),
    (
        "a room that leaks",
        replace(shed(), walls=(*shed().walls[:3], wall("west", at('2.75"', "12'"), at('2.75"', "5'")))),
        "house.room-leaks",
        "its walls do not close: there is a gap of about 4'-",
    ),
    (
        "a door wider than its wall",
        replace(shed(), openings=(door("d", "east", "0'", "south", width=ft("13'")),)),
        "house.opening-wider-than-wall",
        "it is 13'-0\" wide, and wall 'east' is",
    ),
    (
        "an opening past the end",
        replace(shed(), openings=(door("d", "south", "14'", "west"),)),
        "house.opening-off-wall",
        "it reaches 1'-2\" past the end of wall 'south'",
    ),
    (
        "overlapping openings",
        replace(shed(), openings=(door("d", "south", "4'", "west"), window("w", "south", "6'", "west"))),
        "house.openings-overlap",
        "it and opening 'd' overlap by 1'-2\"",
    ),
    (
        "two openings without room for the studs between them",
        replace(shed(), openings=(door("d", "south", "4'", "west"), window("w", "south", "7'-4\"", "west"))),
        "house.openings-near",
        "only 2\" is left between it and opening 'd' (line 20)",
    ),
    (
        "a stud built where another stands",
        replace(
            shed(),
            walls=(
                replace(shed().walls[0], changes=(FramingChange(do="add", member="stud", at=ft('17"')),)),
                *shed().walls[1:],
            ),
        ),
        "house.framing-overlap",
        'its stud at 1\'-5" reaches 1/2" into the stud at 1\'-4"',
    ),
    (
        "an opening above its wall",
        replace(shed(), openings=(window("w", "south", "6'", "west", sill=ft("7'")),)),
        "house.opening-above-wall",
        "its head is at 10'-6\", and wall 'south' is 8'-1 1/8\" high",
    ),
    (
        "an opening too near a corner for its studs",
        replace(shed(), openings=(door("d", "south", '1"', "west"),)),
        "house.opening-near-end",
        'only 1" of wall',
    ),
    (
        "a distance from nowhere",
        replace(shed(), openings=(door("d", "south", "4'", "north"),)),
        "house.opening-from",
        "'north' is neither an end of wall 'south' nor a wall that meets it",
    ),
    (
        "a tape that may run two ways",
        replace(two_rooms(), openings=(window("w", "north", "3'", "across"),)),
        "house.opening-way",
        "Write it like 3'-0\" from across going east or 3'-0\" from across going west.",
    ),
    (
        "an opening in no wall",
        replace(shed(), openings=(door("d", "sooth", "4'", "west"),)),
        "house.opening-wall",
        "there is no wall 'sooth'. Expected: one of: south, east, north, west.",
    ),
    (
        "a wall that ends in an opening",
        replace(two_rooms(), openings=(window("w", "north", "12'", "west"),)),
        "house.wall-in-opening",
        "wall 'across' ends in it",
    ),
    (
        "two rooms in one space",
        replace(shed(), rooms=(room("a", "3'", "3'"), room("b", "9'", "9'"))),
        "house.rooms-share",
        "it and room 'a' (line 30) are one space",
    ),
    (
        "two rooms of one name",
        replace(two_rooms(), rooms=(room("a", "3'", "3'"), room("a", "20'", "6'"))),
        "house.name-twice",
        "another room on line 30 has the same name",
    ),
    (
        "a room named inside a wall",
        replace(shed(), rooms=(room("a", "3'", '2"'),)),
        "house.room-point",
        "lies in a wall",
    ),
    (
        "a room named out in the yard",
        replace(shed(), rooms=(room("a", "60'", "60'"),)),
        "house.room-point",
        "lies outside the walls",
    ),
    (
        "a space without a name",
        replace(two_rooms(), rooms=(room("big", "6'", "6'"),)),
        "house.space-without-name",
        "a space of 104.1 ft2",
    ),
    ("a room without a ceiling", replace(shed(), ceilings=()), "house.ceiling-missing", "has no ceiling"),
    (
        "a ceiling for no room",
        replace(shed(), ceilings=(ceiling("shop"), ceiling("shopp"))),
        "house.room-unknown",
        "there is no room 'shopp'",
    ),
    (
        "a very low ceiling",
        replace(shed(), ceilings=(ceiling("shop", height=ft("5'")),)),
        "house.ceiling-low",
        "comes down to 5'-0\" above the subfloor",
    ),
    (
        "walls that cross in mid-run",
        replace(shed(), walls=(*shed().walls, wall("x", at("8'", "-3'"), at("8'", "4'"), kind="partition"))),
        "house.walls-clash",
        "cross each other in mid-run",
    ),
    (
        "walls in each other's place",
        replace(shed(), walls=(*shed().walls, wall("x", at("2'", '2"'), at("9'", '2"'), kind="partition"))),
        "house.walls-clash",
        "stand in each other's place",
    ),
    (
        "a kind that is not described",
        replace(shed(), walls=(*shed().walls[:3], replace(shed().walls[3], kind="log"))),
        "house.wall-kind",
        "its kind 'log' is not described",
    ),
    (
        "a wall shorter than it is thick",
        replace(shed(), walls=(*shed().walls, wall("x", at("8'", "4'"), at("8'", "4'")))),
        "house.wall-length",
        "shorter than it is thick",
    ),
    (
        "a wet stretch off its wall",
        replace(
            shed(),
            wets=(
                TypedWet(
                    name="tub",
                    wall="north",
                    room="shop",
                    measured_from="west",
                    distance=ft("12'"),
                    width=ft("5'"),
                    bottom=ft("0'"),
                    top=ft("6'"),
                    board="none",
                ),
            ),
        ),
        "house.wet-stretch",
        "on a surface 15'-1\" wide",
    ),
    (
        "a drop outside its room",
        replace(
            shed(),
            drops=(
                TypedDrop(
                    name="s",
                    room="shop",
                    corner=at("40'", "0'"),
                    east=ft("1'"),
                    north=ft("1'"),
                    bottom=ft("7'"),
                ),
            ),
        ),
        "house.drop-outside",
        "does not lie over one part of room 'shop'",
    ),
    (
        "a hatch outside its room",
        replace(
            shed(),
            hatches=(
                TypedHatch(name="h", room="shop", corner=at("15'", "4'"), east=ft("2'"), north=ft("2'")),
            ),
        ),
        "house.hatch-outside",
        "does not lie wholly over room 'shop'",
    ),
    (
        "a floor hole outside the house",
        replace(
            shed(),
            floor_holes=(FloorHole(name="stair", corner=at("10'", "4'"), east=ft("9'"), north=ft("3'")),),
        ),
        "house.outside",
        "reaches outside the house",
    ),
    (
        "a reserved space outside the house",
        replace(
            shed(),
            reserves=(
                TypedReserve(
                    name="flue",
                    trade="heat",
                    corner=at("-2'", "4'"),
                    east=ft("1'"),
                    north=ft("1'"),
                    bottom=ft("0'"),
                    top=ft("8'"),
                ),
            ),
        ),
        "house.outside",
        "reserved space 'flue'",
    ),
    (
        "a change to a member that is not there",
        replace(
            shed(),
            walls=(
                replace(shed().walls[0], changes=(FramingChange(do="remove", member="stud", at=ft('25"')),)),
                *shed().walls[1:],
            ),
        ),
        "house.framing-change",
        "there is no stud at 2'-1\" from its start to remove",
    ),
    (
        "a room with no way in",
        replace(shed(), openings=()),
        "house.room-without-door",
        "no door or cased opening leads into it",
    ),
    (
        "a wall that stops short of its ceiling",
        replace(shed(), ceilings=(ceiling("shop", height=ft("9'")),)),
        "house.wall-below-ceiling",
        "below the ceiling of 'shop': by 10 7/8\" at most, 5 1/2\" from its start",
    ),
    ("no walls", house(()), "house.no-walls", "it has no walls"),
]


@pytest.mark.parametrize(("description", "rule", "words"), [c[1:] for c in CASES], ids=[c[0] for c in CASES])
def test_what_is_wrong_is_found_and_said(description: HouseDescription, rule: str, words: str) -> None:
    findings = found(description)
    assert rule in findings, findings
    assert words in findings[rule]


def test_a_good_house_has_no_findings() -> None:
    assert found(shed()) == {}
    assert found(two_rooms()) == {}


def test_everything_is_found_at_once_and_the_house_is_not_half_built() -> None:
    description = replace(
        shed(),
        openings=(door("d", "sooth", "4'", "west"), window("w", "south", "14'", "west")),
        rooms=(room("a", "60'", "60'"),),
        ceilings=(ceiling("b"),),
    )
    result = build_house(description)
    assert result.house is None
    rules = {f.rule for f in result.findings}
    assert {"house.opening-wall", "house.opening-off-wall", "house.room-point", "house.room-unknown"} <= rules


def test_every_finding_of_a_problem_says_what_to_do() -> None:
    for _, description, _, _ in CASES:
        for finding in build_house(description).findings:
            assert finding.do
            if finding.severity is Severity.PROBLEM:
                assert finding.expected or finding.do


def test_a_wall_a_hair_short_still_meets() -> None:
    close = wall("across", at("14'", '5.75"'), at("14'", "11'-6 1/4\""), kind="partition")
    description = replace(two_rooms(), walls=(*two_rooms().walls[:4], close))
    assert found(description) == {}


def test_outside_walls_need_not_be_walked_in_one_direction() -> None:
    turned = tuple(
        replace(w, start=w.end, end=w.start, line="left face") if w.name == "north" else w
        for w in ring("16'", "12'")
    )
    walls = tuple(replace(w, line=type(shed().walls[0].line)(w.line)) for w in turned)
    assert found(replace(shed(), walls=walls)) == {}


def parted(north_end: str, *more: TypedWall) -> str:
    """Return what is said of two rooms parted by a partition that ends so far north of the south corner."""
    across = wall("across", at("14'", '5.5"'), at("14'", north_end), kind="partition")
    walls = (*two_rooms().walls[:4], across, *more)
    return found(replace(two_rooms(), walls=walls))["house.rooms-share"]


def test_a_partition_that_stops_short_is_named_with_its_gap() -> None:
    # The north wall's inner face is at 11 ft 6-1/2 in.
    said = parted("9'-3 1/2\"")
    assert "wall 'across' (line 5) ends 2'-3\" short of wall 'north'" in said
    assert "Bring the end of 'across' to 'north' if it should close there" in said


def test_every_free_end_in_a_shared_space_is_named_the_narrowest_gap_first() -> None:
    stub = wall("stub", at("18'", "3'"), at("18'", "11'-6 1/2\""), kind="partition")
    said = parted("9'-3 1/2\"", stub)
    assert (
        "ends 2'-3\" short of wall 'north'; wall 'stub' (line 5) starts 2'-6 1/2\" short of wall 'south'"
        in said
    )


def test_rooms_without_any_wall_between_are_not_told_of_ends() -> None:
    said = found(replace(shed(), rooms=(room("a", "3'", "3'"), room("b", "9'", "9'"))))["house.rooms-share"]
    assert "short of" not in said
