"""The verifier passes a layout that keeps every rule, and catches it broken in every way."""

from dataclasses import replace

import pytest

from setday.boards import (
    BoughtBoard,
    Bound,
    Layout,
    OffcutUse,
    Outcome,
    Piece,
    Rows,
    Status,
    SurfaceRows,
    totals,
    verify,
    verify_outcome,
)
from setday.findings import Severity
from tests.boards.laid_by_hand import INCH, LAYOUT, PROBLEM, RULES, inches, piece, ring


def rules_of(findings) -> set[str]:
    return {finding.rule.removeprefix("boards.verify.") for finding in findings}


def with_piece(number: int, **changes: object) -> Layout:
    pieces = list(LAYOUT.pieces)
    pieces[number] = replace(pieces[number], **changes)
    return replace(LAYOUT, pieces=tuple(pieces))


def with_pieces(changes: dict[int, Piece]) -> Layout:
    return replace(LAYOUT, pieces=tuple(changes.get(n, p) for n, p in enumerate(LAYOUT.pieces)))


def with_rows(number: int, changed: SurfaceRows) -> Layout:
    surfaces = list(LAYOUT.surfaces)
    surfaces[number] = changed
    return replace(LAYOUT, surfaces=tuple(surfaces))


def with_key(number: int, key: str) -> Layout:
    boards = tuple(BoughtBoard(number=b.number, key=key) if b.number == number else b for b in LAYOUT.boards)
    return replace(LAYOUT, boards=boards)


def swapped(first: int, second: int) -> Layout:
    pieces = list(LAYOUT.pieces)
    pieces[first], pieces[second] = pieces[second], pieces[first]
    return replace(LAYOUT, pieces=tuple(pieces))


def with_surface(surface_id: str, **changes: object):
    surfaces = tuple(replace(s, **changes) if s.id == surface_id else s for s in PROBLEM.surfaces)
    return replace(PROBLEM, surfaces=surfaces)


def test_a_layout_that_keeps_every_rule_passes():
    assert verify(PROBLEM, LAYOUT) == ()


def joint_moved(to: float) -> Layout:
    """Move the joint from 48 in to elsewhere left of the window."""
    long = piece(
        "bedroom/north", 1, (to, 48, 192 - to, 48), (2, 0, 0),
        (to, 48), (60, 48), (60, 80), (100, 80), (100, 48), (192, 48), (192, 96), (to, 96),
    )  # fmt: skip
    return with_pieces({2: long, 3: piece("bedroom/north", 1, (0, 48, to, 48), (3, 0, 0))})


def gable(peak: float) -> Layout:
    """The left half of the gable, cut to another height at the peak."""
    changed = piece(
        "loft/gable", 0, (0, 0, 48, 40), (11, 0, 0), (0, 0), (48, 0), (48, peak), (40, 40), (0, 24)
    )
    return with_pieces({12: changed})


def window_cut_at(top: float) -> Layout:
    """The upper row over the window, its cut-out ending elsewhere than at 80 in."""
    cut = ((48, 48), (60, 48), (60, top), (100, top), (100, 48), (192, 48), (192, 96), (48, 96))
    return with_piece(2, outline=ring(*cut))


BROKEN_LAYOUTS = {
    "a piece is missing": (replace(LAYOUT, pieces=LAYOUT.pieces[:1] + LAYOUT.pieces[2:]), "uncovered"),
    "a piece is a sixty-fourth short": (with_piece(1, w=48 * INCH - 1), "uncovered"),
    "a piece is a sixty-fourth too long": (with_piece(1, w=48 * INCH + 1), "outside"),
    "a piece hangs twice": (replace(LAYOUT, pieces=(*LAYOUT.pieces, LAYOUT.pieces[-1])), "overlap"),
    "a piece is moved sideways": (with_piece(14, x=1), "outside"),
    "a piece covers the door": (with_piece(14, w=70 * INCH), "outside"),
    "a window is not cut out where it reaches the edge": (with_piece(2, outline=()), "outside"),
    "the cut-out is too small": (
        window_cut_at(79),
        "outside",
    ),
    "the cut-out is too large": (
        window_cut_at(81),
        "uncovered",
    ),
    "the box is not the box of the outline": (with_piece(2, w=143 * INCH), "piece-box"),
    "an outline runs clockwise": (
        with_piece(12, outline=tuple(reversed(LAYOUT.pieces[12].outline))), "piece-shape"
    ),
    "an outline has two corners": (with_piece(12, outline=ring((0, 0), (48, 0))), "piece-shape"),
    "a slanted cut on a square wall": (
        with_piece(0, outline=ring((0, 48), (48, 48), (48, 60), (0, 59.5))), "piece-shape"
    ),
    "a piece of no size": (with_piece(0, h=0), "piece-shape"),
    "a gable cut too low": (gable(39), "uncovered"),
    "a gable outline that crosses itself": (
        with_piece(12, outline=ring((0, 0), (48, 0), (20, 40), (48, 40), (0, 24))), "piece-shape"
    ),
    "the row number is another": (with_piece(0, row=0), "row-of-piece"),
    "the row does not exist": (with_piece(0, row=7), "row-of-piece"),
    "a row is stacked of two": (
        with_pieces(
            {
                12: piece("loft/gable", 0, (0, 0, 48, 20), (11, 0, 0)),
                13: replace(
                    LAYOUT.pieces[13], x=0, y=0, w=96 * INCH, h=40 * INCH,
                    outline=ring((48, 0), (96, 0), (96, 24), (48, 40), (0, 24), (0, 20), (48, 20)),
                ),
            }
        ),
        "row-of-piece",
    ),
    "rows run the other way": (
        with_rows(0, SurfaceRows(surface="closet/ceiling", rows=Rows.ACROSS, edges=inches(0, 48))),
        "direction",
    ),
    "the rows do not reach the top": (
        with_rows(0, SurfaceRows(surface="closet/ceiling", rows=Rows.ALONG, edges=inches(0, 48, 59))),
        "row-edges",
    ),
    "the rows are out of order": (
        with_rows(0, SurfaceRows(surface="closet/ceiling", rows=Rows.ALONG, edges=inches(0, 60, 48))),
        "row-edges",
    ),
    "board of another kind": (with_key(12, "R8"), "kind"),
    "a piece does not fit its board": (with_piece(4, board_x=1), "off-board"),
    "a piece lies left of its board": (with_piece(0, board_x=-1), "off-board"),
    "pieces overlap on the board": (with_piece(0, board_x=47 * INCH), "cutting"),
    "a joint off the stud": (joint_moved(47), "on-member"),
    "a joint too near the window": (joint_moved(56), "opening-corner"),
    "joints of neighbouring rows too close": (
        with_pieces(
            {
                4: piece(
                    "bedroom/north", 0, (0, 0, 48, 48), (4, 0, 0),
                ),
                5: piece(
                    "bedroom/north", 0, (48, 0, 144, 48), (3, 48, 0),
                    (48, 0), (192, 0), (192, 48), (100, 48), (100, 36), (60, 36), (60, 48), (48, 48),
                ),
            }
        ),
        "stagger",
    ),
    "a joint over the joint of the layer below": (
        with_pieces(
            {
                6: piece("bedroom/north:2", 1, (0, 48, 48, 48), (5, 0, 0)),
                7: piece(
                    "bedroom/north:2", 1, (48, 48, 144, 48), (6, 0, 0),
                    (48, 48), (60, 48), (60, 80), (100, 80), (100, 48), (192, 48), (192, 96), (48, 96),
                ),
            }
        ),
        "stagger",
    ),
    "a ripped edge between two rows": (with_piece(0, board_y=INCH), "factory-edge"),
    "a board number is unknown": (with_piece(0, board=99), "pieces"),
    "a surface is unknown": (with_piece(0, surface="attic/floor"), "pieces"),
    "a board is not on the price list": (with_key(1, "R9"), "boards"),
    "two boards have one number": (
        replace(LAYOUT, boards=(*LAYOUT.boards, BoughtBoard(number=1, key="R8"))), "boards"
    ),
    "a board is bought and not used": (
        replace(LAYOUT, boards=(*LAYOUT.boards, BoughtBoard(number=13, key="R8"))), "numbering"
    ),
    "boards are not numbered by first use": (swapped(8, 9), "numbering"),
    "a number is left out": (
        replace(
            with_piece(15, board=13),
            boards=(*LAYOUT.boards, BoughtBoard(number=14, key="W8")),
        ),
        "pieces",
    ),
    "a surface is left out": (replace(LAYOUT, surfaces=LAYOUT.surfaces[1:]), "surfaces"),
    "a surface is divided twice": (
        replace(LAYOUT, surfaces=(*LAYOUT.surfaces, LAYOUT.surfaces[0])), "surfaces"
    ),
    "surfaces are out of hanging order": (replace(LAYOUT, surfaces=LAYOUT.surfaces[::-1]), "order"),
    "the second layer hangs before the first": (swapped(2, 6), "order"),
    "the ceiling hangs after a wall": (swapped(1, 2), "order"),
}  # fmt: skip


@pytest.mark.parametrize(("layout", "rule"), BROKEN_LAYOUTS.values(), ids=BROKEN_LAYOUTS.keys())
def test_a_broken_layout_is_caught(layout, rule):
    assert rule in rules_of(verify(PROBLEM, layout))


BROKEN_PROBLEMS = {
    "a board too long to carry in": (with_surface("bedroom/north", longest=120 * INCH), "carry-in"),
    "no stud behind the seam of upright boards": (with_surface("hall/east", members=()), "on-member"),
    "a stud that ends below the joint": (
        with_surface(
            "bedroom/north", members=tuple(replace(m, y_high=90 * INCH) for m in PROBLEM.surfaces[1].members)
        ),
        "on-member",
    ),
    "no piece under four and a half feet": (
        replace(PROBLEM, rules=replace(RULES, least_piece=54 * INCH)), "least-piece"
    ),
    "no row under 20 in": (replace(PROBLEM, rules=replace(RULES, least_row=20 * INCH)), "least-row"),
    "a saw that takes an eighth": (replace(PROBLEM, rules=replace(RULES, trim_cut=8)), "cutting"),
    "joints three feet apart": (
        replace(PROBLEM, rules=replace(RULES, stagger_one_spacing=False, stagger=36 * INCH)), "stagger"
    ),
    "13 in clear of openings": (
        replace(PROBLEM, rules=replace(RULES, opening_clear=13 * INCH)), "opening-corner"
    ),
    "upright boards not allowed": (with_surface("hall/east", rows=(Rows.ALONG,)), "direction"),
}  # fmt: skip


@pytest.mark.parametrize(("problem", "rule"), BROKEN_PROBLEMS.values(), ids=BROKEN_PROBLEMS.keys())
def test_the_same_layout_is_caught_under_a_harder_rule(problem, rule):
    assert rule in rules_of(verify(problem, LAYOUT))


def test_offcuts_stay_in_their_room():
    across_rooms = with_piece(15, board=3, board_x=0)
    assert "offcut" in rules_of(verify(PROBLEM, across_rooms))


def test_offcuts_stay_on_their_surface_where_none_are_kept():
    none_kept = replace(PROBLEM, rules=replace(RULES, offcuts=OffcutUse.NONE))
    shared_in_the_room = with_piece(7, board=3)
    assert "offcut" in rules_of(verify(none_kept, shared_in_the_room))
    assert "offcut" not in rules_of(verify(none_kept, LAYOUT))


def test_offcuts_stay_within_their_day():
    by_day = replace(PROBLEM, rules=replace(RULES, offcuts=OffcutUse.DAY))
    later = replace(
        by_day, surfaces=tuple(replace(s, day=1 + (s.id == "bath/south")) for s in by_day.surfaces)
    )
    across_days = with_piece(15, board=3, board_x=0)
    assert "offcut" in rules_of(verify(later, across_days))
    assert "offcut" not in rules_of(verify(later, LAYOUT))


def test_a_joint_off_the_stud_is_no_matter_where_the_rule_is_off():
    left = ((0, 0), (79, 0), (79, 36), (60, 36), (60, 48), (0, 48))
    right = ((79, 0), (192, 0), (192, 48), (100, 48), (100, 36), (79, 36))
    moved = with_pieces(
        {
            8: piece("bedroom/north:2", 0, (0, 0, 79, 48), (7, 0, 0), *left),
            9: piece("bedroom/north:2", 0, (79, 0, 113, 48), (8, 0, 0), *right),
        }
    )
    assert rules_of(verify(PROBLEM, moved)) == {"on-member"}
    assert verify(replace(PROBLEM, rules=replace(RULES, butt_on_member=False)), moved) == ()


def test_a_rule_that_gave_way_and_says_so_is_asked_about():
    layout = replace(
        joint_moved(56), relaxed=("bedroom/north: the distance from an opening gave way to 4 in.",)
    )
    found = [f for f in verify(PROBLEM, layout) if f.rule == "boards.verify.opening-corner"]
    assert [f.severity for f in found] == [Severity.ASK]


def test_giving_way_on_one_surface_excuses_no_other():
    layout = replace(joint_moved(56), relaxed=("hall/east: the distance from an opening gave way to 4 in.",))
    found = [f for f in verify(PROBLEM, layout) if f.rule == "boards.verify.opening-corner"]
    assert [f.severity for f in found] == [Severity.PROBLEM]


def test_giving_way_on_one_rule_excuses_no_other():
    layout = replace(joint_moved(56), relaxed=("bedroom/north: the stagger gave way to 8 in.",))
    found = [f for f in verify(PROBLEM, layout) if f.rule == "boards.verify.opening-corner"]
    assert [f.severity for f in found] == [Severity.PROBLEM]


@pytest.mark.parametrize("rule", ["uncovered", "cutting", "kind"])
def test_what_makes_a_layout_cannot_give_way(rule):
    layouts = {name: BROKEN_LAYOUTS[name][0] for name in BROKEN_LAYOUTS if BROKEN_LAYOUTS[name][1] == rule}
    for layout in layouts.values():
        eased = replace(layout, relaxed=tuple(f"{s.id}: {rule} gave way." for s in PROBLEM.surfaces))
        assert Severity.PROBLEM in {f.severity for f in verify(PROBLEM, eased)}


def outcome(**changes: object) -> Outcome:
    counted = totals(PROBLEM, LAYOUT)
    right = Outcome(
        status=Status.FEASIBLE,
        layout=LAYOUT,
        cost_cents=counted.cost_cents,
        butt_joint=counted.butt_joint,
        pieces=counted.pieces,
        bound=Bound(cost_cents=10_000.0, area_cost_cents=9_000.0, method="by hand"),
        seconds=1.0,
    )
    return replace(right, **changes)


def test_an_outcome_with_the_right_totals_passes():
    assert verify_outcome(PROBLEM, outcome()) == ()


def test_the_totals_are_counted_by_hand():
    # Seven 8 ft boards at 12.00 less the wet one: 6 x 12 + 19; four 12 ft at 18; two 10 ft at 15.
    counted = totals(PROBLEM, LAYOUT)
    assert counted.cost_cents == 5 * 1200 + 4 * 1800 + 2 * 1500 + 1900
    assert counted.butt_joint == (48 + 48 + 48 + 36 + 40) * INCH
    assert (
        counted.net_area
        == sum((48 * 60, 2 * (192 * 96 - 40 * 44), 80 * 110, 96 * 24 + 48 * 16, 60 * 48)) * INCH**2
    )


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"cost_cents": 1}, "total"),
        ({"pieces": 1}, "total"),
        ({"butt_joint": 1}, "total"),
        ({"bound": Bound(cost_cents=1e9, area_cost_cents=0.0, method="")}, "bound"),
        ({"status": Status.OPTIMAL}, "bound"),
    ],
)
def test_an_outcome_that_states_a_wrong_figure_is_caught(changes, rule):
    assert rule in rules_of(verify_outcome(PROBLEM, outcome(**changes)))
