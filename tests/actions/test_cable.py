"""The cable of the demo house, from its devices to what it hands on; hookups of its switched groups."""

from dataclasses import replace
from time import perf_counter

import pytest

from setday.actions import demo_text, open_house
from setday.actions.cable.figured import figure_cable
from setday.cable import PANEL, cable_rules, gate_items, inside_surface, needs, work_items
from setday.errors import FileProblem
from setday.files import read_hookup, write_hookup
from setday.house import DeviceKind
from setday.switching import DeviceKind as SwitchKind
from setday.switching import conductor_feet


@pytest.fixture(scope="module")
def wired():
    return figure_cable(open_house(demo_text("house"), name="demo"), clock=perf_counter)


def test_nothing_stands_in_the_way_of_pulling(wired):
    assert [str(finding) for finding in wired.figure.problems] == []


def test_every_circuit_reaches_every_box_of_its_devices_from_the_panel(wired):
    figure = wired.figure
    box_of = {device.name: device.box for device in figure.house.devices}
    for circuit in figure.plan.circuits:
        edges = [(r.cable.start, r.cable.end) for r in figure.routing.runs if r.circuit == circuit.name]
        reached = {PANEL}
        for _ in edges:
            reached |= {b for a, b in edges if a in reached} | {a for a, b in edges if b in reached}
        assert {box_of[name] for name in circuit.devices} <= reached, circuit.name


def test_a_circuit_has_one_home_run_and_no_loop(wired):
    figure = wired.figure
    for circuit in figure.plan.circuits:
        cables = [run.cable for run in figure.routing.runs if run.circuit == circuit.name]
        assert sum(cable.home for cable in cables) == 1
        assert len({end for cable in cables for end in (cable.start, cable.end)}) == len(cables) + 1


def test_every_switched_light_of_the_house_does_what_is_wanted(wired):
    served = {name for d in wired.figure.house.devices for name in d.typed.serves}
    lamps = {want.load for each in wired.hookups for want in each.hookup.wants}
    assert served == lamps
    assert [each.group.name for each in wired.hookups if not each.judgment.works] == []


def test_switch_legs_are_the_fewest_conductors_and_as_long_as_their_ways(wired):
    for each in wired.hookups:
        assert each.plan is not None
        assert each.plan.proven
        assert conductor_feet(each.hookup) == pytest.approx(each.plan.bound_feet)
        for cable in each.hookup.cables:
            way = wired.figure.passages.distance_ft(cable.a, cable.b)
            assert way <= cable.length_ft < way + 1 / 12 + 1e-6


def test_two_switches_of_one_light_are_three_ways(wired):
    hall = next(each for each in wired.hookups if each.group.name == "hall light")
    kinds = {device.name: device.kind for device in hall.hookup.devices}
    assert kinds["hall switch"] is kinds["hall switch 2"] is SwitchKind.THREE_WAY
    assert {cable.kind for cable in hall.hookup.cables} == {"14/2", "14/3"}


def test_a_hookup_of_the_house_reads_back_from_its_file(wired):
    for each in wired.hookups:
        again = read_hookup(write_hookup(each.hookup), name="again.yaml").sound()
        assert [str(join) for join in again.joins] == [str(join) for join in each.hookup.joins]
        assert [(c.a, c.b, c.kind) for c in again.cables] == [(c.a, c.b, c.kind) for c in each.hookup.cables]


def test_what_the_instructor_wired_is_taken_and_judged(wired):
    kitchen = next(each for each in wired.hookups if each.group.name == "kitchen light")
    spoiled = kitchen.hookup.with_joins(kitchen.hookup.joins[1:])
    again = figure_cable(open_house(demo_text("house"), name="demo"), clock=perf_counter, by_hand=(spoiled,))
    taken = next(each for each in again.hookups if each.group.name == "kitchen light")
    assert taken.hookup is spoiled
    assert not taken.judgment.works


def test_cable_is_needed_run_by_run(wired):
    bought = [need for need in needs(wired.figure) if need.item.startswith("cable-")]
    assert len(bought) == len(wired.figure.pulls)
    kept = 0.5 * len(bought)
    assert sum(need.quantity for need in bought) == pytest.approx(wired.figure.routing.cut.feet + kept)
    assert all(need.working.steps[-2].label == "kept for a miscut" for need in bought)


def test_the_panel_is_bought_by_its_rating_and_spaces(wired):
    counted = {need.item: need.quantity for need in needs(wired.figure)}
    panel = wired.figure.house.wiring.panel
    assert counted[f"panel-{panel.rating}-{panel.spaces}"] == 1


def test_boxes_and_switches_are_counted_once(wired):
    counted = {need.item: need.quantity for need in needs(wired.figure)}
    devices = wired.figure.house.devices
    switches = [device for device in devices if device.kind is DeviceKind.SWITCH]
    assert sum(n for item, n in counted.items() if item.startswith("switch-")) == len(switches)
    boxes = sum(n for item, n in counted.items() if item.startswith("box-"))
    assert boxes == len(wired.figure.worked.fills)


def test_every_box_is_behind_the_surface_it_shows_on_and_no_other(wired):
    figure = wired.figure
    for surface in figure.house.surfaces:
        shown = {device.box for device in figure.house.devices if device.surface == surface.id}
        assert set(inside_surface(figure, surface.id).boxes) == shown


def test_every_run_in_a_wall_is_behind_some_surface(wired):
    figure = wired.figure
    behind = [inside_surface(figure, surface.id) for surface in figure.house.surfaces]
    assert {run.number for run in figure.routing.runs if run.walls} <= {
        run.number for each in behind for run in each.runs
    }


def test_every_hole_that_a_board_covers_is_behind_a_surface(wired):
    """Holes in the ends of a wall, where another wall or the weather covers it, are behind none."""
    figure = wired.figure
    behind = {hole for surface in figure.house.surfaces for hole in inside_surface(figure, surface.id).holes}
    lost = [hole for hole in figure.routing.holes if hole.wall and hole not in behind]
    assert [
        hole for hole in lost if any(low < hole.along < high for low, high in faces(figure, hole.wall))
    ] == []


def faces(figure, wall):
    """Return the stretches of a wall that a room shows, along its framing."""
    for surface in figure.house.surfaces:
        for span in surface.spans:
            if span.wall == wall and span.side in ("left", "right"):
                other = span.along + span.width if span.forward else span.along - span.width
                yield min(span.along, other), max(span.along, other)


def test_gate_items_have_keys_of_their_own(wired):
    keys = [item.key for item in gate_items(wired.figure)]
    assert len(keys) == len(set(keys))


def test_work_follows_work_that_is_there(wired):
    items = work_items(wired.figure, rules=cable_rules())
    keys = {item.key for item in items}
    assert {key for item in items for key in item.after} <= keys
    assert all(item.student_hours > 0 for item in items)


def test_a_house_without_a_place_for_the_panel_is_refused():
    opened = open_house(demo_text("house").replace("  panel corner: northwest\n", ""), name="demo")
    with pytest.raises(FileProblem, match="where the panel will be"):
        figure_cable(opened, clock=perf_counter)


def test_the_figure_is_the_same_every_time(wired):
    again = figure_cable(open_house(demo_text("house"), name="demo"), clock=perf_counter)
    assert again.figure.pulls == wired.figure.pulls
    assert replace(again.figure.plan, grouping=None) == replace(wired.figure.plan, grouping=None)
