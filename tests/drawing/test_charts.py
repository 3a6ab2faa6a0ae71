import re

import pytest

from setday.boards import Progress
from setday.drawing import Bar, Table, comparison_bars, comparison_table, progress_picture, progress_table
from tests.drawing.every import bars, reports
from tests.drawing.reading import SVG, root_of, texts_of


def paths(svg: str) -> list[str]:
    return [e.get("d") for e in root_of(svg).iter(f"{SVG}path")]


def test_cost_falls_and_bound_rises_on_the_picture():
    """Lower money stands lower on the paper, where y is larger."""
    cost, bound = (
        [float(y) for y in re.findall(r"V([\d.]+)", d)] for d in paths(progress_picture(reports()))[:2]
    )
    assert cost == sorted(cost)
    assert bound == sorted(bound, reverse=True)


def test_the_words_give_the_gap():
    """161,200 over 159,500 cents is 1.1 % more."""
    desc = root_of(progress_picture(reports()))[1].text
    assert "$1,612.00" in desc
    assert "the gap is 1.1%" in desc


def test_before_a_layout_is_found_the_picture_says_so():
    none = Progress(seconds=0.1, cost_cents=None, bound_cents=0.0, stage="start")
    assert root_of(progress_picture([none]))[1].text == "No layout found yet."
    assert progress_picture([])


def test_the_table_has_a_row_a_report():
    rows = progress_table(reports()).rows
    assert len(rows) == len(reports())
    assert rows[0][1] == ""
    assert rows[-1] == ("9.0", "$1,612.00", "$1,595.00", "search")


def test_bars_are_as_long_as_their_values():
    rects = [float(e.get("width")) for e in root_of(comparison_bars(bars(), title="t")).iter(f"{SVG}rect")]
    assert rects[1] / rects[0] == pytest.approx(51 / 62, abs=0.001)


def test_bars_of_nothing_are_drawn():
    svg = comparison_bars([Bar(label="none", value=0, written="0 boards")], title="t")
    assert "0 boards" in texts_of(svg)


def test_a_bar_below_nothing_is_refused():
    with pytest.raises(ValueError, match="below nothing"):
        Bar(label="a", value=-1, written="-1")


def test_the_table_of_bars_has_every_bar():
    assert comparison_table(bars(), title="t").rows == (
        ("By area, as taught", "62 boards"),
        ("By layout", "51 boards"),
    )


def test_a_table_with_a_short_row_is_refused():
    with pytest.raises(ValueError, match="has not 2 cells"):
        Table(caption="c", head=("a", "b"), rows=(("1",),))
