"""Claims that hold for every drawing."""

import re

import pytest

from setday.drawing import plan
from tests.drawing.every import EVERY, HOSTILE
from tests.drawing.houses import tiny_house
from tests.drawing.reading import SVG, collisions, outside_paper, root_of, size_of, texts_of

NAMES = sorted(EVERY)


@pytest.fixture(scope="module")
def drawn() -> dict[str, str]:
    return {name: draw() for name, draw in EVERY.items()}


@pytest.mark.parametrize("name", NAMES)
def test_it_is_well_formed_with_title_and_description_first(drawn, name):
    children = list(root_of(drawn[name]))
    assert [child.tag for child in children[:2]] == [f"{SVG}title", f"{SVG}desc"]
    assert all((child.text or "").strip() for child in children[:2])


@pytest.mark.parametrize("name", NAMES)
def test_its_title_and_description_are_named_to_screen_readers(drawn, name):
    root = root_of(drawn[name])
    ids = {child.get("id") for child in root}
    assert root.get("aria-labelledby") in ids
    assert root.get("aria-describedby") in ids


@pytest.mark.parametrize("name", NAMES)
def test_it_is_one_image_unless_it_holds_links(drawn, name):
    root = root_of(drawn[name])
    has_links = next(root.iter(f"{SVG}a"), None) is not None
    assert root.get("role") == ("graphics-document" if has_links else "img")


@pytest.mark.parametrize("name", NAMES)
def test_ids_are_unique(drawn, name):
    ids = re.findall(r'(?<![-\w])id="([^"]*)"', drawn[name])
    assert len(ids) == len(set(ids))


def test_drawings_with_other_keys_share_no_id(drawn):
    first, second = plan(tiny_house(), key="wide"), plan(tiny_house(), key="phone")
    ids = [set(re.findall(r'(?<![-\w])id="([^"]*)"', svg)) for svg in (first, second)]
    assert not ids[0] & ids[1]


@pytest.mark.parametrize("name", NAMES)
def test_it_scales_to_its_place(drawn, name):
    root = root_of(drawn[name])
    assert "viewBox" in root.attrib
    assert "width" not in root.attrib
    assert "height" not in root.attrib


@pytest.mark.parametrize("name", NAMES)
def test_a_strict_page_policy_has_nothing_to_refuse(drawn, name):
    svg = drawn[name]
    tags = {element.tag.removeprefix(SVG) for element in root_of(svg).iter()}
    assert not tags & {"style", "script", "image", "use", "foreignObject"}
    attributes = {key for element in root_of(svg).iter() for key in element.attrib}
    assert not {key for key in attributes if key == "style" or key.startswith("on")}
    assert "url(" not in svg
    assert "http" not in svg.replace("http://www.w3.org/2000/svg", "")


@pytest.mark.parametrize("name", NAMES)
def test_it_is_drawn_in_black_and_blank_paper_only(drawn, name):
    used = {element.get(key) for element in root_of(drawn[name]).iter() for key in ("fill", "stroke")}
    assert used <= {None, "none", "currentColor", "#fff"}


@pytest.mark.parametrize("name", NAMES)
def test_no_two_texts_stand_on_each_other(drawn, name):
    assert collisions(drawn[name]) == []


@pytest.mark.parametrize("name", NAMES)
def test_no_text_leaves_the_drawing(drawn, name):
    assert outside_paper(drawn[name]) == []


@pytest.mark.parametrize("name", NAMES)
def test_letters_are_never_smaller_than_readable(drawn, name):
    """Nine units of 96 to the inch are 6.75 points on paper."""
    sizes = {float(element.attrib["font-size"]) for element in root_of(drawn[name]).iter(f"{SVG}text")}
    assert min(sizes) >= 9


@pytest.mark.parametrize("name", [name for name in NAMES if name.endswith("phone")])
def test_a_drawing_for_a_phone_is_as_narrow_as_a_phone(drawn, name):
    assert size_of(drawn[name])[0] <= 381


@pytest.mark.parametrize("name", NAMES)
def test_coordinates_are_rounded(drawn, name):
    numbers = re.findall(r' (?:x|y|x1|x2|y1|y2|cx|cy|width|height)="([^"]*)"', drawn[name])
    assert all(re.fullmatch(r"-?\d+(\.\d{1,2})?", value) for value in numbers)


def test_what_a_person_typed_cannot_leave_its_place():
    svg = plan(tiny_house(HOSTILE))
    title = root_of(svg)[0].text
    assert title == f"Floor plan of {HOSTILE}".replace("\x07", "\N{WHITE SQUARE}")
    assert "<script" not in svg


def test_the_same_house_is_drawn_the_same_every_time():
    assert plan(tiny_house()) == plan(tiny_house())


def test_every_text_of_the_plan_is_text_a_person_can_read(drawn):
    assert all(text == text.strip() and text for text in texts_of(drawn["plan"]))
