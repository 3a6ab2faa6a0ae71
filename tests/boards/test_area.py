"""The count by area on whole houses: what is taken off, once; layers; wet areas; the working."""

from dataclasses import replace

import pytest

from setday.boards import BoardChoice, BoardChoices, board_rules, count_by_area
from setday.house import TypedWet, build_house
from setday.rules import LocalRules
from tests.boards.houses import single_room
from tests.house.sketches import ft, two_rooms, window

ROOM = single_room(14, 12, 8, openings=(window("W1", "north", "4'", "west"),))
TUB = TypedWet(
    name="tub", wall="north", room="shop", measured_from="west", distance=ft("0'"), width=ft("6'"),
    bottom=ft("0'"), top=ft("6'"), board="none",
)  # fmt: skip


def count(description, *, choices=None, local=None):
    house = build_house(description).house
    rules = board_rules(LocalRules(values=local or {}))
    return count_by_area(house, choices=choices or BoardChoices(), rules=rules)


def line(of, label):
    return next(found for found in of.lines if found.label == label)


def test_the_window_is_taken_off():
    # 14 x 8 ft less 48 x 42 in.
    assert line(count(ROOM), "shop, north wall").net.sqft == 14 * 8 - 4 * 3.5


def test_openings_may_be_counted_as_board():
    of = count(ROOM, local={"boards.by_area_openings": "no"})
    assert line(of, "shop, north wall").net.sqft == 14 * 8


def test_what_overlaps_is_taken_off_once():
    # The tub reaches from 0 to 6 ft along and 6 ft up; the window, 48 x 42 in, stands 40 1/2 in up and from
    # 4 ft less the wall's framing on, so that both share 31 1/2 in of height.
    of = line(count(replace(ROOM, wets=(TUB,))), "shop, north wall")
    begins = 48 - 5.5
    shared = (72 - begins) * 31.5 / 144
    assert of.net.sqft == pytest.approx(14 * 8 - 4 * 3.5 - 6 * 6 + shared)
    assert sum(taken.area.sqft for taken in of.off) == pytest.approx(4 * 3.5 + 6 * 6 - shared)


def test_a_wet_area_is_counted_with_its_own_board():
    of = count(replace(ROOM, wets=(replace(TUB, board="wet-area"),)))
    kinds = {found.board_kind for found in of.lines}
    assert kinds == {"regular-1/2", "wet-area-1/2"}
    plain = count(ROOM)
    assert of.net_area.sqft == pytest.approx(plain.net_area.sqft)


def test_two_layers_count_twice():
    once = count(ROOM)
    twice = count(ROOM, choices=BoardChoices(choices=(BoardChoice(layers=2),)))
    assert twice.net_area.sqft == pytest.approx(2 * once.net_area.sqft)


def test_a_bare_surface_counts_nothing():
    of = count(ROOM, choices=BoardChoices(choices=(BoardChoice(on="ceilings", layers=0),)))
    assert {found.part for found in of.lines} == {"outside walls"}


def test_longer_sheets_are_a_setting():
    of = count(ROOM, local={"boards.by_area_length": "12'"})
    assert [group.sheets for group in of.groups] == [9, 4]


def test_the_working_adds_up():
    of = count(two_rooms())
    nets = {s.label: s.value for s in of.working.steps if s.label.endswith(", net")}
    for found in of.lines:
        if found.off:
            assert nets[f"{found.label}, net"] == pytest.approx(found.net.sqft)
    assert of.working.value == of.sheets == sum(order.ordered for order in of.orders)


def test_the_working_names_the_source_of_sheet_and_waste():
    titles = {source.title for source in count(ROOM).working.sources}
    assert len(titles) == 2
