import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.drawing import LETTER, PHONE, css
from setday.drawing.paper import key_of, scale_to_fit, smaller_scale


@given(st.floats(10, 900), st.floats(10, 900))
def test_what_is_drawn_to_scale_fits_the_room(width, height):
    scale = scale_to_fit(width_in=width, height_in=height, room_x=600, room_y=500, paper=LETTER)
    assert width * scale.per_inch <= 600 + 1e-6
    assert height * scale.per_inch <= 500 + 1e-6


@pytest.mark.parametrize(
    ("width", "words"), [(300, '1/4" = 1\'-0"'), (301, '3/16" = 1\'-0"'), (60, '1" = 1\'-0"')]
)
def test_the_largest_architects_scale_is_taken(width, words):
    """At 1/4 in to the foot 300 in take 6.25 in of paper, which is 600 units."""
    assert scale_to_fit(width_in=width, height_in=10, room_x=600, room_y=600, paper=LETTER).words == words


def test_a_phone_fills_its_width_at_no_named_scale():
    scale = scale_to_fit(width_in=300, height_in=10, room_x=330, room_y=600, paper=PHONE)
    assert (scale.per_inch, scale.words) == (1.1, "")


def test_scales_get_smaller_until_there_is_none():
    scale = scale_to_fit(width_in=1, height_in=1, room_x=900, room_y=900, paper=LETTER)
    seen = []
    while scale:
        seen.append(scale.per_inch)
        scale = smaller_scale(scale)
    assert seen == sorted(seen, reverse=True)
    assert len(seen) == len(set(seen)) == 11


@pytest.mark.parametrize(
    ("parts", "key"), [(("wall", "South wall", "left"), "wall-south-wall-left"), (("",), "drawing")]
)
def test_keys_hold_letters_figures_and_hyphens_only(parts, key):
    assert key_of(*parts) == key


def test_the_stylesheet_stays_inside_drawings():
    rules = [line for line in css().splitlines() if line.endswith("{") and not line.startswith("@")]
    assert rules
    assert all(line.startswith(".sd-drawing") for line in rules)
