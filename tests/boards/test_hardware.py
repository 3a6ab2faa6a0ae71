"""Fasteners, tape, bead, compound and weights, against counts made by hand."""

from dataclasses import replace
from math import ceil

import pytest

from setday.boards import BoardChoice, BoardChoices, LaidOut, board_rules, needs
from setday.boards.corners import corners
from setday.boards.fasten import fastener_for, on_line
from setday.house import Axis as PlanAxis
from setday.house import CeilingShape, TypedDrop, build_house
from setday.measure import parse_length
from setday.rules import LocalRules
from tests.boards.houses import feet, price_list, single_room
from tests.boards.laid_by_hand import LAYOUT, PROBLEM
from tests.boards.solving import figured
from tests.house.sketches import at, ceiling, ft, shed

# 14 x 12 ft, 8 ft 1-1/8 in walls, no openings: everything can be counted by hand.
ROOM = single_room(14, 12, 97.125 / 12)


@pytest.fixture(scope="module")
def plain():
    # Boards 48 in wide only, 14 ft long: every wall has two rows and no butt joint.
    return figured(ROOM, boards=price_list(widths=(48,), lengths=(14,)))


@pytest.mark.parametrize(
    ("length", "spacing", "count"),
    # First and last fastener 1 in from the edges, the rest no farther apart than the spacing.
    [(48, 16, 4), (48, 12, 5), (48, 7, 8), (2, 16, 1), (3, 16, 2), (18, 16, 2), (18.5, 16, 3)],
)
def test_fasteners_on_a_line(length, spacing, count):
    assert on_line(round(length * 64), spacing=spacing * 64, edge=64) == count


def test_screws_of_a_plain_wall_are_counted_by_hand(plain):
    # North wall 14 ft: studs 16 in apart, two ends, two rows of 48 in with 4 screws a line.
    wall = next(line for line in plain.hardware.fasteners if line.surface == "shop/north")
    members = next(s for s in plain.prepared.problem.surfaces if s.id == "shop/north").members
    clear = [m for m in members if 3 * 64 <= m.x <= (168 - 3) * 64]
    assert wall.lines == 2 * (len(clear) + 2)
    assert wall.count == 4 * wall.lines


def test_screws_are_in_the_region_of_the_rule_of_thumb(plain):
    # About 1,000 for 1,000 ft2 (Dagostino and Peterson, page 203).
    assert 0.6 < plain.hardware.fastener_count / plain.hardware.area_sqft < 1.5


def test_nails_stand_closer_than_screws(plain):
    nailed = figured(ROOM, boards=price_list(widths=(48,), lengths=(14,)), local={"boards.fastener": "nails"})
    assert nailed.hardware.fastener_count > 1.5 * plain.hardware.fastener_count
    assert {line.fastener.item for line in nailed.hardware.fasteners} == {"nail-board-1-1/4"}


def test_a_second_layer_takes_longer_screws():
    of = figured(shed(), choices=BoardChoices(choices=(BoardChoice(on="ceilings", layers=2),)))
    items = {line.surface: line.fastener.item for line in of.hardware.fasteners}
    assert items["shop/ceiling"] == "screw-coarse-1-1/4"
    # 1/2 + 1/2 + 5/8 in = 1-5/8 in.
    assert items["shop/ceiling:2"] == "screw-coarse-1-5/8"


def test_no_screw_sold_is_too_short_for_what_it_goes_through():
    rules = board_rules()
    for sixteenths in range(4, 36):
        through = parse_length(f'{sixteenths}/16"') if sixteenths < 16 else feet(sixteenths / 192)
        assert fastener_for(through, rules).length >= through + rules.length("boards.screw_into_wood")


def test_tape_of_a_plain_room_is_measured_by_hand(plain):
    finish = plain.hardware.finish
    # Four upright corners; each reaches as high as the framing of the walls.
    assert finish.corner_ft == 4 * 97.125 / 12
    # Walls against the ceiling: 14 + 14 + 11 ft 11 in + 11 ft 11 in, between boards.
    assert finish.ceiling_ft == pytest.approx(2 * 14 + 2 * (12 - 1 / 12))
    # One level joint round the room at 48 in, and two on the ceiling, along its longer or shorter side.
    ceiling_rows = finish.tapered_ft - (2 * 14 + 2 * (12 - 1 / 12))
    assert ceiling_rows == pytest.approx(2 * 14)
    assert finish.butt_ft == 0
    assert finish.bead == ()


def test_only_the_outer_layer_is_taped():
    once = figured(shed())
    twice = figured(shed(), choices=BoardChoices(choices=(BoardChoice(layers=2),)))
    assert twice.hardware.area_sqft > 1.9 * once.hardware.area_sqft
    assert twice.hardware.face_sqft == pytest.approx(once.hardware.face_sqft, rel=0.02)
    assert twice.hardware.finish.corner_ft == once.hardware.finish.corner_ft


def test_the_ridge_of_a_vault_is_taped():
    vault = ceiling(
        "shop", shape=CeilingShape.VAULT, height=feet(8), ridge_runs=PlanAxis.EAST_WEST,
        ridge_at=ft("6'-5 1/2\""), rise=ft('3"'), framing_runs=PlanAxis.NORTH_SOUTH,
    )  # fmt: skip
    of = figured(replace(ROOM, ceilings=(vault,)))
    assert of.hardware.finish.ridge_ft == 14


def test_the_lower_edge_of_a_soffit_takes_bead():
    drop = TypedDrop(
        name="soffit", room="shop", corner=at('5 1/2"', '5 1/2"'),
        east=ft("14'"), north=ft("1'"), bottom=ft("7'"),
    )  # fmt: skip
    of = figured(replace(ROOM, drops=(drop,)))
    assert [piece.length for piece in of.hardware.finish.bead] == [ft("14'")]
    bead = [need for need in needs(of) if need.item == "bead-corner"]
    assert [(need.quantity, need.unit, need.waste_included) for need in bead] == [(14.0, "ft", False)]


def test_boarded_returns_take_bead_on_three_sides():
    of = figured(shed(), local={"boards.returns": "board"})
    assert sorted(piece.length.inches for piece in of.hardware.finish.bead) == [42, 42, 48]


def test_corners_of_a_room_are_all_inner_ones():
    house = build_house(shed()).house
    upright = [surface for surface in house.surfaces if surface.facing != "up"]
    found = corners(upright)
    assert len(found) == 4
    assert all(corner.inside for corner in found)


def test_the_stack_of_a_room_weighs_what_its_boards_weigh(plain):
    (stack,) = plain.hardware.stacks
    # Every board is 4 x 14 ft of 1/2 in at 1.6 lb/ft2 (supplier's guide): 89.6 lb.
    assert stack.boards == plain.totals.boards
    assert stack.weight_lb == pytest.approx(stack.boards * 89.6)
    assert stack.load_psf == pytest.approx(stack.boards * 1.6)


def test_stacks_hold_no_more_boards_than_the_rule_allows(plain):
    of = figured(ROOM, boards=price_list(widths=(48,), lengths=(14,)), local={"boards.stack_most": "5"})
    (stack,) = of.hardware.stacks
    assert stack.stacks == -(-stack.boards // 5)
    assert stack.load_psf == pytest.approx(stack.boards / stack.stacks * 1.6)


def test_boards_are_needed_by_the_room_of_their_first_piece(plain):
    boards = [need for need in needs(plain) if need.item.startswith("board-")]
    assert sum(need.quantity for need in boards) == plain.totals.boards
    assert all(need.unit == "pieces" and need.waste_included and need.place == "shop" for need in boards)


def test_waste_is_never_added_twice(plain):
    flags = {need.item: need.waste_included for need in needs(plain)}
    # Boards carry their off-cuts; screws, tape and compound their extra in the working.
    assert flags == {
        "board-regular-1/2-48x168": True,
        "screw-coarse-1-1/4": True,
        "tape-paper": True,
        "compound-ready-mix": True,
    }


def test_quantities_are_those_of_their_workings(plain):
    for need in needs(plain):
        if need.working is not None and need.item != "screw-coarse-1-1/4":
            assert need.quantity == need.working.value
    screws = [need.quantity for need in needs(plain) if need.unit == "screws"]
    assert screws == [ceil(plain.hardware.workings[0].value)]  # whole screws


def test_a_house_without_a_layout_needs_nothing():
    assert needs(figured(shed(), boards=())) == ()


def test_compound_follows_a_local_rate(plain):
    of = figured(
        ROOM, boards=price_list(widths=(48,), lengths=(14,)), local={"boards.compound_per_1000": "5"}
    )
    ratio = of.hardware.workings[2].value / plain.hardware.workings[2].value
    assert ratio == pytest.approx(5 / 9.4)


def test_level_0_has_no_coats():
    of = figured(shed(), local={"boards.finish_level": "0"})
    assert of.hardware.coats is None


def test_a_layout_made_by_hand_reads_its_boards():
    laid = LaidOut(problem=PROBLEM, layout=LAYOUT)
    assert laid.board_of(LAYOUT.pieces[-1]).key == "W8"
    assert board_rules(LocalRules(values={})).rules
