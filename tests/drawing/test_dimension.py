from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.drawing.dimension import chain, distinct_stops
from setday.drawing.ink import group
from setday.measure import Length, parse_length
from tests.drawing.reading import collisions, texts_of

SCALE = 4.0


def stops_of(inches: list[int]) -> tuple[tuple[float, Length], ...]:
    places = [0]
    for step in inches:
        places.append(places[-1] + step)
    return tuple((place * SCALE, Length.of(inches=place)) for place in places)


def svg_of(inches: list[int], side: str = "bottom") -> str:
    drawn = chain(stops_of(inches), side=side, at=100)
    return f'<svg xmlns="http://www.w3.org/2000/svg">{group(drawn.svg)}</svg>'


@given(st.lists(st.integers(24, 200), min_size=1, max_size=8))
def test_what_is_written_adds_up_to_the_whole(inches):
    written = [parse_length(text) for text in texts_of(svg_of(inches))]
    assert sum(length.sixtyfourths for length in written) == sum(inches) * 64


@pytest.mark.parametrize("side", ["top", "bottom", "left", "right"])
@pytest.mark.parametrize("inches", [[40, 3, 60], [3, 3, 3, 90], [90, 3], [12, 100, 12], [5, 6, 5, 6, 80]])
def test_narrow_stretches_are_written_clear_of_the_others(side, inches):
    svg = svg_of(inches, side)
    assert len(texts_of(svg)) == len(inches)
    assert collisions(svg) == []


@pytest.mark.parametrize("side", ["top", "bottom"])
def test_moved_texts_make_the_chain_deeper(side):
    plain = chain(stops_of([100, 100]), side=side, at=0).depth
    crowded = chain(stops_of([100, 3, 100]), side=side, at=0).depth
    assert crowded > plain


def test_a_text_moves_aside_for_a_line_of_another_chain():
    stops = stops_of([120])
    middle = (stops[0][0] + stops[1][0]) / 2
    plain, moved = chain(stops, side="bottom", at=0), chain(stops, side="bottom", at=0, avoid=[middle])
    assert plain.words != moved.words


def test_a_place_named_twice_is_one_stop():
    length = Length.of(inches=5)
    stops = distinct_stops([(10.0, length), (0.0, Length(0)), (10.0, length)])
    assert [at for at, _ in stops] == [0.0, 10.0]
    assert all(a < b for (a, _), (b, _) in pairwise(stops))
