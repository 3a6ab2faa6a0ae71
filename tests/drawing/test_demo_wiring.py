"""The wiring of the demo house, drawn: no two texts stand on each other, nothing leaves the paper."""

import time
from collections.abc import Callable
from dataclasses import replace

import pytest

from setday.actions.cable.figured import figure_cable
from setday.actions.houses import demo_text, open_house
from setday.cable import CableFigure
from setday.drawing import (
    LANDSCAPE,
    LETTER,
    PHONE,
    Paper,
    home_run_map,
    wall_wiring,
    wiring_key,
    wiring_plan,
)
from tests.drawing.reading import collisions, outside_paper, root_of

PUSHED = replace(PHONE, width=760)
"""What the pages draw for a phone: twice as wide, pushed about under the thumb."""
PAPERS = {"letter": LETTER, "landscape": LANDSCAPE, "phone": PUSHED}


@pytest.fixture(scope="module")
def figure() -> CableFigure:
    return figure_cable(open_house(demo_text("wired"), name="wired.yaml"), clock=time.monotonic).figure


def plan(figure: CableFigure, paper: Paper, lit: str = "") -> str:
    return wiring_plan(
        figure.house, circuits=figure.plan.circuits, runs=figure.routing.runs, lit=lit, paper=paper
    )


def homes(figure: CableFigure, paper: Paper) -> str:
    return home_run_map(figure.house, figure.routing.runs, paper=paper)


DRAWN: dict[str, Callable[[CableFigure, Paper], str]] = {
    "wiring": plan,
    "lit": lambda figure, paper: plan(figure, paper, figure.plan.circuits[-1].name),
    "home runs": homes,
    "key": lambda figure, paper: wiring_key(figure.house, figure.plan.circuits, width=paper.width),
}


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", DRAWN)
def test_the_wiring_of_a_whole_house_is_lettered_without_a_clash(figure, name, paper):
    svg = DRAWN[name](figure, PAPERS[paper])
    assert root_of(svg) is not None
    assert outside_paper(svg) == []
    assert collisions(svg) == []


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("paper", ["letter", "landscape"])
def test_every_wall_with_what_is_inside_is_lettered_without_a_clash(figure, paper, side):
    wrong = {}
    for wall in figure.house.walls:
        svg = wall_wiring(
            figure.house,
            wall,
            side=side,
            runs=figure.routing.runs,
            holes=figure.routing.holes,
            plates=figure.routing.plates,
            circuits=[circuit.name for circuit in figure.plan.circuits],
            paper=PAPERS[paper],
        )
        found = collisions(svg) or outside_paper(svg)
        if found:
            wrong[wall.name] = found
    assert wrong == {}


def test_every_run_in_a_wall_is_drawn_in_it(figure):
    for wall in figure.house.walls:
        svg = wall_wiring(figure.house, wall, runs=figure.routing.runs)
        drawn = {e.get("data-id") for e in root_of(svg).iter() if e.get("data-kind") == "run"}
        assert drawn == {run.number for run in figure.routing.runs if wall.name in run.walls}
