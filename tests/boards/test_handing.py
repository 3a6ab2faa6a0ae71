"""What boards require behind a surface before it is covered."""

from dataclasses import replace

from setday.boards import gate_items
from setday.house import TypedWet, build_house
from tests.house.sketches import ft, shed

TUB = TypedWet(
    name="tub", wall="north", room="shop", measured_from="west", distance=ft("0'"), width=ft("5'"),
    bottom=ft("0'"), top=ft("6'"), board="none",
)  # fmt: skip
HOUSE = build_house(replace(shed(), wets=(TUB,))).house


def test_every_surface_asks_for_backing_at_its_edges():
    asked = {item.surface for item in gate_items(HOUSE) if item.key.endswith("edge-backing")}
    assert asked == {surface.id for surface in HOUSE.surfaces}


def test_a_wet_area_asks_for_backing_of_its_own():
    (item,) = [item for item in gate_items(HOUSE) if "wet-backing" in item.key]
    assert item.surface == "shop/north"
    assert "tub" in item.label


def test_keys_of_gates_are_unique():
    keys = [item.key for item in gate_items(HOUSE)]
    assert len(keys) == len(set(keys))
