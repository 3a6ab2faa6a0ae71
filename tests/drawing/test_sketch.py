"""Sketches of surfaces: the order of things and nothing that can be measured."""

import re
from dataclasses import replace

import pytest

from setday.drawing import PHONE, surface_sketch
from setday.measure import Length
from tests.drawing.houses import tiny_house


def grown(surface, times):
    """Return a surface whose every measure is so many times as large."""

    def more(length):
        return Length(length.sixtyfourths * times)

    def box(each):
        return replace(each, x=more(each.x), y=more(each.y), w=more(each.w), h=more(each.h))

    return replace(
        surface,
        outline=tuple((more(x), more(y)) for x, y in surface.outline),
        openings=tuple(box(each) for each in surface.openings),
        wet=tuple(box(each) for each in surface.wet),
    )


@pytest.mark.parametrize("surface", tiny_house().surfaces, ids=lambda each: each.id)
def test_surfaces_of_other_measures_have_the_same_sketch(surface):
    assert surface_sketch(surface, paper=PHONE) == surface_sketch(grown(surface, 3), paper=PHONE)


def test_a_wider_opening_does_not_show():
    surface = next(each for each in tiny_house().surfaces if each.openings)
    first, *rest = surface.openings
    wider = replace(surface, openings=(replace(first, w=Length(first.w.sixtyfourths + 64)), *rest))
    assert surface_sketch(surface) == surface_sketch(wider)


@pytest.mark.parametrize("surface", tiny_house().surfaces, ids=lambda each: each.id)
def test_no_figure_is_lettered_on_a_sketch(surface):
    words = re.findall(r"<text[^>]*>([^<]*)</text>", surface_sketch(surface))
    assert [each for each in words if re.search(r"\d", each)] == []


def test_openings_are_named_in_their_order():
    surface = next(each for each in tiny_house().surfaces if each.openings)
    assert surface.openings[0].kind in surface_sketch(surface)
