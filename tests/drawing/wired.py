"""A house of two rooms with devices, circuits and routed runs, all invented."""

from dataclasses import replace
from functools import cache

from setday.cable import (
    PANEL,
    Cable,
    Circuit,
    CircuitUse,
    Passages,
    Routing,
    cable_rules,
    route_cables,
    route_rules,
    stops_of,
)
from setday.house import DeviceKind, Foundation, House, Mount, TypedDevice, build_house
from tests.house.sketches import at, ft, two_rooms

__all__ = ["circuits", "routing", "wired_house"]


def device(name: str, kind: DeviceKind, on: str, along: str, **more: object) -> TypedDevice:
    given: dict[str, object] = {"room": "big", "side": "", "up": ft('16"'), "wall": on, "along": ft(along)}
    return TypedDevice(name=name, kind=kind, **{**given, **more})  # type: ignore[arg-type]


LAMP = {"mount": Mount.CEILING, "wall": "", "up": ft('0"')}
DEVICES = (
    device("one", DeviceKind.RECEPTACLE, "west", "3'"),
    device("two", DeviceKind.RECEPTACLE, "north", "20'"),
    device("two & a half", DeviceKind.RECEPTACLE, "across", "9'", half_switched=True),
    device("door switch", DeviceKind.SWITCH, "across", "6'-6\"", up=ft("4'"), serves=("lamp",), box="pair"),
    device("fan switch", DeviceKind.SWITCH, "across", "6'-6\"", up=ft("4'"), serves=("fan",), box="pair"),
    device("far switch", DeviceKind.SWITCH, "south", "8'", up=ft("4'"), serves=("lamp",)),
    device("lamp", DeviceKind.LIGHT, "", "0'", **LAMP),
    device("fan", DeviceKind.FAN, "", "0'", what="bath fan", point=at("10'", "9'"), **LAMP),
    device("alarm", DeviceKind.ALARM, "", "0'", what="smoke alarm", point=at("4'", "9'"), **LAMP),
    device("stove", DeviceKind.APPLIANCE, "east", "6'", room="small", what="range", volts=240),
    device("box", DeviceKind.JUNCTION, "", "0'", room="small", point=at("20'", "9'"), **LAMP),
    device("porch", DeviceKind.LIGHT, "south", "8'", room="", what="outdoor", up=ft("5'-8\"")),
)


@cache
def wired_house() -> House:
    """Return the house of two rooms with a dozen devices."""
    built = build_house(
        replace(two_rooms(), devices=DEVICES, foundation=Foundation(panel_corner="northwest"))
    )
    assert built.house is not None, [str(f) for f in built.findings]
    return built.house


def circuits() -> tuple[Circuit, ...]:
    """Return two circuits, made by hand."""
    plain = {
        "use": CircuitUse.GENERAL,
        "breaker": 15,
        "volts": 120,
        "awg": 14,
        "cable": "14/2",
        "load_va": 900.0,
    }
    names = [each.name for each in wired_house().devices]
    rest = tuple(name for name in names if name != "stove")
    stove = plain | {"volts": 240, "cable": "6/3", "awg": 6, "breaker": 50, "use": CircuitUse.INDIVIDUAL}
    return (
        Circuit(name="general", devices=rest, **plain),  # type: ignore[arg-type]
        Circuit(name="stove", devices=("stove",), **stove),  # type: ignore[arg-type]
    )


@cache
def routing() -> Routing:
    """Return four runs through the framing: two home runs, a feed and a switch leg."""
    house = wired_house()
    passages = Passages(house, stops_of(house), route_rules(house, cable_rules()))
    cables = (
        Cable(number="1-1", circuit="general", start=PANEL, end="one", kind="14/2", purpose="home run"),
        Cable(number="1-2", circuit="general", start="one", end="pair", kind="14/2"),
        Cable(
            number="1-3", circuit="general", start="pair", end="far switch", kind="14/3", purpose="switch leg"
        ),
        Cable(number="2-1", circuit="stove", start=PANEL, end="stove", kind="6/3", purpose="home run"),
    )
    return route_cables(passages, cables)
