from datetime import date
from pathlib import Path

import pytest

from setday.errors import SetdayError
from setday.sheets import Book, Picture, Sheet, book_pdf, page_source
from setday.sheets.compiling import to_pdf
from tests.sheets.books import DATED, small_book, whole_book
from tests.sheets.printed import page_count, words_of

GOLDEN = Path(__file__).parent.parent / "golden"


def test_head_and_foot_stand_on_every_page():
    pdf = book_pdf(whole_book())
    last = page_count(pdf)
    for page in range(1, last + 1):
        words = words_of(pdf, page=page)
        assert "Practice cottage" in words
        assert "2026-03-04" in words
        assert f"page {page} of {last}" in words
        assert "Measure on the wall before you cut" in words


def test_who_decides_is_said_where_it_applies():
    assert "Local code and the licensed person decide" in words_of(book_pdf(small_book()))


def test_a_book_without_sheets_is_refused():
    with pytest.raises(ValueError, match="without sheets"):
        Book(house="x", dated=DATED, sheets=())


def test_the_same_book_gives_the_same_bytes():
    assert book_pdf(small_book()) == book_pdf(small_book())


def test_the_source_is_as_it_was_looked_at():
    """Written anew with SETDAY_GOLDEN=write, like the drawings."""
    import os

    kept = GOLDEN / "small-book.typ"
    if os.environ.get("SETDAY_GOLDEN") == "write":
        kept.write_text(page_source(small_book()), encoding="utf-8", newline="\n")
    assert page_source(small_book()) == kept.read_text(encoding="utf-8")


def test_what_typst_refuses_is_said_in_our_words():
    from datetime import UTC, datetime

    with pytest.raises(SetdayError, match="could not be set for printing") as refused:
        to_pdf("#panic(1)", inputs={}, made_at=datetime(2026, 1, 1, tzinfo=UTC))
    assert refused.value.do
    assert refused.value.__cause__ is not None


def svg(width: float, height: float) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}">'
        '<title>A &amp; B</title><text>Scale 1/4" = 1\'-0"</text></svg>'
    )


def test_a_drawing_is_printed_at_its_own_size():
    """96 units are an inch of paper, so that the scale holds."""
    picture = Picture(svg=svg(480, 96))
    assert picture.size_in == (5.0, 1.0)
    assert picture.shrunk == 1.0
    assert picture.title == "A & B"


def test_a_drawing_that_had_to_be_shrunk_says_so():
    book = Book(
        house="x", dated=date(2026, 1, 2), sheets=(Sheet(title="t", blocks=(Picture(svg=svg(960, 96)),)),)
    )
    assert "Printed at 75% of its scale" in page_source(book)


def test_a_drawing_without_a_size_is_refused():
    with pytest.raises(ValueError, match="viewBox"):
        _ = Picture(svg="<svg/>").size_in


def test_no_page_is_wider_than_letter_paper():
    import re

    boxes = set(re.findall(rb"/MediaBox\s*\[([^\]]*)\]", book_pdf(whole_book())))
    assert boxes == {b"0 0 612 792"}
