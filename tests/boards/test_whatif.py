"""What if: variants of one house side by side."""

from dataclasses import replace

import pytest

from setday.boards import (
    BoardChoices,
    OffcutUse,
    Status,
    Variant,
    board_rules,
    only_lengths,
    usual_variants,
    what_if,
)
from setday.house import build_house
from setday.measure import Length
from setday.rules import LocalRules
from tests.boards.houses import price_list
from tests.boards.solving import LIMITS
from tests.house.sketches import shed

LIST = price_list()


def run(variants):
    house = build_house(shed()).house
    return what_if(
        house, variants, choices=BoardChoices(), rules=board_rules(), boards=LIST,
        limits=replace(LIMITS, seconds=0.3),
    )  # fmt: skip


@pytest.fixture(scope="module")
def usual():
    return run(usual_variants(LIST, BoardChoices()))


def test_every_variant_gets_a_row(usual):
    assert [row.label for row in usual] == [
        "as chosen",
        "only 8 ft boards",
        "no boards wider than 48 in",
        "off-cuts stay in their room",
    ]
    assert all(row.boards and row.pieces and row.status is not Status.NONE for row in usual)


def test_a_variant_that_changes_nothing_is_left_out():
    eights = price_list(lengths=(8,), widths=(48,))
    near = BoardChoices(offcuts=OffcutUse.ROOM)
    assert [variant.label for variant in usual_variants(eights, near)] == ["as chosen"]


def test_short_boards_only_make_more_boards(usual):
    assert usual[1].boards > usual[0].boards


@pytest.mark.parametrize("row", [1, 2, 3])
def test_fewer_choices_never_come_out_cheaper(usual, row):
    assert usual[row].dearer_cents >= 0


def test_differences_are_to_the_first_row(usual):
    assert [row.dearer_cents for row in usual] == [row.cost_cents - usual[0].cost_cents for row in usual]


def test_a_dearer_price_list_costs_more():
    dearer = tuple(replace(board, price_cents=board.price_cents * 2) for board in LIST)
    plain, double = run((Variant(label="plain"), Variant(label="double", boards=dearer)))
    assert double.cost_cents > 1.5 * plain.cost_cents


def test_another_rule_is_a_variant():
    rule = LocalRules(values={"boards.wall_thickness": '5/8"'})
    _plain, thick = run((Variant(label="plain"), Variant(label="thick walls", local=rule)))
    assert thick.dearer_cents > 0


def test_a_variant_without_boards_is_told_and_stops_nothing():
    none, plain = run((Variant(label="none", boards=()), Variant(label="plain")))
    assert none.status is Status.NONE
    assert none.findings
    assert plain.dearer_cents == 0


def test_only_the_lengths_asked_for_are_kept():
    kept = only_lengths(LIST, (Length.of(feet=8), Length.of(feet=12)))
    assert {board.length // 768 for board in kept} == {8, 12}
