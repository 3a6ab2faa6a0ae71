"""Every drawing of a house, by name."""

from setday.actions.drawings import house_drawings
from setday.actions.houses import demo_text, open_house


def kinds(name: str) -> list[str]:
    return [drawing.kind for drawing in house_drawings(open_house(demo_text(name), name=name).built())]


def test_a_house_without_devices_has_no_wiring_drawn():
    assert set(kinds("shed")) == {"plan", "wall", "surface"}


def test_a_house_with_devices_has_its_wiring_drawn_with_every_wall_that_holds_a_box():
    house = open_house(demo_text("wired"), name="wired").built()
    drawings = list(house_drawings(house))
    assert [d.kind for d in drawings].count("wiring") == 1
    faces = {(d.typed.wall, d.typed.side) for d in house.devices if d.typed.wall}
    assert len([d for d in drawings if d.kind == "wiring in a wall"]) == len(faces)


def test_no_two_drawings_have_one_file_name():
    files = [d.file for d in house_drawings(open_house(demo_text("wired"), name="wired").built())]
    assert len(files) == len(set(files))
