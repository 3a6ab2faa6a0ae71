"""What is typed out reads back the same."""

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from setday.files import add_devices, draft_house, read_house
from setday.house import HouseDescription
from tests.files.unplaced import unplaced
from tests.strategies import board_choices, descriptions, local_rules, wired_descriptions

QUICK = settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow])
FEW = settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow])

SENSE = "house.framing-across-slope"
"""Asked of houses drawn at random, whose rafters run any way."""


@QUICK
@given(description=descriptions())
def test_a_description_typed_out_reads_back_the_same(description: HouseDescription):
    read = read_house(draft_house(description), name="house.yaml")
    assert [str(finding) for finding in read.findings if finding.rule != SENSE] == []
    assert unplaced(read.description) == description


@QUICK
@given(description=wired_descriptions())
def test_devices_and_circuits_typed_out_read_back_the_same(description: HouseDescription):
    read = read_house(draft_house(description), name="house.yaml")
    assert [str(finding) for finding in read.findings if finding.rule != SENSE] == []
    assert unplaced(read.description) == description


@FEW
@given(description=wired_descriptions())
def test_devices_added_to_a_file_are_those_it_reads_back(description: HouseDescription):
    bare = draft_house(replace(description, devices=(), circuits=()))
    text = add_devices(bare, devices=description.devices, circuits=description.circuits)
    assert text.startswith(bare)
    assert unplaced(read_house(text, name="house.yaml").description) == description


@QUICK
@given(data=st.data())
def test_board_choices_and_local_rules_read_back_the_same(data: st.DataObject):
    description = data.draw(descriptions())
    boards = data.draw(board_choices(tuple(room.name for room in description.rooms)))
    local = data.draw(local_rules())
    read = read_house(draft_house(description, boards=boards, local=local), name="house.yaml")
    assert (unplaced(read.boards), read.local) == (boards, local)


@QUICK
@given(description=descriptions())
def test_every_entry_knows_its_line(description: HouseDescription):
    text = draft_house(description)
    read = read_house(text, name="house.yaml").description
    assert read is not None
    lines = text.splitlines()
    for entry in (*read.kinds, *read.walls, *read.openings, *read.rooms, *read.floor_holes):
        assert lines[entry.where.line - 1].strip() == f"{entry.name}:"
