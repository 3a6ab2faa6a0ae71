"""Gates of the demo houses, in memory."""

import pytest

from setday.actions.gates.closing import behind_rows
from setday.actions.gates.gathering import handed_by_trades
from setday.closein import GateState, gates_of
from tests.actions.gate_rules import GateRules, demo_gates
from tests.actions.memory_gates import MemoryGates


class TestInMemory(GateRules):
    @pytest.fixture(params=[False, True], ids=["helpers look on", "helpers confirm"])
    def store(self, request):
        return MemoryGates(helper_confirms=request.param)


@pytest.fixture(scope="module")
def wired():
    return demo_gates("wired")


def test_every_thing_the_trades_hand_on_is_asked_for_at_its_surface(wired):
    asked = wired.asked()
    handed = handed_by_trades(wired.opened, wired.wired)
    keys = {(item.surface, item.key) for item in asked.all_items}
    assert {(each.surface, each.key) for each in handed} <= keys
    assert {each.trade for each in handed} == {"boards", "cable", "switching"}


def test_no_surface_of_a_new_house_may_be_closed(wired):
    gates = gates_of(wired.asked(), ())
    assert {gate.state for gate in gates.by_surface.values()} == {GateState.NOT_READY}
    assert set(gates.shut()) == {surface.id for surface in wired.house.surfaces}


def test_what_is_in_a_partition_is_asked_for_from_both_sides(wired):
    asked = wired.asked()
    runs = {item.thing for item in asked.items["bath/south"] if item.thing.startswith("run/")}
    other = {item.thing for item in asked.items["hall/north"]}
    assert runs
    assert runs <= other


def test_boxes_say_where_on_the_surface_they_are(wired):
    placed = {device.box: device for device in wired.house.devices if device.surface}
    for item in wired.asked().all_items:
        if item.thing.startswith("box/"):
            device = next(d for d in wired.house.devices if d.box == item.thing.removeprefix("box/"))
            assert (item.spot.x, item.spot.y) == (device.x, device.y)
    assert placed


def test_the_table_of_a_wall_names_every_box_and_run_of_its_gate(wired):
    gates = gates_of(wired.asked(), ())
    for surface in ("bath/south", "hall/north", "kitchen/ceiling"):
        gate = gates[surface]
        words = " ".join(" ".join(row) for row in behind_rows(wired, gate).rows)
        things = [stand.item.thing for stand in gate.items if stand.item.thing.startswith(("box/", "run/"))]
        assert all(thing.split("/", 1)[1] in words for thing in things)


def test_a_local_rule_changes_what_is_asked_for(wired):
    from setday.actions.gates.gathering import gate_house
    from setday.actions.houses import demo_text, open_house

    text = demo_text("shed") + "\nlocal rules:\n  closein.framing_inspection: no\n"
    place = gate_house(open_house(text, name="shed.yaml"), clock=lambda: 0.0)
    assert [each.key for each in place.inspections] == []
    assert "inspection/framing" in {each.key for each in demo_gates().inspections}
