import re

import pytest

from setday.drawing.hatch import hatch, hatch_box
from setday.drawing.placing import inside

L_SHAPE = [(0.0, 0.0), (90.0, 0.0), (90.0, 30.0), (30.0, 30.0), (30.0, 90.0), (0.0, 90.0)]


def segments(svg: str) -> list[tuple[float, float, float, float]]:
    number = r"(-?[\d.]+)"
    return [tuple(map(float, m)) for m in re.findall(rf"M{number} {number}L{number} {number}", svg)]


@pytest.mark.parametrize("angle", [0, 30, 45, 90, -45])
def test_every_line_runs_inside_the_shape(angle):
    for x1, y1, x2, y2 in segments(hatch([L_SHAPE], angle=angle)):
        for share in (0.1, 0.5, 0.9):
            assert inside(x1 + (x2 - x1) * share, y1 + (y2 - y1) * share, L_SHAPE)


def test_level_hatching_of_a_box_has_a_line_every_spacing():
    assert len(segments(hatch_box(x=0, y=0, w=50, h=52, spacing=5, angle=0))) == 10


def test_what_is_too_small_for_a_line_is_left_blank():
    assert hatch([[(0.1, 0.1), (0.2, 0.1), (0.2, 0.2)]], spacing=5) == ""
