"""Rooms, surfaces and framing derived from a description."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.house import (
    Axis,
    CeilingShape,
    House,
    HouseDescription,
    MemberKind,
    Point,
    Side,
    Surface,
    TypedDrop,
    TypedHatch,
    TypedWet,
    WallLine,
    build_house,
)
from setday.house.description import FramingChange
from setday.measure import Length
from tests.house import sketches
from tests.house.sketches import at, ceiling, door, ft, house, ring, room, shed, two_rooms, wall, window


def built(description: HouseDescription) -> House:
    result = build_house(description)
    assert result.house is not None, [str(f) for f in result.findings]
    return result.house


def stands(house_: House, name: str, kind: MemberKind) -> list[float]:
    return [m.center.inches for m in house_.wall(name).members if m.kind is kind]


def test_a_room_is_measured_between_framing_faces() -> None:
    space = built(shed()).room("shop")
    assert space.area.sqft == pytest.approx((192 - 11) * (144 - 11) / 144)


def test_every_wall_and_the_ceiling_of_a_room_is_a_surface() -> None:
    assert built(shed()).room("shop").surfaces == (
        "shop/north",
        "shop/east",
        "shop/south",
        "shop/west",
        "shop/ceiling",
    )


def test_a_surface_is_seen_from_inside_the_room() -> None:
    # The door is 4 ft from the west end; facing south, west is on the right.
    south = built(shed()).surface("shop/south")
    (seen,) = south.openings
    assert seen.x.inches == (192 - 48 - 38) - 5.5
    # The window is 5 ft from the west end; facing north, west is on the left.
    (seen,) = built(shed()).surface("shop/north").openings
    assert seen.x.inches == 60 - 5.5


def test_studs_stand_on_centre_from_the_corner() -> None:
    # 14 ft 6 in at 16 in: 12 studs (ledger row A7), the last one at the end of the wall.
    description = house(
        ring("20'", "14'-6\""),
        rooms=(room("a", "5'", "5'"),),
        ceilings=(ceiling("a"),),
        openings=(door("d", "south", "4'", "west"),),
    )
    plain = replace(description.walls[0], kind="outside")
    east = built(replace(description, walls=(description.walls[1], plain, *description.walls[2:])))
    on_layout = [*stands(east, "east", MemberKind.END_STUD), *stands(east, "east", MemberKind.STUD)]
    assert len(on_layout) == 12
    assert sorted(on_layout)[1:3] == [16.0, 32.0]


def test_an_opening_has_kings_jacks_a_header_and_cripples_on_the_layout() -> None:
    shop = built(shed())
    assert stands(shop, "south", MemberKind.JACK) == [47.25, 86.75]
    assert stands(shop, "south", MemberKind.KING) == [45.75, 88.25]
    assert stands(shop, "south", MemberKind.CRIPPLE) == [64.0, 80.0]
    (header,) = [m for m in shop.wall("south").members if m.kind is MemberKind.HEADER]
    assert (header.left.inches, header.right.inches, header.bottom.inches) == (46.5, 87.5, 82.5)


def test_a_partition_is_backed_on_both_sides_where_it_ends() -> None:
    backers = stands(built(two_rooms()), "south", MemberKind.PARTITION)
    assert backers == [166.0, 170.0]  # centre 14 ft; half of 3-1/2 in and 1 in showing, less half a stud


def test_the_first_written_wall_runs_through_a_corner() -> None:
    shop = built(shed())
    assert shop.wall("south").length.inches == 192
    assert shop.wall("east").length.inches == 144 - 5.5
    assert shop.wall("west").length.inches == 144 - 11


def test_a_joint_over_a_door_may_land_on_the_header_in_line_with_a_layout_stud() -> None:
    south = built(shed()).surface("shop/south")
    over = [b for b in south.backing if b.kind == "header"]
    assert [(b.y_low.inches, b.y_high.inches) for b in over] == [(82.5, 97.125)] * 2


def test_an_opening_measured_from_a_crossing_wall_counts_from_its_near_face() -> None:
    (seen,) = built(two_rooms()).surface("small/north").openings
    assert seen.x.inches == 36.0


def test_ceiling_members_are_counted_across_x_whichever_way_they_run() -> None:
    house_ = built(two_rooms())
    north_south, east_west = house_.surface("big/ceiling"), house_.surface("small/ceiling")
    assert north_south.width.inches == 168 - 1.75 - 5.5
    assert east_west.width.inches == 144 - 11
    # Joists stand at 24 in from the house's south-west corner, 5-1/2 in outside the room.
    assert east_west.backing[0].x.inches == 18.5
    # From below with north up, west is to the right: the last member is the first from the west.
    assert north_south.width.inches - north_south.backing[-1].x.inches == 18.5


def vaulted(**changes: object) -> HouseDescription:
    given: dict[str, object] = {
        "shape": CeilingShape.VAULT,
        "rise": ft('4"'),
        "ridge_runs": Axis.EAST_WEST,
        "ridge_at": ft("6'"),
    }
    given.update(changes)
    walls = tuple(
        replace(w, gable=((ft("0'"), ft("8'-1 1/8\"")), (ft("6'"), ft("11'")), (ft("12'"), ft("8'-1 1/8\""))))
        if w.name in ("east", "west")
        else w
        for w in ring("16'", "12'")
    )
    return replace(shed(), walls=walls, ceilings=(ceiling("shop", **given),))


def test_a_vault_has_two_planes_longer_than_their_plan() -> None:
    house_ = built(vaulted())
    north, south = house_.surface("shop/ceiling-north"), house_.surface("shop/ceiling-south")
    half = (144 - 11) / 2
    slope = (1 + (4 / 12) ** 2) ** 0.5
    for plane in (north, south):
        assert plane.height.inches == pytest.approx(half * slope, abs=1 / 64)
        assert plane.width.inches == 192 - 11


def test_a_wall_under_a_vault_has_a_pointed_outline() -> None:
    east = built(vaulted()).surface("shop/east")
    half = (144 - 11) / 2
    tops = sorted((x.inches, y.inches) for x, y in east.outline if y.inches > 0)
    assert [x for x, _ in tops] == [0.0, half, 2 * half]
    assert tops[1][1] == pytest.approx(97.125 + half / 3, abs=1 / 64)
    assert east.top_meets_ceiling


def test_a_sloped_ceiling_is_low_on_the_side_it_says() -> None:
    slope = ceiling("shop", shape=CeilingShape.SLOPE, rise=ft('1"'), low_side=Side.SOUTH)
    tall = tuple(replace(w, height=ft("9'-6\"")) for w in ring("16'", "12'"))
    house_ = built(replace(shed(), walls=tall, ceilings=(slope,)))
    assert house_.surface("shop/south").height.inches == 97.125
    assert house_.surface("shop/north").height.inches == pytest.approx(97.125 + 133 / 12, abs=1 / 64)


def test_a_drop_takes_its_place_out_of_the_ceiling_and_off_the_wall() -> None:
    drop = TypedDrop(
        name="soffit",
        room="shop",
        corner=at('5.5"', '5.5"'),
        east=ft("3'"),
        north=ft('133"'),
        bottom=ft('84"'),
    )
    house_ = built(replace(shed(), drops=(drop,)))
    assert house_.surface("shop/ceiling").width.inches == 181 - 36
    assert house_.surface("shop/soffit").gross_area.sqft == pytest.approx(36 * 133 / 144)
    side = house_.surface("shop/soffit-west")
    assert (side.width.inches, side.height.inches) == (133, 97.125 - 84)
    assert house_.surface("shop/west").height.inches == 84
    steps = {(x.inches, y.inches) for x, y in house_.surface("shop/north").outline}
    assert {(36.0, 84.0), (36.0, 97.125)} <= steps


def test_a_hatch_is_an_opening_of_the_ceiling() -> None:
    hatch = TypedHatch(name="hatch", room="shop", corner=at("3'", "4'"), east=ft('22.5"'), north=ft('30"'))
    (seen,) = built(replace(shed(), hatches=(hatch,))).surface("shop/ceiling").openings
    assert (seen.w.inches, seen.h.inches) == (22.5, 30.0)
    assert seen.x.inches == 192 - 5.5 - 36 - 22.5  # from below: west on the right


def test_a_wet_stretch_lies_where_the_tape_says() -> None:
    wet = TypedWet(
        name="tub",
        wall="north",
        room="shop",
        measured_from="west",
        distance=ft("1'"),
        width=ft('60"'),
        bottom=ft('0"'),
        top=ft('78"'),
        board="none",
    )
    (patch,) = built(replace(shed(), wets=(wet,))).surface("shop/north").wet
    assert (patch.x.inches, patch.w.inches, patch.h.inches) == (12.0, 60.0, 78.0)


def test_what_was_really_built_replaces_what_was_derived() -> None:
    changes = (
        FramingChange(do="move", member="stud", at=ft('32"'), to=ft('30"')),
        FramingChange(do="add", member="stud", at=ft('20"')),
    )
    walls = tuple(replace(w, changes=changes) if w.name == "south" else w for w in ring("16'", "12'"))
    studs = stands(built(replace(shed(), walls=walls)), "south", MemberKind.STUD)
    assert studs[:4] == [16.0, 20.0, 30.0, 96.0]


def test_a_house_mirrored_east_to_west_has_mirrored_surfaces() -> None:
    plain, mirrored = built(two_rooms()), built(_mirrored(two_rooms()))
    swap = {"east": "west", "west": "east"}
    for surface in plain.surfaces:
        name, _, side = surface.id.partition("/")
        other = mirrored.surface(f"{name}/{swap.get(side, side)}")
        assert other.gross_area == surface.gross_area
        assert {(o.name, o.w, o.h, o.y) for o in other.openings} == {
            (o.name, o.w, o.h, o.y) for o in surface.openings
        }


def _mirrored(description: HouseDescription) -> HouseDescription:
    swap = {"east": "west", "west": "east"}
    line = {WallLine.LEFT: WallLine.RIGHT, WallLine.RIGHT: WallLine.LEFT, WallLine.CENTER: WallLine.CENTER}
    return replace(
        description,
        walls=tuple(
            replace(
                w, start=_flip(w.start), end=_flip(w.end), line=line[w.line], name=swap.get(w.name, w.name)
            )
            for w in description.walls
        ),
        openings=tuple(
            replace(
                o,
                measured_from=swap.get(o.measured_from, o.measured_from),
                going=swap.get(o.going, o.going),
                wall=swap.get(o.wall, o.wall),
            )
            for o in description.openings
        ),
        rooms=tuple(replace(r, at=_flip(r.at)) for r in description.rooms),
    )


def _flip(point: Point) -> Point:
    return Point(x=-point.x, y=point.y)


sizes = st.integers(8 * 16, 40 * 16).map(lambda sixteenths: Length(sixteenths * 12 * 4))


@settings(max_examples=40, deadline=None)
@given(width=sizes, depth=sizes, share=st.floats(0.3, 0.7))
def test_floor_and_framing_together_make_up_the_whole_plan(
    width: Length, depth: Length, share: float
) -> None:
    across = Length(round(width.sixtyfourths * share))
    corners = [(Length(0), Length(0)), (width, Length(0)), (width, depth), (Length(0), depth)]
    points = [Point(x=x, y=y) for x, y in corners]
    names = ("south", "east", "north", "west")
    walls = tuple(
        wall(n, a, b, line=WallLine.RIGHT)
        for n, a, b in zip(names, points, points[1:] + points[:1], strict=True)
    )
    split = wall("split", Point(x=across, y=Length(0)), Point(x=across, y=depth), kind="partition")
    rooms = (
        room("a", '12"', '12"'),
        replace(room("b", "1'", "1'"), at=Point(x=width - ft('12"'), y=ft('12"'))),
    )
    result = build_house(house((*walls, split), rooms=rooms, ceilings=(ceiling("a"), ceiling("b"))))
    assert result.house is not None
    inside = sum(r.area.sqft for r in result.house.rooms)
    framing = (2 * width.inches + 2 * (depth.inches - 11)) * 5.5 + (depth.inches - 11) * 3.5
    assert inside + framing / 144 == pytest.approx(width.feet * depth.feet, abs=1e-6)
    for surface in result.house.surfaces:
        assert _backed(surface)


def _backed(surface: Surface) -> bool:
    """Neighbours stand within one spacing, or one and a stud's thickness where a doubled stud takes a place.

    An end's own backing shows up to 1 in from it.
    """
    marks = [0.0, *sorted({b.x.inches for b in surface.backing}), surface.width.inches]
    return max(b - a for a, b in pairwise(marks)) <= surface.member_spacing.inches + 1.5 + 1.0


# Ledger row A8: shell 24 x 40 ft, walls 5-1/2 in, one full partition 4-1/2 in, 8 ft high.
@pytest.mark.parametrize("run", ["across", "along"])
def test_room_perimeters_are_face_to_face_and_not_on_centre_lines(run: str) -> None:
    thick = replace(sketches.PARTITION, depth=ft('4.5"'))
    split = wall("split", at("20'", '5.5"'), at("20'", "23'-6.5\""), kind="partition")
    if run == "along":
        split = wall("split", at('5.5"', "12'"), at("39'-6.5\"", "12'"), kind="partition")
    description = house(
        (*ring("40'", "24'"), split),
        rooms=(room("a", "5'", "5'"), room("b", "35'", "20'")),
        ceilings=(ceiling("a"), ceiling("b")),
    )
    house_ = built(replace(description, kinds=(sketches.OUTSIDE, thick)))
    perimeter = sum(s.width.feet for s in house_.surfaces if s.spans)
    if run == "across":
        assert perimeter == pytest.approx(169.75)


def test_a_window_is_seen_on_the_inside_only() -> None:
    house_ = built(two_rooms())
    seen = [s.id for s in house_.surfaces for o in s.openings if o.name == "window"]
    assert seen == ["small/north"]


def test_a_low_wall_ends_below_the_ceiling() -> None:
    low = wall("low", at("8'", '5.5"'), at("8'", "5'"), kind="partition", height=ft('42"'))
    house_ = built(replace(shed(), walls=(*shed().walls, low)))
    faces = [s for s in house_.surfaces if any(span.wall == "low" for span in s.spans)]
    assert {s.height.inches for s in faces} == {42.0}
    assert not any(s.top_meets_ceiling for s in faces)
    assert sorted(s.width.inches for s in faces) == [3.5, 54.5, 54.5]


def test_a_wall_at_an_angle_closes_the_room_too() -> None:
    points = [at("0'", "0'"), at("16'", "0'"), at("16'", "8'"), at("12'", "12'"), at("0'", "12'")]
    names = ("south", "east", "corner", "north", "west")
    walls = tuple(
        wall(n, a, b, line=WallLine.RIGHT)
        for n, a, b in zip(names, points, points[1:] + points[:1], strict=True)
    )
    house_ = built(
        house(
            walls,
            rooms=(room("r", "5'", "5'"),),
            ceilings=(ceiling("r"),),
            openings=(window("w", "south", "3'", "west"),),
        )
    )
    slanted = [s for s in house_.surfaces if any(span.wall == "corner" for span in s.spans)]
    # Inside length of the cut corner: sqrt(2) x 4 ft, less twice the depth times tan(22.5 degrees).
    expected = 48 * 2**0.5 - 2 * 5.5 * (2**0.5 - 1)
    assert [s.width.inches for s in slanted] == [pytest.approx(expected, abs=1 / 16)]


def test_backing_under_a_slope_ends_at_the_slope() -> None:
    east = built(vaulted()).surface("shop/east")
    half = (144 - 11) / 2
    for member in east.backing:
        run = half - abs(member.x.inches - half)
        assert member.y_high.inches == pytest.approx(97.125 + run / 3, abs=1 / 32)
