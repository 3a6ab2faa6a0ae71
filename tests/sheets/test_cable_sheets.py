"""The printed sheets of a house's cable."""

import time
from datetime import date

import pytest

from setday.actions.cable.figured import figure_cable
from setday.actions.cable.sheets import cable_pages
from setday.actions.houses import demo_text, open_house
from setday.sheets import CABLE_CAUTIONS, TableBlock, cable_sheets
from tests.sheets.printed import page_count, words_of


@pytest.fixture(scope="module")
def cable():
    return figure_cable(open_house(demo_text("shed"), name="shed.yaml"), clock=time.monotonic)


@pytest.fixture(scope="module")
def printed(cable):
    return words_of(cable_pages("Practice shed", cable, dated=date(2026, 3, 2)))


def tables(sheet):
    return [block.table for block in sheet.blocks if isinstance(block, TableBlock)]


def test_every_circuit_has_its_own_page(cable):
    titles = [sheet.title for sheet in cable_sheets(cable.figure)]
    for number, circuit in enumerate(cable.figure.plan.circuits, start=1):
        assert f"Circuit {number}: {circuit.name}" in titles


def test_every_run_stands_on_a_pull_list_once_and_has_two_labels(cable):
    sheets = cable_sheets(cable.figure)
    pulls = [
        row[1] for sheet in sheets if sheet.title.startswith("Circuit ") for row in tables(sheet)[0].rows
    ]
    assert sorted(pulls) == sorted(pull.number for pull in cable.figure.pulls)
    labels = next(tables(sheet)[0].rows for sheet in sheets if sheet.title == "End labels")
    assert [each for row in labels for each in row] == [
        each for pull in cable.figure.pulls for each in (pull.start_label, pull.end_label)
    ]


def test_the_panel_directory_names_every_space(cable):
    sheet = next(s for s in cable_sheets(cable.figure) if s.title == "Panel directory")
    rows = tables(sheet)[0].rows
    spaces = [cell.split()[0] for row in rows for cell in (row[0], row[3]) if cell]
    assert spaces == [str(slot.space) for slot in cable.figure.plan.directory.slots]


def test_the_cautions_are_printed(printed):
    text = " ".join(printed.split())
    for caution in CABLE_CAUTIONS:
        assert caution in text


def test_pages_print(cable):
    assert page_count(cable_pages("Practice shed", cable, dated=date(2026, 3, 2))) >= 6
