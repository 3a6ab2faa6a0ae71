"""From the house to the board problem: thicknesses, gaps, order, wet areas, layers, directions."""

from dataclasses import replace

import pytest

from setday.boards import (
    BoardChoice,
    BoardChoices,
    CarryIn,
    HangDay,
    OffcutUse,
    Rows,
    SurfaceKind,
    board_problem,
    board_rules,
)
from setday.errors import RuleError
from setday.findings import Severity
from setday.house import Axis as PlanAxis
from setday.house import CeilingShape, TypedWet, WallLine, build_house
from setday.measure import parse_length
from setday.rules import LocalRules
from tests.boards.houses import price_list, single_room
from tests.house.sketches import at, ceiling, ft, house, room, shed, two_rooms, wall

INCH = 64


def prepared(description, *, choices=None, local=None, boards=None):
    built = build_house(description)
    assert built.house is not None, [str(f) for f in built.findings]
    return board_problem(
        built.house,
        choices=choices or BoardChoices(),
        rules=board_rules(LocalRules(values=local or {})),
        boards=price_list() if boards is None else boards,
    )


def surface(of, name):
    return next(s for s in of.problem.surfaces if s.id == name)


def size(of, name):
    found = surface(of, name)
    return found.width / INCH, found.height / INCH


def rules_found(of):
    return {finding.rule for finding in of.findings}


# 12 x 14 ft room, framing to framing, walls 8'-1 1/8" high; half-inch boards everywhere.
ROOM = single_room(14, 12, 97.125 / 12)


def test_a_ceiling_runs_to_the_framing():
    assert size(prepared(ROOM), "shop/ceiling") in {(168, 144), (144, 168)}


def test_a_wall_ends_under_the_ceiling_boards_and_leaves_a_gap_at_the_floor():
    # 97 1/8 less 1/2 at the ceiling leaves 96 5/8; two rows of 48 fit when the gap is 5/8.
    of = prepared(ROOM)
    assert size(of, "shop/north")[1] == 96
    assert of.note("shop/north").floor_gap == 40
    assert of.note("shop/north").top == 32


def test_a_gap_wider_than_usual_is_noted():
    assert "boards.wide-floor-gap" in rules_found(prepared(ROOM))


def test_the_usual_gap_stands_where_no_full_rows_fit():
    of = prepared(single_room(14, 12, 8), boards=price_list(widths=(48,)))
    assert size(of, "shop/north")[1] == 96 - 0.5 - 0.5


def test_a_local_rule_changes_the_gap():
    of = prepared(ROOM, local={"boards.floor_gap_most": '1/2"'}, boards=price_list(widths=(48,)))
    assert size(of, "shop/north")[1] == 97.125 - 0.5 - 0.5


def test_longer_walls_run_to_the_framing_and_shorter_ones_butt_to_them():
    of = prepared(ROOM)
    assert size(of, "shop/north")[0] == 168
    assert size(of, "shop/south")[0] == 168
    assert size(of, "shop/east")[0] == 144 - 2 * 0.5


def test_walls_may_be_hung_clockwise_instead():
    of = prepared(ROOM, local={"boards.corner_order": "clockwise"})
    widths = [size(of, f"shop/{side}")[0] for side in ("north", "east", "south", "west")]
    assert widths == [168, 144 - 0.5, 168 - 0.5, 144 - 1]


def test_thicker_ceilings_lower_the_walls():
    of = prepared(ROOM, choices=BoardChoices(choices=(BoardChoice(on="ceilings", layers=2),)))
    assert of.note("shop/north").top == 64


def test_a_ceiling_left_bare_lowers_nothing():
    of = prepared(ROOM, choices=BoardChoices(choices=(BoardChoice(on="ceilings", layers=0),)))
    assert of.note("shop/north").top == 0
    assert of.bare == ("shop/ceiling",)


def test_openings_are_moved_with_the_surface():
    of = prepared(shed())
    # The door of the shed is 82 1/2 high from the subfloor; the boards begin 5/8 above it.
    (void,) = surface(of, "shop/south").voids
    assert (void.y, void.h / INCH) == (0, 82.5 - 0.625)


def test_an_outer_corner_is_covered_by_the_wall_hung_later():
    # An L-shaped room: the two walls of the inner leg meet in one outer corner.
    outline = [("0'", "0'"), ("20'", "0'"), ("20'", "10'"), ("12'", "10'"), ("12'", "18'"), ("0'", "18'")]
    corners = [at(*corner) for corner in outline]
    walls = tuple(
        wall(f"w{n}", a, b, line=WallLine.RIGHT)
        for n, (a, b) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True))
    )
    of = prepared(house(walls, rooms=(room("ell", "4'", "4'"),), ceilings=(ceiling("ell"),)))
    lost = {n.house_surface: (n.left, n.right) for n in of.notes if n.house_surface.startswith("ell/")}
    gained = [value for pair in lost.values() for value in pair if value < 0]
    assert gained == [-32]
    assert sum(value > 0 for pair in lost.values() for value in pair) == 5


WET = TypedWet(
    name="tub", wall="north", room="shop", measured_from="west", distance=ft("0'"), width=ft("5'"),
    bottom=ft("0'"), top=ft("6'"), board="none",
)  # fmt: skip


def test_nothing_hangs_behind_a_tub_surround():
    of = prepared(replace(ROOM, wets=(WET,)))
    (void,) = surface(of, "shop/north").voids
    assert (void.name, void.w / INCH, void.h / INCH) == ("tub", 60, 72 - 0.625)


def test_a_wet_area_takes_its_own_board_on_a_surface_of_its_own():
    of = prepared(replace(ROOM, wets=(replace(WET, board="wet-area"),)))
    patch = surface(of, "shop/north:tub")
    assert patch.board_kind == "wet-area-1/2"
    assert (patch.width / INCH, patch.height / INCH) == (60, 72 - 0.625)
    assert [v.name for v in surface(of, "shop/north").voids] == ["tub"]
    assert surface(of, "shop/north").board_kind == "regular-1/2"


@pytest.mark.parametrize(
    ("width", "found"),
    # The studs of this wall stand at 8, 24, 40, 56 ... in from its west end, where the tub begins.
    [('60"', True), ('56"', False), ('56 3/4"', False), ('57"', True)],
)
def test_the_edge_of_a_wet_area_wants_a_member_behind_it(width, found):
    assert 56 * INCH in {m.x for m in surface(prepared(ROOM), "shop/north").members}
    of = prepared(replace(ROOM, wets=(replace(WET, width=ft(width)),)))
    assert ("boards.wet-edge-without-backing" in rules_found(of)) is found


def test_a_second_layer_lies_over_the_first_in_the_same_frame():
    of = prepared(ROOM, choices=BoardChoices(choices=(BoardChoice(on="walls", layers=2),)))
    first, second = surface(of, "shop/north"), surface(of, "shop/north:2")
    assert (second.layer, second.over, second.outline) == (2, "shop/north", first.outline)
    assert second.members == first.members
    # Both layers of a long wall are hung before a short wall, which loses both.
    assert size(of, "shop/east")[0] == 144 - 4 * 0.5


def test_ceilings_hang_before_walls():
    kinds = [s.kind for s in sorted(prepared(two_rooms()).problem.surfaces, key=lambda s: s.sequence)]
    assert kinds == sorted(kinds, key=lambda kind: kind is SurfaceKind.WALL)


def test_sequences_are_unique():
    sequences = [s.sequence for s in prepared(two_rooms()).problem.surfaces]
    assert len(set(sequences)) == len(sequences)


def test_days_are_hung_in_the_order_written():
    days = BoardChoices(days=(HangDay(rooms=("small",)), HangDay(rooms=("big",))))
    of = prepared(two_rooms(), choices=days)
    assert {(s.room, s.day) for s in of.problem.surfaces} == {("small", 1), ("big", 2)}
    assert of.problem.surfaces[0].room == "small"


def test_a_room_without_a_day_is_asked_about_and_hung_last():
    of = prepared(two_rooms(), choices=BoardChoices(days=(HangDay(rooms=("small",)),)))
    assert "boards.rooms-without-day" in rules_found(of)
    assert {s.day for s in of.problem.surfaces if s.room == "big"} == {2}


@pytest.mark.parametrize(
    ("choices", "rule", "severity"),
    [
        (BoardChoices(days=(HangDay(rooms=("attic",)),)), "boards.no-such-room", Severity.PROBLEM),
        (
            BoardChoices(days=(HangDay(rooms=("shop",)), HangDay(rooms=("shop",)))),
            "boards.room-on-two-days",
            Severity.ASK,
        ),
        (
            BoardChoices(carry_in=(CarryIn(room="attic", longest=ft("8'")),)),
            "boards.no-such-room",
            Severity.PROBLEM,
        ),
        (
            BoardChoices(carry_in=(CarryIn(room="shop", longest=ft("7'")),)),
            "boards.no-board-short-enough",
            Severity.PROBLEM,
        ),
        (
            BoardChoices(choices=(BoardChoice(on="wals", kind="regular"),)),
            "boards.choice-fits-nothing",
            Severity.PROBLEM,
        ),
        (
            BoardChoices(choices=(BoardChoice(room="attic"),)),
            "boards.choice-fits-nothing",
            Severity.PROBLEM,
        ),
        (
            BoardChoices(choices=(BoardChoice(kind="fire-rated"),)),
            "boards.kind-not-on-price-list",
            Severity.PROBLEM,
        ),
        (
            BoardChoices(choices=(BoardChoice(on="walls", thickness=ft('3/8"')),)),
            "boards.kind-not-on-price-list",
            Severity.PROBLEM,
        ),
    ],
)
def test_a_choice_that_cannot_be_kept_is_found(choices, rule, severity):
    of = prepared(ROOM, choices=choices)
    assert (rule, severity) in {(f.rule, f.severity) for f in of.findings}


def test_an_empty_price_list_is_found_and_nothing_breaks():
    of = prepared(ROOM, boards=())
    assert "boards.kind-not-on-price-list" in rules_found(of)
    assert of.stands_in_the_way


def test_a_board_of_no_stock_size_is_asked_about():
    odd = replace(price_list()[0], key="odd", width=47 * INCH)
    assert "boards.unusual-size" in rules_found(prepared(ROOM, boards=(*price_list(), odd)))
    assert "boards.unusual-size" not in rules_found(prepared(ROOM))


def test_the_longest_board_is_what_can_be_carried_in():
    of = prepared(ROOM, choices=BoardChoices(carry_in=(CarryIn(room="shop", longest=ft("10'")),)))
    assert {s.longest for s in of.problem.surfaces} == {120 * INCH}


def test_later_choices_win():
    choices = (
        BoardChoice(on="walls", thickness=ft('5/8"')),
        BoardChoice(on="shop/north", thickness=ft('1/2"')),
    )
    of = prepared(ROOM, choices=BoardChoices(choices=choices))
    assert surface(of, "shop/north").board_kind == "regular-1/2"
    assert surface(of, "shop/east").board_kind == "regular-5/8"


@pytest.mark.parametrize(
    ("height", "local", "rows"),
    [
        ("8'-1 1/8\"", {}, (Rows.ALONG,)),
        # Two rows of 54 in reach up a 9 ft wall.
        ("9'-1 1/8\"", {}, (Rows.ALONG,)),
        ("10'", {}, (Rows.ACROSS, Rows.ALONG)),
        ("10'", {"boards.high_wall_rows": "along"}, (Rows.ALONG,)),
        ("10'", {"boards.high_wall_rows": "across"}, (Rows.ACROSS,)),
        # Nothing upright reaches from floor to ceiling.
        ("17'", {}, (Rows.ALONG,)),
    ],
)
def test_rows_on_walls_follow_the_height(height, local, rows):
    of = prepared(single_room(14, 12, parse_length(height).feet), local=local)
    assert surface(of, "shop/north").rows == rows


def test_the_instructor_s_direction_wins():
    of = prepared(ROOM, choices=BoardChoices(choices=(BoardChoice(on="shop/north", rows=Rows.ACROSS),)))
    assert surface(of, "shop/north").rows == (Rows.ACROSS,)


@pytest.mark.parametrize(
    ("spacing", "local", "rows"),
    [
        ('16"', {}, (Rows.ALONG,)),
        ('16"', {"boards.ceiling_rows": "with members"}, (Rows.ACROSS,)),
        ('16"', {"boards.ceiling_rows": "either"}, (Rows.ALONG, Rows.ACROSS)),
        ('24"', {"boards.ceiling_rows": "either"}, (Rows.ALONG,)),
    ],
)
def test_rows_on_ceilings_follow_the_rule_and_the_framing(spacing, local, rows):
    of = prepared(single_room(14, 12, 8, spacing=ft(spacing)), local=local)
    assert surface(of, "shop/ceiling").rows == rows


@pytest.mark.parametrize(
    ("choice", "spacing", "local", "found"),
    [
        # IRC table R702.3.5 (from memory): 1/2 in across 24, with 16; 3/8 in across 16.
        (BoardChoice(), '24"', {}, False),
        (BoardChoice(on="ceilings", rows=Rows.ACROSS), '16"', {}, False),
        (BoardChoice(on="ceilings", rows=Rows.ACROSS), '24"', {}, True),
        (BoardChoice(on="ceilings", thickness=ft('3/8"')), '16"', {}, False),
        (BoardChoice(on="ceilings", thickness=ft('3/8"')), '24"', {}, True),
        (BoardChoice(), '24"', {"boards.wet_texture": "yes"}, True),
        (BoardChoice(on="ceilings", kind="sag-resistant"), '24"', {"boards.wet_texture": "yes"}, False),
    ],
)
def test_framing_too_far_apart_for_the_board_is_asked_about(choice, spacing, local, found):
    of = prepared(
        single_room(14, 12, 8, spacing=ft(spacing)), choices=BoardChoices(choices=(choice,)), local=local
    )
    asked = [f for f in of.findings if f.rule == "boards.framing-spacing"]
    assert bool(asked) is found
    assert all(f.severity is Severity.ASK and f.source is not None for f in asked)


def test_a_thickness_without_a_known_spacing_is_asked_about():
    of = prepared(ROOM, choices=BoardChoices(choices=(BoardChoice(on="walls", thickness=ft('1/4"')),)))
    assert "boards.framing-spacing-unknown" in rules_found(of)


def test_a_header_backs_what_stands_over_an_opening():
    # Over a door in a bearing wall the cripples and the header back the boards up to the ceiling.
    of = prepared(shed())
    south = surface(of, "shop/south")
    (door,) = south.voids
    over = [m for m in south.members if door.x < m.x < door.x + door.w]
    assert over
    assert all((m.y_low, m.y_high) == (door.y + door.h, south.height) for m in over)


def test_walls_under_a_slope_lose_the_ceiling_boards_measured_plumb():
    # 1/2 in square to a slope of 12 in 12 is 45.25 sixty-fourths plumb, rounded up.
    vault = ceiling(
        "shop",
        shape=CeilingShape.VAULT,
        ridge_runs=PlanAxis.EAST_WEST,
        ridge_at=ft("6'-5 1/2\""),
        rise=ft('12"'),
    )
    sloped = replace(ROOM, ceilings=(vault,))
    of = prepared(sloped)
    assert of.note("shop/north").top == 46


def test_returns_are_boarded_when_asked():
    of = prepared(shed(), local={"boards.returns": "board"})
    strips = {s.id: (s.width / INCH, s.height / INCH) for s in of.problem.surfaces if "window-" in s.id}
    # 5 1/2 in of framing and 1/2 in of board less 1 1/2 in of window frame; 48 x 42 in window, no sill.
    assert strips == {
        "shop/north:window-head": (48, 4.5),
        "shop/north:window-left": (42, 4.5),
        "shop/north:window-right": (42, 4.5),
    }


def test_the_layout_rules_are_those_of_the_book():
    of = prepared(ROOM, local={"boards.opening_clear": '3"', "boards.offcuts": "room"})
    assert of.problem.rules.opening_clear == 3 * INCH
    assert of.problem.rules.offcuts is OffcutUse.ROOM


def test_the_instructor_s_use_of_offcuts_outranks_the_rule():
    of = prepared(ROOM, choices=BoardChoices(offcuts=OffcutUse.NONE), local={"boards.offcuts": "room"})
    assert of.problem.rules.offcuts is OffcutUse.NONE


def test_an_unknown_local_rule_is_refused():
    with pytest.raises(RuleError, match="oppening_clear"):
        board_rules(LocalRules(values={"boards.oppening_clear": '3"'}))


def test_the_same_house_gives_the_same_problem():
    assert prepared(two_rooms()).problem == prepared(two_rooms()).problem
