"""Laws that hold for every room: the verifier finds nothing, and mirrored rooms mirror."""

from dataclasses import replace
from functools import cache

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from setday.boards import (
    BoardChoice,
    BoardChoices,
    BoardFigure,
    board_problem,
    board_rules,
    net_area,
    verify,
    verify_outcome,
)
from setday.boards.cutting import cut_straight_through
from setday.boards.floor import floor_gap
from setday.boards.layout import greedy, solve
from setday.boards.outline import bounds, clipped, lowered, rectangle, slant
from setday.findings import Severity
from setday.house import build_house
from setday.measure import Length
from setday.rules import LocalRules
from tests.boards.houses import feet, price_list, single_room
from tests.boards.solving import LIMITS, figured
from tests.house.sketches import door, two_rooms, window

SIZES = st.integers(5 * 16, 22 * 16).map(lambda n: n / 16)
RULES = board_rules()
HEIGHTS = st.sampled_from([8.0, 97.125 / 12, 109.125 / 12])
QUICK = settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def fits(width: float, depth: float) -> tuple[object, ...]:
    """A door in the south wall and a window in the north wall, where they fit."""
    found = []
    if width >= 8:
        found.append(door("D1", "south", str(feet(width / 4)), "west"))
        found.append(window("W1", "north", str(feet(width / 3)), "west"))
    return tuple(found)


def problem_of(width, depth, height, *, layers=1, mirrored=False):
    openings = fits(width, depth)
    if mirrored:
        openings = tuple(replace(opening, measured_from="east") for opening in openings)
    house = build_house(single_room(width, depth, height, openings=openings)).house
    choices = BoardChoices(choices=(BoardChoice(on="ceilings", layers=layers),))
    return board_problem(house, choices=choices, rules=board_rules(), boards=price_list()).problem


@QUICK
@given(width=SIZES, depth=SIZES, height=HEIGHTS, layers=st.integers(0, 1))
def test_what_a_hanger_lays_out_by_hand_rules_passes_the_verifier(width, depth, height, layers):
    problem = problem_of(width, depth, height, layers=layers)
    layout = greedy(problem)
    assert layout is not None
    assert [f for f in verify(problem, layout) if f.severity is Severity.PROBLEM] == []


@settings(QUICK, max_examples=8)
@given(width=SIZES, depth=SIZES, layers=st.integers(1, 2))
def test_what_the_optimiser_finds_first_passes_the_verifier(width, depth, layers):
    problem = problem_of(width, depth, 97.125 / 12, layers=layers)
    outcome = solve(problem, limits=replace(LIMITS, seconds=0.2), on_progress=lambda _: False)
    assert outcome.layout is not None
    assert [f for f in verify_outcome(problem, outcome) if f.severity is Severity.PROBLEM] == []


@QUICK
@given(width=SIZES, depth=SIZES, height=HEIGHTS)
def test_a_mirrored_room_has_mirrored_surfaces(width, depth, height):
    plain, mirrored = (problem_of(width, depth, height, mirrored=m) for m in (False, True))
    assert sorted(map(net_area, plain.surfaces)) == sorted(map(net_area, mirrored.surfaces))
    assert sorted((s.width, s.height) for s in plain.surfaces) == sorted(
        (s.width, s.height) for s in mirrored.surfaces
    )


@QUICK
@given(width=SIZES, depth=SIZES, height=HEIGHTS)
def test_surfaces_start_at_their_origin_and_stay_on_the_grid(width, depth, height):
    for surface in problem_of(width, depth, height).surfaces:
        assert bounds(surface.outline)[:2] == (0, 0)
        assert all(isinstance(value, int) for corner in surface.outline for value in corner)
        assert all(
            0 < m.x < surface.width and 0 <= m.y_low < m.y_high <= surface.height for m in surface.members
        )
        assert all(v.x >= 0 and v.x + v.w <= surface.width for v in surface.voids)


@given(top=st.integers(80 * 64, 120 * 64))
def test_the_floor_gap_stays_within_its_rule(top):
    gap = floor_gap(top, (48 * 64, 54 * 64), RULES)
    least, most = RULES.length("boards.floor_gap_least"), RULES.length("boards.floor_gap_most")
    assert least.sixtyfourths <= gap <= most.sixtyfourths


@given(rows=st.integers(1, 3), gap=st.integers(16, 48))
def test_full_rows_are_taken_where_the_gap_allows_them(rows, gap):
    top = rows * 48 * 64 + gap
    assert (top - floor_gap(top, (48 * 64,), RULES)) % (48 * 64) == 0


@given(thickness=st.integers(1, 128), rise=st.integers(0, 24 * 64))
def test_a_layer_is_never_thinner_plumb_than_square(thickness, rise):
    plumb = slant(thickness, rise)
    assert plumb >= thickness
    # Squared, so that it stays whole: at least what the slope asks, and less than a sixty-fourth more.
    run = 12 * 64
    assert (plumb * run) ** 2 >= thickness**2 * (run**2 + rise**2) > ((plumb - 1) * run) ** 2


BOXES = st.tuples(st.integers(0, 90), st.integers(0, 90), st.integers(1, 60), st.integers(1, 60))


@given(boxes=st.lists(BOXES.map(lambda b: (b[0], b[1], b[0] + b[2], b[1] + b[3])), min_size=2, max_size=5))
def test_pieces_that_overlap_can_never_be_cut(boxes):
    overlapping = any(
        a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
        for n, a in enumerate(boxes)
        for b in boxes[n + 1 :]
    )
    assert not (overlapping and cut_straight_through(boxes))


def split(draw, box, depth):
    """Cut a board straight through again and again."""
    if depth == 0 or not draw(st.booleans()):
        return [box]
    axis = draw(st.integers(0, 1))
    low, high = box[axis], box[axis + 2]
    if high - low < 2:
        return [box]
    at = draw(st.integers(low + 1, high - 1))
    first, second = list(box), list(box)
    first[axis + 2], second[axis] = at, at
    return split(draw, tuple(first), depth - 1) + split(draw, tuple(second), depth - 1)


@st.composite
def cut_boards(draw):
    return split(draw, (0, 0, 96, 48), 4)


@given(pieces=cut_boards(), data=st.data())
def test_what_was_cut_straight_through_is_recognised(pieces, data):
    kept = data.draw(st.lists(st.sampled_from(pieces), min_size=1, unique=True))
    assert cut_straight_through(kept)


@given(
    box=st.tuples(*[st.integers(-40, 140)] * 4).map(
        lambda b: (min(b[0], b[2]), min(b[1], b[3]), max(b[0], b[2]) + 1, max(b[1], b[3]) + 1)
    )
)
def test_a_clipped_ring_lies_in_its_box(box):
    gable = ((0, 0), (100, 0), (100, 40), (50, 90), (0, 40))
    ring = clipped(gable, box)
    if ring:
        left, bottom, right, top = bounds(ring)
        assert box[0] <= left <= right <= box[2]
        assert box[1] <= bottom <= top <= box[3]


@given(width=st.integers(1, 500), height=st.integers(50, 500), drop=st.integers(0, 49))
def test_lowering_a_wall_lowers_its_top_only(width, height, drop):
    assert lowered(rectangle(0, 0, width, height), drop) == rectangle(0, 0, width, height - drop)


@QUICK
@given(inches=st.integers(0, 12))
def test_a_wider_clearance_of_openings_never_changes_the_surfaces(inches):
    house = build_house(single_room(14, 12, 8, openings=fits(14, 12))).house
    rules = board_rules(LocalRules(values={"boards.opening_clear": f'{inches}"'}))
    of = board_problem(house, choices=BoardChoices(), rules=rules, boards=price_list())
    assert of.problem.rules.opening_clear == Length.of(inches=inches).sixtyfourths


@cache
def laid_out() -> BoardFigure:
    return figured(two_rooms(), local={"boards.ceiling_rows": "either"})


@settings(max_examples=150, deadline=None)
@given(data=st.data())
def test_no_piece_can_be_moved_or_resized_unseen(data):
    layout = laid_out().outcome.layout
    number = data.draw(st.integers(0, len(layout.pieces) - 1))
    field = data.draw(st.sampled_from(["x", "y", "w", "h"]))
    by = data.draw(st.integers(-200, 200).filter(bool))
    piece = layout.pieces[number]
    moved = replace(piece, **{field: getattr(piece, field) + by})
    changed = replace(layout, pieces=(*layout.pieces[:number], moved, *layout.pieces[number + 1 :]))
    assert verify(laid_out().prepared.problem, changed) != ()


@settings(max_examples=100, deadline=None)
@given(data=st.data())
def test_no_two_pieces_can_change_places_unseen(data):
    layout = laid_out().outcome.layout
    places = st.integers(0, len(layout.pieces) - 1)
    a, b = data.draw(st.tuples(places, places).filter(lambda pair: pair[0] != pair[1]))
    first, second = layout.pieces[a], layout.pieces[b]
    if (first.w, first.h, first.outline) == (second.w, second.h, second.outline):
        return
    pieces = list(layout.pieces)
    pieces[a] = replace(first, surface=second.surface, row=second.row, x=second.x, y=second.y)
    pieces[b] = replace(second, surface=first.surface, row=first.row, x=first.x, y=first.y)
    assert verify(laid_out().prepared.problem, replace(layout, pieces=tuple(pieces))) != ()


@settings(max_examples=50, deadline=None)
@given(data=st.data())
def test_no_piece_can_slide_over_another_on_its_board_unseen(data):
    laid = laid_out().laid_out
    shared = [pieces for pieces in laid.pieces_from.values() if len(pieces) > 1]
    pieces = data.draw(st.sampled_from(shared))
    moved = replace(pieces[1], board_x=pieces[0].board_x, board_y=pieces[0].board_y)
    changed = tuple(moved if piece is pieces[1] else piece for piece in laid.layout.pieces)
    assert verify(laid.problem, replace(laid.layout, pieces=changed)) != ()
