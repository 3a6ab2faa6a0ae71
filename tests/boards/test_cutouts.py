"""What is cut out of a piece, against pieces measured by hand on squared paper."""

import pytest

from setday.boards import cuts_in_words, is_shaped
from setday.boards.cutouts import cut_outs, slopes
from setday.boards.problem import Void
from setday.measure import Length
from tests.boards.laid_by_hand import LAYOUT, PROBLEM, box, piece, ring, surface

SURFACES = {each.id: each for each in PROBLEM.surfaces}


def opening(name: str, x: float, y: float, w: float, h: float) -> Void:
    return Void(x=round(x * 64), y=round(y * 64), w=round(w * 64), h=round(h * 64), name=name)


WALL = surface(
    "hall/north",
    box(192, 96),
    1,
    voids=(opening("front door", 73, 0, 38, 82.5), opening("window", 120, 60, 20, 24)),
)
LOWER = piece("hall/north", 0, (48, 0, 96, 48), (1, 0, 0))
UPPER = piece("hall/north", 1, (48, 48, 120, 48), (2, 0, 0))


@pytest.mark.parametrize(
    ("cut", "words"),
    [
        (LOWER, ("front door cut out 2'-1\" from the left, 3'-2\" wide, from edge to edge",)),
        (
            UPPER,
            (
                "front door cut out 2'-1\" from the left, 3'-2\" wide, 2'-10 1/2\" high from the lower edge",
                (
                    "window cut out 6'-0\" from the left, 1'-8\" wide, "
                    "2'-0\" high, its lower side 1'-0\" above the lower edge"
                ),
            ),
        ),
        (
            piece("hall/north", 1, (0, 48, 90, 48), (3, 0, 0)),
            ("front door cut out at the right end, 1'-5\" wide, 2'-10 1/2\" high from the lower edge",),
        ),
        (
            piece("hall/north", 1, (130, 48, 62, 48), (3, 0, 0)),
            (
                (
                    "window cut out at the left end, 10\" wide, 2'-0\" high, "
                    "its lower side 1'-0\" above the lower edge"
                ),
            ),
        ),
        (piece("hall/north", 1, (0, 82 + 31 / 64, 90, 13.5), (3, 0, 0)), ()),
        (piece("hall/north", 1, (144, 48, 48, 48), (3, 0, 0)), ()),
    ],
)  # fmt: skip
def test_openings_are_called_out_from_the_left_end_and_the_lower_edge(cut, words):
    assert cuts_in_words(cut, WALL) == words


@pytest.mark.parametrize(
    ("corners", "words"),
    [
        (
            ((0, 0), (48, 0), (48, 27), (0, 60.5)),
            ("slope from 5'-0 1/2\" down to 2'-3\" over 4'-0\"",),
        ),
        (
            ((0, 0), (48, 0), (48, 40), (24, 60.5), (0, 60.5)),
            ("slope from 5'-0 1/2\" down to 3'-4\" over 2'-0\", beginning 2'-0\" from the left",),
        ),
        (
            ((0, 0), (48, 0), (48, 30), (24, 60), (0, 30)),
            (
                "slope from 2'-6\" up to 5'-0\" over 2'-0\"",
                "slope from 5'-0\" down to 2'-6\" over 2'-0\", beginning 2'-0\" from the left",
            ),
        ),
        (
            ((0, 30), (48, 0), (48, 60), (0, 60)),
            ("slope of the lower edge from 2'-6\" down to 0\" over 4'-0\"",),
        ),
    ],
)  # fmt: skip
def test_slopes_are_called_out_from_left_to_right(corners, words):
    bare = surface("loft/gable", ring(*corners), 1)
    height = max(y for _, y in corners)
    assert cuts_in_words(piece("loft/gable", 0, (0, 0, 48, height), (1, 0, 0), *corners), bare) == words


def test_a_room_with_a_corner_in_it_asks_for_a_notch():
    """A ceiling of 10 by 4 ft without its upper right corner of 3 by 1 ft."""
    corners = ((0, 0), (120, 0), (120, 36), (84, 36), (84, 48), (0, 48))
    hung = piece("den/ceiling", 0, (0, 0, 120, 48), (1, 0, 0), *corners)
    assert cuts_in_words(hung, surface("den/ceiling", ring(*corners), 1)) == (
        "notch cut out at the right end, 3'-0\" wide, 1'-0\" deep from the upper edge",
    )


def test_an_opening_beside_a_slope_is_no_notch_of_its_own():
    """A door in a gable end: 30 in wide, 40 in high, under a slope from 5 ft down to 4 ft."""
    wall = surface(
        "loft/end", ring((0, 0), (96, 0), (96, 48), (0, 60)), 1, voids=(opening("D1", 20, 0, 30, 40),)
    )
    corners = ((0, 0), (20, 0), (20, 40), (50, 40), (50, 0), (96, 0), (96, 48), (0, 60))
    hung = piece("loft/end", 0, (0, 0, 96, 60), (1, 0, 0), *corners)
    assert [cut.name for cut in cut_outs(hung, wall)] == ["D1"]
    assert [(s.start_height, s.end_height) for s in slopes(hung)] == [(Length(60 * 64), Length(48 * 64))]


def test_of_the_layout_by_hand_the_pieces_at_the_window_and_under_the_gable_are_shaped():
    """The layout says so itself: those are the pieces it gives an outline of their own."""
    shaped = [n for n, each in enumerate(LAYOUT.pieces) if is_shaped(each, SURFACES[each.surface])]
    assert shaped == [n for n, each in enumerate(LAYOUT.pieces) if each.outline]


@pytest.mark.parametrize("number", range(len(LAYOUT.pieces)))
def test_box_less_cut_outs_and_slopes_is_the_outline(number):
    """The area a piece keeps, by its outline and by what is cut off it."""
    each = LAYOUT.pieces[number]
    points = each.outline or ((0, 0), (each.w, 0), (each.w, each.h), (0, each.h))
    kept = (
        sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, (*points[1:], points[0]), strict=True))
        / 2
    )
    cut = sum(c.width.sixtyfourths * c.height.sixtyfourths for c in cut_outs(each, SURFACES[each.surface]))
    off = sum(
        (s.end - s.start).sixtyfourths
        * (each.h - (s.start_height.sixtyfourths + s.end_height.sixtyfourths) / 2)
        for s in slopes(each)
    )
    assert kept + cut + off == each.w * each.h
