"""The demo houses, drawn whole: nothing stands on anything else, on paper and on a phone."""

import pytest

from setday.drawing import LANDSCAPE, LETTER, PHONE, plan, surface_elevation, wall_elevation
from setday.files import read_house
from setday.house import House, build_house
from tests.drawing.reading import collisions, outside_paper, size_of

PAPERS = {"letter": LETTER, "landscape": LANDSCAPE, "phone": PHONE}


@pytest.fixture(scope="module", params=["house", "shed"])
def house(request) -> House:
    from importlib.resources import files

    read = read_house((files("setday.demo") / f"{request.param}.yaml").read_bytes(), name=request.param)
    built = build_house(read.description).house
    assert built is not None
    return built


@pytest.mark.parametrize("paper", PAPERS)
def test_the_plan_reads_clearly_and_stays_on_its_paper(house, paper):
    svg = plan(house, paper=PAPERS[paper])
    assert collisions(svg) == []
    assert outside_paper(svg) == []
    width, height = size_of(svg)
    assert width <= PAPERS[paper].width + 1
    assert height <= PAPERS[paper].height + 1


@pytest.mark.parametrize("paper", PAPERS)
def test_every_wall_reads_clearly_from_both_sides(house, paper):
    for wall in house.walls:
        for side in ("left", "right"):
            svg = wall_elevation(wall, side=side, paper=PAPERS[paper])
            assert (wall.name, side, collisions(svg), outside_paper(svg)) == (wall.name, side, [], [])


@pytest.mark.parametrize("paper", ["letter", "phone"])
def test_every_surface_reads_clearly(house, paper):
    for surface in house.surfaces:
        svg = surface_elevation(surface, paper=PAPERS[paper])
        assert (surface.id, collisions(svg), outside_paper(svg)) == (surface.id, [], [])
