"""Figures of the demo house against what the trades figure."""

import pytest

from setday.learning import SlipKind, as_working, slips_of, work_out
from setday.learning.sealed import SealedFigure
from tests.learning import figures


def test_there_are_more_than_forty_figures_of_more_than_twelve_kinds():
    every = figures.demo()[2]
    assert len(every) > 40
    assert len({each.kind for each in every}) > 12
    assert len({each.key for each in every}) == len(every)


def test_floors_are_those_of_the_house():
    house, _cable, every = figures.demo()
    areas = {each.room: work_out(each)["area"] for each in every if each.kind == "floor area"}
    assert areas == pytest.approx({name: house.room(name).area.sqft for name in areas}, rel=2e-3)


def test_box_fill_is_that_of_the_cable():
    _house, cable, _every = figures.demo()
    for fill in cable.worked.fills:
        assert work_out(figures.demo_figure(f"cable/box/{fill.box}"))["total"] == pytest.approx(
            fill.needed_in3
        )


def test_the_cable_of_a_run_is_its_cut_but_for_the_last_part_of_an_inch():
    _house, cable, _every = figures.demo()
    for run in cable.routing.runs:
        total = work_out(figures.demo_figure(f"cable/run/{run.number}"))["total"] * 12
        assert 0 <= run.cut.inches - total + 0.2 <= 1.4


def test_a_working_has_a_step_for_every_line_and_ends_with_the_answer():
    for figure in figures.demo()[2]:
        working = as_working(figure)
        assert len(working.steps) == len(figure.lines)
        assert working.value == work_out(figure)[figure.last.key]


def test_the_asking_sentence_never_holds_the_answer():
    for figure in figures.demo()[2]:
        assert as_working(figure).result not in figure.ask


def test_kinds_of_slips_belong_to_the_figure():
    kinds = {slip.kind for slip in slips_of(figures.demo_figure("room/bath/boards"))}
    assert {SlipKind.CEILING_FORGOTTEN, SlipKind.WASTE_TWICE, SlipKind.BY_TWELVE} <= kinds
    assert SlipKind.END_FORGOTTEN not in kinds


def test_no_answer_is_taken_once_the_tries_are_used_up_or_it_is_opened():
    with pytest.raises(ValueError, match="no answer"):
        SealedFigure(figure="a", tries_allowed=1, tries=1).handed_in()
    with pytest.raises(ValueError, match="no answer"):
        SealedFigure(figure="a", tries_allowed=3, tries=1, opened=True).handed_in()


def test_nothing_may_be_seen_before_it_is_opened():
    assert not SealedFigure(figure="a", tries=1).may_see
    assert SealedFigure(figure="a", opened=True).may_see
