import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.sheets.markup import array, call, escaped, flag
from tests.sheets.books import small_book
from tests.sheets.printed import page_count

NASTY = (
    '"); #panic("x")',
    "#set page(width: 1pt)",
    "$x^2$ *bold* _it_ `raw` <label> @ref = heading // comment /* */ [x] {y} ~ \\u{41}",
    "\\",
    '\\"',
    "line\nbreak\ttab\r\x00\x1b\x7f",
    "\ud800",
    "50' x 30\" \N{CJK UNIFIED IDEOGRAPH-6728} \N{PILE OF POO} e\u0301",
)


@pytest.mark.parametrize("text", NASTY)
def test_text_cannot_leave_its_string(text):
    from setday.sheets import book_pdf

    assert page_count(book_pdf(small_book(text))) == 1


@given(st.text(st.characters(), max_size=60))
def test_every_quote_inside_a_string_is_escaped(text):
    inner = escaped(text)[1:-1]
    bare = inner.replace("\\\\", "").replace('\\"', "")
    assert '"' not in bare
    assert all(ord(character) >= 0x20 for character in inner)


@settings(max_examples=12)
@given(st.lists(st.text(st.characters(), max_size=30), min_size=30, max_size=30))
def test_any_words_can_be_printed(words):
    from datetime import date

    from setday.sheets import Book, Note, Sheet, book_pdf

    sheet = Sheet(title=words[0], blocks=tuple(Note(text=text) for text in words[1:]))
    assert book_pdf(Book(house=words[1], dated=date(2026, 1, 2), sheets=(sheet,))).startswith(b"%PDF")


@pytest.mark.parametrize(("values", "written"), [((), "()"), (("1",), "(1,)"), (("1", "2"), "(1, 2,)")])
def test_an_array_of_one_stays_an_array(values, written):
    assert array(values) == written


def test_a_call_names_its_arguments():
    assert call("note", "1", wide_as=flag(value=True)) == "#note(1, wide-as: true)"
