from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from setday.drawing.lettering import Box, Taken, spread, text_box, text_width

PLACES = st.lists(st.floats(0, 500), max_size=12).map(sorted)


@given(PLACES, st.floats(1, 30))
def test_spread_places_keep_their_distance_and_their_order(places, gap):
    moved = spread(places, gap=gap, low=0, high=500)
    assert all(b - a >= gap - 1e-6 for a, b in pairwise(moved))


@given(PLACES)
def test_places_that_stand_apart_stay(places):
    apart = [place for i, place in enumerate(places) if i == 0 or place - places[i - 1] >= 20]
    kept = [p for i, p in enumerate(apart) if all(abs(p - q) >= 20 for q in apart[:i])]
    assert spread(kept, gap=20, low=0, high=500) == kept


@given(PLACES)
def test_spread_places_stay_in_bounds_where_there_is_room(places):
    moved = spread(places, gap=10, low=0, high=500)
    assert all(-1e-6 <= place <= 500 + 1e-6 for place in moved)


def test_a_wide_letter_counts_twice():
    assert text_width("\N{CJK UNIFIED IDEOGRAPH-6728}") == 2 * text_width("x")


def test_an_upright_text_is_as_high_as_it_is_long():
    level, upright = text_box("8'-0\"", x=0, y=0), text_box("8'-0\"", x=0, y=0, upright=True)
    assert level.right - level.left == upright.bottom - upright.top


def test_a_place_is_taken_once():
    taken, box = Taken(), Box(0, 0, 10, 10)
    assert taken.first_free([box]) == box
    assert taken.first_free([box]) is None
    assert taken.first_free([box, Box(10, 0, 20, 10)]) == Box(10, 0, 20, 10)
