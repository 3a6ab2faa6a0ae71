"""Lengths as people write them."""

import contextlib
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.errors import MeasureError
from setday.measure import Length, parse_length, write_feet_inches, write_inches


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12'-6 1/2\"", 150.5),
        ("12' 6.5\"", 150.5),
        ("12'6 1/2", 150.5),
        ('150"', 150.0),
        ("12.5 ft", 150.0),
        ("12.5'", 150.0),
        ("3.81 m", 150.0),
        ("3810 mm", 150.0),
        ("381cm", 150.0),
        ('7/16"', 0.4375),
        ("5 in", 5.0),
        ("12′-6½″", 150.5),
        ("8’ 6”", 102.0),
        ("14' - 6\"", 174.0),
        ('-3 1/2"', -3.5),
        ("0'", 0.0),
        ("6 feet 2 inches", 74.0),
        ("5''", 5.0),
    ],
)
def test_a_length_reads_as_written_on_site(text: str, inches: float) -> None:
    assert parse_length(text).inches == inches


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("8.6", "if 8 feet 6 inches was meant, write 8'-6\""),
        ("96", "has no unit"),
        ("", "is empty"),
        ("about 8 feet", "is not a length"),
        ("8' 13\"", "a foot has 12"),
        ('3 5/4"', "not a part of an inch"),
        ('3 1/0"', "not a part of an inch"),
        ('3.5 1/2"', "mixes a decimal and a fraction"),
        ("1234567'", "longer than any house"),
        ("1" * 200 + "'", "too long to be a length"),
        ("12'-", "is not a length"),
    ],
)
def test_what_is_not_a_length_is_refused_in_words(text: str, words: str) -> None:
    with pytest.raises(MeasureError, match=words):
        parse_length(text)


@given(st.integers(-(10**6), 10**6))
def test_what_is_written_in_full_reads_back_as_the_same_length(sixtyfourths: int) -> None:
    length = Length(sixtyfourths)
    assert parse_length(write_feet_inches(length, nearest=None)) == length
    assert parse_length(write_inches(length, nearest=None)) == length


@given(st.integers(-(10**6), 10**6))
def test_a_tape_reading_is_never_off_by_more_than_half_its_mark(sixtyfourths: int) -> None:
    mark = Length(4)
    read = Length(sixtyfourths).to_nearest(mark)
    assert read.sixtyfourths % 4 == 0
    assert abs(read.sixtyfourths - sixtyfourths) <= 2


@given(st.text(max_size=80))
def test_no_text_at_all_brings_anything_but_a_length_or_a_measure_error(text: str) -> None:
    with contextlib.suppress(MeasureError):
        assert isinstance(parse_length(text), Length)


# Ledger rows A5 and A6: plain arithmetic, checked with Python fractions.
def test_fractions_add_as_on_a_tape() -> None:
    total = parse_length("5'-7 3/8\"") + parse_length("3'-9 7/8\"")
    assert write_feet_inches(total) == "9'-5 1/4\""
    assert total.exact_inches == Fraction(67 * 8 + 3, 8) + Fraction(45 * 8 + 7, 8)


@pytest.mark.parametrize(
    ("text", "feet"), [("8.5 ft", 8.5), ("8'-6\"", 8.5), ("8'-5\"", 8 + 5 / 12), ("10.4 ft", 10.4)]
)
def test_decimal_feet_are_not_feet_and_inches(text: str, feet: float) -> None:
    assert parse_length(text).feet == pytest.approx(feet, abs=1 / 768)


def test_ten_point_four_feet_is_ten_feet_four_and_eight_tenths() -> None:
    assert write_feet_inches(parse_length("10.4 ft")) == "10'-4 13/16\""
