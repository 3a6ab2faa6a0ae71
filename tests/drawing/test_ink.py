import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from setday.drawing.ink import element, group, number, text_content
from tests.drawing.reading import root_of


@pytest.mark.parametrize(
    ("value", "written"),
    [(1, "1"), (1.005, "1"), (0.126, "0.13"), (-0.001, "0"), (-2.5, "-2.5"), (1e3, "1000")],
)
def test_numbers_are_rounded_to_hundredths_without_trailing_zeros(value, written):
    assert number(value) == written


@example("a\r\nb\tc", "a\r\nb\rc\td")
@given(st.text(max_size=40), st.text(max_size=40))
def test_any_text_comes_back_or_shows_a_box(label, content):
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg">{element("text", text_content(content), label=label)}</svg>'
    )
    read = root_of(svg)[0]
    lines = content.replace("\r\n", "\n").replace("\r", "\n")  # as every XML reader takes line ends
    for wanted, found in ((label, read.get("label")), (lines, read.text or "")):
        assert all(b in {a, "\N{WHITE SQUARE}"} for a, b in zip(wanted, found, strict=True))


def test_a_group_of_nothing_is_nothing():
    assert group(text_content(""), text_content("")) == ""


def test_attributes_that_are_none_are_left_out():
    assert element("line", x1=1.0, stroke_dasharray=None) == '<line x1="1"/>'
