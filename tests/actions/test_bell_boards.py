"""Kept boards on a crew's sheet: every piece with its length, and no count of other rooms."""

import re
import time

import pytest

from setday.actions import demo_text, open_house
from setday.actions.bells.boards import boards_of
from setday.actions.bells.pictures import PHONES, Pictures
from setday.actions.boards import figure_boards
from setday.actions.buying import demo_prices, open_prices
from setday.boards import Limits, verify
from setday.findings import Severity
from setday.timetable.tasks import Work, timetable_rules, zones_of


@pytest.fixture(scope="module")
def opened():
    return open_house(demo_text("shed"), name="shed.yaml")


@pytest.fixture(scope="module")
def figure(opened):
    limits = Limits(seconds=0.5, clock=time.monotonic, workers=1)
    prices = open_prices(demo_prices().text, name="demo prices")
    return figure_boards(opened, prices=prices, limits=limits)


@pytest.fixture(scope="module")
def pictures(opened, figure):
    zones = zones_of(opened.built(), rules=timetable_rules(opened.local))
    return Pictures(opened, zones=zones, clock=time.monotonic, boards=figure, papers=PHONES)


def at(kind):
    return Work(key=kind, label=kind, trade="boards", kind=kind, place="workroom", minutes=100)


def pieces(svg):
    """Return how many pieces a drawing says it has."""
    return int(re.search(r"(\d+) pieces in rows", svg)[1])


@pytest.mark.parametrize(("kind", "first"), [("hang-walls", "Boards of"), ("tape", "workroom")])
def test_boards_are_drawn_for_those_who_hang_them(pictures, kind, first):
    drawn, _more = pictures.of_work(at(kind))
    assert drawn
    assert all(re.search(rf"<title[^>]*>{first}", svg) for svg in drawn)


def test_every_piece_of_a_surface_is_on_its_drawing(figure, opened):
    for surface in opened.built().surfaces:
        drawn = list(boards_of(figure, surface.id, paper=PHONES[0], key="t"))
        notes = {note.surface for note in figure.prepared.notes if note.house_surface == surface.id}
        many = sum(piece.surface in notes for piece in figure.outcome.layout.pieces)
        assert sum(map(pieces, drawn)) == many


def test_numbered_by_itself_a_surface_begins_at_board_1_and_leaves_none_out(figure, opened):
    for surface in opened.built().surfaces:
        for svg in boards_of(figure, surface.id, paper=PHONES[0], key="t", alone=True):
            listed = re.search(r"Pieces: (.*?)\.\s*<", svg + "<")[1]
            numbers = {int(found) for found in re.findall(r"(?:^|; )(\d+)[a-z]?,", listed)}
            assert numbers == set(range(1, len(numbers) + 1))


def test_the_layout_that_is_drawn_passed_its_check(figure):
    assert [
        f for f in verify(figure.prepared.problem, figure.outcome.layout) if f.severity is Severity.PROBLEM
    ] == []
