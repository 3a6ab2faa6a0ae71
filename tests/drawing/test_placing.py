import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.drawing.lettering import Box, Taken
from setday.drawing.placing import box_in_rings, free_place, inside, upright_inside

SQUARE = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
CORNERED = [(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (40.0, 40.0), (40.0, 100.0), (0.0, 100.0)]
GABLE = [(0.0, 50.0), (50.0, 0.0), (100.0, 50.0), (100.0, 100.0), (0.0, 100.0)]


@pytest.mark.parametrize(
    ("ring", "box", "holds"),
    [
        (SQUARE, Box(10, 10, 90, 90), True),
        (SQUARE, Box(10, 10, 110, 90), False),
        (CORNERED, Box(10, 10, 90, 30), True),
        (CORNERED, Box(10, 10, 60, 60), False),
        (GABLE, Box(40, 20, 60, 90), True),
        (GABLE, Box(10, 20, 60, 90), False),
        (GABLE, Box(26, 26, 74, 90), True),
    ],
)
def test_a_box_is_held_only_where_no_line_enters_it(ring, box, holds):
    assert box_in_rings(box, ring) is holds


def test_a_hole_holds_nothing():
    hole = [(40.0, 40.0), (60.0, 40.0), (60.0, 60.0), (40.0, 60.0)]
    assert not inside(50, 50, SQUARE, hole)
    assert not box_in_rings(Box(30, 30, 70, 70), SQUARE, hole)


@given(st.sampled_from([SQUARE, CORNERED, GABLE]), st.floats(5, 60), st.floats(5, 60))
def test_a_place_that_is_found_lies_inside_and_is_free(ring, wide, tall):
    taken = Taken([Box(20, 60, 35, 90)])
    box = free_place([ring], (wide, tall), taken)
    if box is not None:
        assert box_in_rings(box, ring)
        assert not box.meets(Box(20, 60, 35, 90))


def test_nothing_is_found_where_nothing_fits():
    assert free_place([SQUARE], (120, 5), Taken()) is None


@pytest.mark.parametrize(("x", "top"), [(0, 2), (1, 3), (2, 4), (3, 3), (4, 2)])
def test_an_upright_line_ends_at_the_slope(x, top):
    gable = [(0, 0), (4, 0), (4, 2), (2, 4), (0, 2)]
    [(low, high)] = upright_inside(gable, x=x, low=0, high=9)
    assert (low, high) == (0, pytest.approx(top, abs=1e-3))
