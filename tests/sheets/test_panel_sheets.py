"""The sheets on protection, boxes and voltage drop: all that was worked out is on them."""

import time
from datetime import date

import pytest

from setday.actions.cable.figured import figure_cable
from setday.actions.cable.sheets import cable_pages
from setday.actions.houses import demo_text, open_house
from setday.sheets import TableBlock, cable_sheets
from tests.sheets.printed import words_of


@pytest.fixture(scope="module")
def cable():
    return figure_cable(open_house(demo_text("shed"), name="shed.yaml"), clock=time.monotonic)


def rows(cable, title, number=0):
    sheet = next(sheet for sheet in cable_sheets(cable.figure) if sheet.title == title)
    return [block.table for block in sheet.blocks if isinstance(block, TableBlock)][number].rows


def test_every_reason_for_protection_is_printed_with_its_source(cable):
    asked = [
        (circuit.name, reason.sentence, str(reason.source))
        for circuit in cable.figure.plan.circuits
        for protection in circuit.protections
        for reason in protection.reasons
    ]
    assert asked
    assert [(row[1], row[3], row[5]) for row in rows(cable, "Protection of the circuits")] == asked


def test_every_box_and_every_circuit_is_printed(cable):
    worked = cable.figure.worked
    assert [row[0] for row in rows(cable, "Boxes and voltage drop", 1)] == [f.box for f in worked.fills]
    assert [row[0] for row in rows(cable, "Boxes and voltage drop")] == [d.circuit for d in worked.drops]


def test_the_drop_is_called_advice(cable):
    text = words_of(cable_pages("Practice shed", cable, dated=date(2026, 3, 2)))
    assert "the code does not demand it" in " ".join(text.split())
