"""Devices put on the house, their circuits and the panel."""

from dataclasses import replace

import pytest

from setday.findings import Where
from setday.house import (
    BoxSize,
    Device,
    DeviceKind,
    Foundation,
    HouseDescription,
    Mount,
    TypedCircuit,
    TypedDevice,
    TypedDrop,
    TypedWiring,
    build_house,
    taped,
)
from tests.house.sketches import at, ceiling, door, ft, house, ring, room, two_rooms, window

LINE = Where(file="h.yaml", line=40)
SHALLOW = BoxSize(one_gang=2.25, gang=1.8125, tall=3.75, deep=1.5)


def device(
    name: str, on: str = "north", seen_from: str = "shop", along: str = "4'", **changes: object
) -> TypedDevice:
    given: dict[str, object] = {
        "kind": DeviceKind.RECEPTACLE,
        "wall": on,
        "room": seen_from,
        "along": ft(along),
        "up": ft('16"'),
        "side": "",
        "where": LINE,
    }
    given.update(changes)
    return TypedDevice(name=name, **given)  # type: ignore[arg-type]


def shop(*devices: TypedDevice, **more: object) -> HouseDescription:
    """Return a room of 16 ft by 12 ft of 2x6 walls with a door to the south and a window to the east."""
    plain = house(
        walls=ring("16'", "12'"),
        openings=(door("door", "south", "4'", "west"), window("pane", "east", "4'", "south")),
        rooms=(room("shop", "8'", "6'"),),
        ceilings=(ceiling("shop"),),
        devices=devices,
    )
    return replace(plain, **more)  # type: ignore[arg-type]


def stands(description: HouseDescription, name: str = "it") -> Device:
    built = build_house(description)
    assert built.house is not None, [str(f) for f in built.findings]
    return built.house.device(name)


def rules(description: HouseDescription) -> list[str]:
    return [finding.rule for finding in build_house(description).findings]


def test_a_device_is_taped_from_the_corner_of_the_room() -> None:
    # 2x6 walls: the corner of the room is 5 1/2 in inside the corner of the house.
    found = stands(shop(device("it", along="3'", measured_from="west")))
    assert (found.surface, found.x, found.plan) == ("shop/north", ft("3'"), at("3'-5 1/2\"", "11'-6 1/2\""))


def test_the_same_place_is_given_from_the_start_of_the_framing() -> None:
    taped = stands(shop(device("it", along="3'", measured_from="west")))
    again = stands(shop(device("it", along=str(taped.typed.along))))
    assert (again.x, again.plan) == (taped.x, taped.plan)


def test_a_device_beside_a_door_is_taped_from_its_rough_opening() -> None:
    # The rough opening runs from 4 ft to 4 ft + 38 in from the west corner of the house.
    found = stands(shop(device("it", "south", along='6"', measured_from="door", going="east")))
    assert found.plan == at("7'-8\"", '5 1/2"')


def test_a_partition_faces_the_room_the_device_names() -> None:
    house_ = build_house(
        replace(
            two_rooms(),
            devices=(
                device("one", "across", "big", along="2'", measured_from="north"),
                device("other", "across", "small", along="2'", measured_from="north"),
            ),
        ),
        boxes=SHALLOW,
    ).house
    assert house_ is not None
    one, other = house_.device("one"), house_.device("other")
    assert {one.typed.side, other.typed.side} == {"left", "right"}
    assert abs((one.plan.x - other.plan.x).inches) == pytest.approx(3.5)
    assert one.plan.y == other.plan.y


def test_a_device_outdoors_stands_on_the_weather_side() -> None:
    found = stands(shop(device("it", "south", "", along="2'", measured_from="west")))
    assert (found.surface, found.plan) == ("", at("2'", "0'"))


def test_a_light_without_a_place_hangs_in_the_middle_of_the_room() -> None:
    found = stands(shop(device("it", "", kind=DeviceKind.LIGHT, mount=Mount.CEILING)))
    assert (found.surface, found.plan, found.height) == ("shop/ceiling", at("8'", "6'"), ft("8'-1 1/8\""))


def test_a_light_under_a_soffit_hangs_from_its_underside() -> None:
    drop = TypedDrop(
        name="soffit", room="shop", corner=at("0'", "0'"), east=ft("16'"), north=ft("3'"), bottom=ft("7'")
    )
    light = device("it", "", kind=DeviceKind.LIGHT, mount=Mount.CEILING, point=at("8'", "2'"))
    found = stands(shop(light, drops=(drop,)))
    assert (found.surface, found.height) == ("shop/soffit", ft("7'"))


def test_the_place_on_a_ceiling_leads_back_to_the_plan() -> None:
    light = device("it", "", kind=DeviceKind.LIGHT, mount=Mount.CEILING, point=at("3'", "2'-2\""))
    built = build_house(shop(light)).house
    assert built is not None
    found, surface = built.device("it"), built.surface("shop/ceiling")
    (ox, oy), (ax, ay), (bx, by) = surface.plan_origin, surface.plan_x, surface.plan_y
    x, y = found.x.inches, found.y.inches
    assert (ox + ax * x + bx * y, oy + ay * x + by * y) == pytest.approx((36.0, 26.0))


def test_a_device_in_the_floor_stands_at_its_point() -> None:
    found = stands(shop(device("it", "", mount=Mount.FLOOR, point=at("5'", "5'"), up=ft('0"'))))
    assert (found.surface, found.plan, found.height) == ("", at("5'", "5'"), ft('0"'))


def test_devices_are_ordered_by_room_surface_and_place() -> None:
    written = (
        device("third", "south", along="2'"),
        device("outdoors", "south", "", along="2'"),
        device("second", along="6'"),
        device("first", along="11'"),
    )
    built = build_house(shop(*written)).house
    assert built is not None
    # The north wall is walked from east to west, so the greater distance stands farther left in the room.
    assert [each.name for each in built.devices] == ["first", "second", "third", "outdoors"]


MISPLACED = [
    (device("it", along="20'"), "device.off-wall"),
    (device("it", along='0"', measured_from="west", going="east"), "device.in-corner"),
    (device("it", up=ft("9'")), "device.off-wall"),
    (device("it", "south", "", along="20'"), "device.off-wall"),
    (device("it", "south", along="5'"), "device.in-opening"),
    (device("it", "south", "", along="5'"), "device.in-opening"),
    (device("it", "southern"), "device.wall"),
    (device("it", "north", "kitchen"), "device.room"),
    (device("it", measured_from="south"), "device.from"),
    (device("it", "south", measured_from="door"), "device.way"),
    (device("it", "", mount=Mount.CEILING, point=at("20'", "2'")), "device.outside-room"),
    (device("it", "", "", mount=Mount.CEILING), "device.room"),
]


@pytest.mark.parametrize(
    ("misplaced", "rule"), MISPLACED, ids=[f"{n}-{r}" for n, (_, r) in enumerate(MISPLACED)]
)
def test_a_misplaced_device_is_found_with_its_line(misplaced: TypedDevice, rule: str) -> None:
    found = [f for f in build_house(shop(misplaced)).findings if f.rule == rule]
    assert [(f.where, f.about) for f in found] == [(LINE, "device 'it'")]


def test_a_partition_has_no_weather_side() -> None:
    assert "device.not-outdoors" in rules(replace(two_rooms(), devices=(device("it", "across", ""),)))


def test_a_wall_of_another_room_shows_no_face() -> None:
    astray = device("it", "west", "small")
    assert "device.wall-room" in rules(replace(two_rooms(), devices=(astray,)))


def test_a_receptacle_below_a_window_is_not_in_it() -> None:
    assert "device.in-opening" not in rules(shop(device("it", "east", along="5'")))


def test_two_devices_in_one_place_are_found() -> None:
    assert rules(shop(device("a"), device("b", along="4'-1\""))) == ["device.same-place"]


def test_how_near_two_devices_may_stand_is_the_size_of_their_boxes() -> None:
    near = shop(device("a"), device("b", along="4'-4\""))
    wide = BoxSize(one_gang=4.5, gang=1.8125, tall=3.75, deep=2.75)
    assert rules(near) == []
    assert [found.rule for found in build_house(near, boxes=wide).findings] == ["device.same-place"]


def test_two_boxes_do_not_fit_back_to_back_in_a_partition() -> None:
    pair = (device("a", "across", "small", along="6'"), device("b", "across", "big", along="6'"))
    assert "device.back-to-back" in rules(replace(two_rooms(), devices=pair))


def test_shallow_boxes_fit_back_to_back() -> None:
    pair = (device("a", "across", "small", along="6'"), device("b", "across", "big", along="6'"))
    found = build_house(replace(two_rooms(), devices=pair), boxes=SHALLOW).findings
    assert "device.back-to-back" not in [each.rule for each in found]


def test_boxes_on_two_sides_of_a_wall_may_stand_in_neighboring_bays() -> None:
    pair = (device("a", "across", "small", along="6'"), device("b", "across", "big", along="7'-4\""))
    assert "device.back-to-back" not in rules(replace(two_rooms(), devices=pair))


def test_only_a_receptacle_has_two_halves() -> None:
    light = device("it", kind=DeviceKind.LIGHT, half_switched=True)
    assert rules(shop(light)) == ["device.half-switched"]


def test_devices_of_one_box_share_their_place() -> None:
    assert rules(shop(device("a", box="pair"), device("b", box="pair"))) == []


def test_devices_of_one_box_do_not_stand_apart() -> None:
    assert rules(shop(device("a", box="pair"), device("b", along="9'", box="pair"))) == ["device.box-apart"]


def test_devices_on_both_sides_of_a_partition_are_not_in_one_place() -> None:
    both = (device("a", "across", "big", "9'"), device("b", "across", "small", "9'"))
    assert "device.same-place" not in rules(replace(two_rooms(), devices=both))


def test_what_a_switch_serves_must_be_there() -> None:
    switch = device("s", kind=DeviceKind.SWITCH, serves=("lamp",))
    lamp = device("lamp", "", kind=DeviceKind.LIGHT, mount=Mount.CEILING)
    assert rules(shop(switch)) == ["device.serves"]
    assert rules(shop(switch, lamp)) == []


def test_only_switches_switch() -> None:
    lamp = device("lamp", "", kind=DeviceKind.LIGHT, mount=Mount.CEILING)
    assert rules(shop(device("r", serves=("lamp",)), lamp)) == ["device.serves"]


def circuit(name: str, *devices: str) -> TypedCircuit:
    return TypedCircuit(name=name, devices=devices, where=LINE)


CIRCUITS = [
    ((circuit("one"),), ["circuit.empty"]),
    ((circuit("one", "it", "ghost"),), ["circuit.device"]),
    ((circuit("one", "it"), circuit("two", "it")), ["circuit.device-twice"]),
    ((circuit("one", "it"), circuit("one", "other")), ["house.name-twice"]),
]


@pytest.mark.parametrize(("circuits", "found"), CIRCUITS, ids=[found[0] for _, found in CIRCUITS])
def test_a_circuit_that_does_not_hang_together_is_found(
    circuits: tuple[TypedCircuit, ...], found: list[str]
) -> None:
    described = shop(device("it"), device("other", along="9'"), circuits=circuits)
    assert sorted(set(rules(described))) == found


def test_a_device_may_name_its_circuit_itself() -> None:
    described = shop(device("it", circuit="one"), circuits=(circuit("one"),))
    built = build_house(described).house
    assert built is not None
    assert (built.circuits[0].devices, built.device("it").typed.circuit) == (("it",), "one")


def test_a_circuit_named_by_a_device_must_be_there() -> None:
    assert rules(shop(device("it", circuit="one"))) == ["device.circuit"]


def test_everything_wrong_with_the_wiring_is_told_at_once() -> None:
    described = shop(
        device("a", along="20'"),
        device("b", "nowhere"),
        device("c", "south", along="5'"),
        circuits=(circuit("one"),),
        wiring=TypedWiring(panel=at("40'", "40'"), closed_walls=("attic",), where=LINE),
    )
    assert set(rules(described)) == {
        "device.off-wall",
        "device.wall",
        "device.in-opening",
        "circuit.empty",
        "wiring.panel",
        "wiring.closed-wall",
    }


@pytest.mark.parametrize(
    ("corner", "place"),
    [
        ("northwest", at("0'", "12'")),
        ("northeast", at("16'", "12'")),
        ("southwest", at("0'", "0'")),
        ("southeast", at("16'", "0'")),
    ],
)
def test_the_panel_stands_at_the_corner_of_the_foundation(corner: str, place: object) -> None:
    built = build_house(shop(foundation=Foundation(panel_corner=corner))).house
    assert built is not None
    assert built.wiring.panel is not None
    assert built.wiring.panel.point == place


def test_a_typed_place_of_the_panel_comes_before_the_corner() -> None:
    wiring = TypedWiring(panel=at("2'", "3'"), set_slack=ft("15'"), rating=100, spaces=20)
    built = build_house(shop(foundation=Foundation(panel_corner="northwest"), wiring=wiring)).house
    assert built is not None
    panel = built.wiring.panel
    assert panel is not None
    assert (panel.point, panel.set_slack, panel.rating, panel.spaces) == (at("2'", "3'"), ft("15'"), 100, 20)


def test_a_house_that_names_no_corner_has_no_panel() -> None:
    built = build_house(shop()).house
    assert built is not None
    assert built.wiring.panel is None


@pytest.mark.parametrize(
    ("along", "distance", "end"), [("4'", "3'-6 1/2\"", "west"), ("11'", "4'-6 1/2\"", "east")]
)
def test_a_device_is_said_from_the_nearer_corner_of_its_room(along: str, distance: str, end: str) -> None:
    # The north wall runs from east to west; its framing begins at the framing of the east wall.
    at_corner = str(ft("15'-6 1/2\"") - ft(along))
    house_ = build_house(shop()).house
    assert house_ is not None
    said = taped(device("it", along=at_corner, side="left"), house_)
    assert (said.along, said.measured_from, said.side) == (ft(distance), end, "")


def test_a_device_said_with_a_tape_stands_where_it_stood() -> None:
    house_ = build_house(two_rooms()).house
    assert house_ is not None
    for wall_, seen_from, along in (
        ("across", "big", "9'"),
        ("across", "small", "9'"),
        ("north", "big", "16'"),
        ("west", "big", "9'"),
    ):
        given = device("it", wall_, seen_from, along)
        said = taped(given, house_)
        places = [stands(replace(two_rooms(), devices=(each,))).plan for each in (given, said)]
        assert said.measured_from
        assert places[0] == places[1]


def said(description: HouseDescription) -> list[str]:
    return [finding.do for finding in build_house(description).findings]


def test_a_misspelled_light_is_guessed_from_what_a_switch_can_serve():
    lamp = device("shop light", kind=DeviceKind.LIGHT, along="8'", up=ft("7'"))
    switch = device("shop switch", kind=DeviceKind.SWITCH, serves=("shop lihgt",))
    assert said(shop(switch, lamp)) == ["Did you mean 'shop light'?"]


@pytest.mark.parametrize(
    ("name", "advice"),
    [
        ("bench receptacel", "Did you mean 'bench receptacle'?"),
        ("xyz", "Correct the name, or write the device."),
    ],
)
def test_a_misspelled_device_of_a_circuit_is_guessed(name, advice):
    described = replace(
        shop(device("bench receptacle")), circuits=(circuit("one", "bench receptacle", name),)
    )
    assert said(described) == [advice]
