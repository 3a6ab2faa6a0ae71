"""The figure: prepared, solved, verified, and nothing shown that did not pass."""

from dataclasses import replace

import pytest

from setday.boards import (
    BoardChoice,
    BoardChoices,
    CarryIn,
    Status,
    board_rules,
    check,
    totals,
    verify_outcome,
)
from setday.findings import Severity
from setday.house import build_house
from tests.boards.houses import price_list, single_room
from tests.boards.solving import LIMITS, figured, solving_to, stop_at_first
from tests.house.sketches import ft, shed, two_rooms


@pytest.fixture(scope="module")
def done():
    return figured(two_rooms())


def test_a_house_comes_out_with_a_verified_layout(done):
    assert done.outcome.status is Status.STOPPED
    assert verify_outcome(done.prepared.problem, done.outcome) == ()


def test_the_totals_are_those_of_the_layout(done):
    assert done.totals == totals(done.prepared.problem, done.outcome.layout)
    assert done.totals.cost_cents == done.outcome.cost_cents


def test_the_layout_covers_what_the_surfaces_show(done):
    # Two rooms of 160 3/4 x 133 and 112 3/4 x 133 in, boards 96 in high on every wall, less two doors
    # seen from three sides (38 x 81 7/8) and a window (48 x 42).
    ceilings = 160.75 * 133 + 112.75 * 133
    walls = 96 * (2 * 160.75 + 2 * 132 + 2 * 133 + 2 * 111.75)
    openings = 3 * 38 * 81.875 + 48 * 42
    assert done.totals.net_area / 64**2 == ceilings + walls - openings


def test_a_broken_layout_is_never_shown(done):
    layout = replace(done.outcome.layout, pieces=done.outcome.layout.pieces[1:])
    shown = figured(two_rooms(), solve=solving_to(replace(done.outcome, layout=layout)), on_progress=None)
    assert shown.outcome.status is Status.NONE
    assert shown.outcome.layout is None
    assert shown.outcome.why_none
    assert "boards.verify.uncovered" in {f.rule for f in shown.findings}
    assert (shown.totals, shown.hardware, shown.cut_list, shown.work) == (None, None, None, ())


def test_a_wrong_total_is_never_shown(done):
    lied = replace(done.outcome, cost_cents=done.outcome.cost_cents - 1)
    assert figured(two_rooms(), solve=solving_to(lied), on_progress=None).outcome.status is Status.NONE


def test_a_broken_layout_on_the_way_is_held_back(done):
    layout = replace(done.outcome.layout, pieces=done.outcome.layout.pieces[1:])
    told = []
    figured(
        two_rooms(),
        solve=solving_to(replace(done.outcome, layout=layout)),
        on_progress=lambda progress: told.append(progress.layout) or True,
    )
    assert told == [None]


def test_a_good_layout_on_the_way_is_shown(done):
    told = []
    figured(
        two_rooms(),
        solve=solving_to(done.outcome),
        on_progress=lambda progress: told.append(progress.layout) or True,
    )
    assert told == [done.outcome.layout]


@pytest.mark.parametrize(
    "given",
    [
        {"boards": ()},
        {"choices": BoardChoices(choices=(BoardChoice(kind="unheard-of"),))},
        {"choices": BoardChoices(carry_in=(CarryIn(room="shop", longest=ft("2'")),))},
        {"choices": BoardChoices(choices=(BoardChoice(layers=0),))},
    ],
)
def test_what_cannot_be_laid_out_comes_back_with_reasons(given):
    shown = figured(shed(), **given)
    assert shown.outcome.status is Status.NONE
    assert shown.outcome.why_none
    assert shown.by_area.sheets >= 0


def test_the_check_says_what_the_figure_says(done):
    house = build_house(two_rooms()).house
    found = check(house, choices=BoardChoices(), rules=board_rules(), boards=price_list())
    assert found == done.prepared.findings


def test_the_same_input_gives_the_same_layout(done):
    again = figured(two_rooms())
    assert again.outcome.layout == done.outcome.layout


def test_a_stack_heavier_than_the_floor_is_asked_about():
    shown = figured(shed(), local={"boards.floor_load": "10"})
    asked = [f for f in shown.findings if f.rule == "boards.stack-on-floor"]
    assert [f.severity for f in asked] == [Severity.ASK]


def test_every_figure_has_a_working(done):
    titles = [working.title for working in done.workings]
    assert len(titles) == len(set(titles)) >= 4
    assert all(working.steps for working in done.workings)


def test_every_setting_names_its_source(done):
    assert {rule.key for rule in done.settings} == set(board_rules().rules)
    assert all(rule.source.title for rule in done.settings)


def test_one_small_room_is_laid_out_by_the_plain_call():
    shown = figured(single_room(8, 6, 97.125 / 12), limits=replace(LIMITS, seconds=1.0), on_progress=None)
    assert shown.outcome.layout is not None
    assert shown.outcome.bound.cost_cents <= shown.outcome.cost_cents


def test_stopping_keeps_the_first_layout():
    assert figured(shed(), on_progress=stop_at_first).outcome.layout is not None
