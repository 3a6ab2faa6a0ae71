"""Devices, circuits and wiring of a house file: what is read, and what is said of slips."""

import pytest

from setday.actions import demo_text, open_house
from setday.files import add_devices, read_house
from setday.findings import Severity
from setday.house import DeviceKind, Mount, Point, TypedCircuit, TypedDevice
from setday.measure import parse_length
from setday.rules import load_table
from tests.files.typed import HOUSE, PLAIN, SHED, line_of, read

WIRED = (
    PLAIN
    + """\
devices:
  bed receptacle: {is: receptacle, room: west room, wall: north, center: 3' from west end}
  desk receptacle:
    is: receptacle
    room: West Room
    wall: middle wall
    center: 4' from north end
    up: 30"
  door switch: {is: switch, room: west room, wall: middle wall, center: 6" from middle door going south,
    box: door box, serves: bed light}
  door switch 2: {is: switch, box: door box, serves: [bed light, bed receptacle]}
  bed light: {is: ceiling light, room: west room, ceiling: middle}
  alarm: {is: smoke and CO alarm, room: west room, ceiling: [3' east of west, 2']}
  porch light: {is: light, room: outdoors, wall: south, center: 10" from front door going east, up: 5'-8"}
  stove: {is: range, room: east room, wall: east, center: 5' from south end, up: 6", volts: 240 V,
    load: 12 kW}
  brewer: {is: coffee brewer, room: east room, wall: east, center: 9' from south end, up: 44", load: 900 W}
  floor box: {is: receptacle, room: east room, floor: 18' east, 8' north}
circuits:
  bedroom: {devices: [bed receptacle, desk receptacle, Door Switch, door switch 2, bed light, alarm]}
  stove: {use: Individual, breaker: 50 A, volts: 240, wire: 6 AWG, devices: stove, in order: yes}
wiring:
  panel: 1' east, 15' north
  set slack: 10'
  service: 150 A
  spaces: 24
  hole height: 24"
  closed walls: Middle Wall
"""
)


def devices() -> dict[str, TypedDevice]:
    found = read(WIRED)
    assert [str(f) for f in found.findings] == []
    assert found.description is not None
    return {device.name: device for device in found.description.devices}


def test_a_house_with_devices_builds_without_a_finding():
    opened = open_house(WIRED, name="house.yaml")
    assert [str(f) for f in opened.findings if f.severity is not Severity.NOTE] == []
    assert opened.house is not None
    assert len(opened.house.devices) == 10


WHAT = [
    ("bed receptacle", DeviceKind.RECEPTACLE, ""),
    ("bed light", DeviceKind.LIGHT, "ceiling"),
    ("alarm", DeviceKind.ALARM, "smoke and CO alarm"),
    ("stove", DeviceKind.APPLIANCE, "range"),
    ("brewer", DeviceKind.APPLIANCE, "coffee brewer"),
]


@pytest.mark.parametrize(("name", "kind", "what"), WHAT)
def test_a_device_is_what_its_words_say(name, kind, what):
    device = devices()[name]
    assert (device.kind, device.what) == (kind, what)


def test_receptacles_and_switches_have_their_usual_height():
    found = devices()
    heights = [found[name].up for name in ("bed receptacle", "desk receptacle", "door switch")]
    assert heights == [parse_length(text) for text in ('16"', '30"', '48"')]


def test_the_usual_heights_are_those_the_cable_trade_proposes():
    usual = {row["key"]: row["value"] for row in load_table("setday.files.house", "unless_noted").rows}
    placing = {row["key"]: row["value"] for row in load_table("setday.cable", "placing").rows}
    assert usual["receptacle height"] == placing["receptacle_height"]
    assert usual["switch height"] == placing["switch_height"]


def test_the_file_sets_its_own_usual_heights():
    noted = WIRED.replace(
        "unless noted:\n", 'unless noted:\n  receptacle height: 18"\n  switch height: 42"\n'
    )
    found = {device.name: device.up for device in read(noted).description.devices}
    assert (found["bed receptacle"], found["door switch"]) == (parse_length('18"'), parse_length('42"'))


def test_a_second_device_of_a_box_stands_where_the_first_says():
    first, second = devices()["door switch"], devices()["door switch 2"]
    assert (second.box, second.wall, second.along, second.measured_from) == (
        "door box",
        first.wall,
        first.along,
        "middle door",
    )


def test_places_on_ceilings_and_floors_are_points_of_the_plan():
    found = devices()
    assert (found["bed light"].mount, found["bed light"].point) == (Mount.CEILING, None)
    # 3 ft from the face of a wall 5 1/2 in thick
    assert found["alarm"].point == Point(x=parse_length("3'-5 1/2\""), y=parse_length("2'"))
    assert found["floor box"].mount is Mount.FLOOR


def test_what_a_switch_serves_is_found_as_people_write_it():
    assert devices()["door switch 2"].serves == ("bed light", "bed receptacle")


def test_circuits_are_read():
    bedroom, stove = read(WIRED).description.circuits
    assert (bedroom.use, bedroom.breaker, bedroom.devices[2]) == ("general", 15, "door switch")
    assert (stove.use, stove.breaker, stove.volts, stove.wire, stove.devices, stove.ordered) == (
        "individual",
        50,
        240,
        6,
        ("stove",),
        True,
    )


def test_wiring_is_read():
    wiring = read(WIRED).description.wiring
    assert (wiring.set_slack, wiring.rating, wiring.spaces) == (parse_length("10'"), 150, 24)
    assert (wiring.hole_height, wiring.closed_walls) == (parse_length('24"'), ("middle wall",))


SLIPS = [
    ("is: receptacle, room: west room", "is: recepticle, room: west room", "Did you mean 'receptacle'?"),
    ("is: receptacle, room: west room", "is: '', room: west room", "Write it like is: receptacle."),
    ("wall: north, center: 3' from west end", "wall: north", "Add a line like: center"),
    ("3' from west end", "3'", "Add from and the end the tape was held to."),
    ("room: west room, wall: north", "wall: north", "Add a line: room: ..."),
    ("ceiling: middle", "ceiling: nowhere", "Write both distances"),
    ("ceiling: middle", "ceiling: middle, wall: north", "Write one line like"),
    ("ceiling: middle", "ceiling: middle, side: left", "Take it out."),
    ("volts: 240 V", "volts: 208", "Check the number."),
    ("load: 900 W", "load: 900", "Write the unit."),
    (", load: 900 W", "", "Write its load too"),
    ("breaker: 50 A", "breaker: 55 A", "Check the number."),
    ("up: 5'-8\"", "side: left", "Add a line like: up"),
    ("from middle door going", "from muddle door going", "Did you mean 'middle door'?"),
    ("service: 150 A", "service: 20 A", "Check the number."),
]


@pytest.mark.parametrize(("meant", "typed", "advice"), SLIPS, ids=[typed for _, typed, _ in SLIPS])
def test_a_slip_is_said_with_its_line_and_what_to_do(meant, typed, advice):
    text = WIRED.replace(meant, typed, 1)
    assert text != WIRED
    line = line_of(WIRED, meant) if WIRED.count(meant) == 1 else WIRED[: WIRED.index(meant)].count("\n") + 1
    found = read(text).findings
    assert any(advice in f.do and abs(f.where.line - line) <= 1 for f in found), [str(f) for f in found]


def test_slips_in_several_devices_are_told_at_once():
    text = WIRED.replace("is: smoke and CO alarm", "is: smoke signal").replace(
        "3' from west end", "3' from attic end"
    )
    assert len([f for f in read(text).findings if f.severity is Severity.PROBLEM]) == 2


LAMP = TypedDevice(name="lamp", kind=DeviceKind.LIGHT, mount=Mount.CEILING, room="workroom", side="")


def test_devices_are_added_at_the_end_and_every_line_stays():
    text = add_devices(SHED, devices=[LAMP], circuits=[TypedCircuit(name="lights", devices=("lamp",))])
    assert text.startswith(SHED)
    assert text.endswith("circuits:\n  lights: {use: general, breaker: 15 A, devices: [lamp]}\n")


def test_devices_are_added_after_those_that_are_written():
    text = WIRED.replace("circuits:\n", "# the circuits\ncircuits:\n")
    more = TypedDevice(name="lamp", kind=DeviceKind.LIGHT, mount=Mount.CEILING, room="east room", side="")
    added = add_devices(text, devices=[more])
    lines = added.splitlines()
    assert lines[lines.index("# the circuits") - 1] == "  lamp: {is: light, room: east room, ceiling: middle}"
    assert [line for line in lines if "lamp" not in line] == text.splitlines()


def test_a_device_of_the_same_name_is_written_anew():
    again = add_devices(add_devices(SHED, devices=[LAMP]), devices=[LAMP])
    assert again.count("lamp:") == 1
    assert [d.name for d in read_house(again, name="x").description.devices] == ["lamp"]


def test_long_entries_are_broken_between_their_keys():
    circuit = TypedCircuit(name="all", devices=tuple(f"receptacle number {n}" for n in range(20)))
    text = add_devices(SHED, devices=[LAMP], circuits=[circuit])
    assert max(map(len, text.splitlines())) <= 110
    assert read(text).description.circuits[0].devices == circuit.devices


def test_the_wired_demo_is_the_demo_house_with_its_wiring_written_after_it():
    named = HOUSE.replace("name: Plover Lane house\n", "name: Plover Lane house with its wiring\n")
    wired = demo_text("wired")
    assert wired.startswith(named)
    opened = open_house(wired, name="wired.yaml")
    assert [str(f) for f in opened.findings] == []
    on = [name for circuit in opened.house.circuits for name in circuit.devices]
    assert sorted(on) == sorted(device.name for device in opened.house.devices)
