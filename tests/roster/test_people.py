"""Ages and sign-offs."""

from datetime import date, timedelta

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from setday.roster import SignOff, Student, age_on, birthday, plain
from tests.roster.people import signed, student

BIRTHS = st.dates(date(1990, 1, 1), date(2020, 12, 31))
DAYS = st.dates(date(2000, 1, 1), date(2060, 12, 31))


@given(born=BIRTHS.filter(lambda day: (day.month, day.day) != (2, 29)), on=DAYS)
def test_ages_are_those_of_dateutil(born, on):
    """Outside check: dateutil's relativedelta counts whole years."""
    if on >= born:
        assert age_on(born, on) == relativedelta(on, born).years


@given(born=BIRTHS, years=st.integers(0, 40))
def test_the_age_is_reached_on_the_birthday_and_not_the_day_before(born, years):
    day = birthday(born, years)
    assert (age_on(born, day - timedelta(days=1)), age_on(born, day)) == (years - 1, years)


def test_who_was_born_on_29_february_waits_for_march_in_common_years():
    assert age_on(date(2008, 2, 29), date(2026, 2, 28)) == 17
    assert age_on(date(2008, 2, 29), date(2026, 3, 1)) == 18
    assert age_on(date(2008, 2, 29), date(2028, 2, 29)) == 20


def test_an_unknown_day_of_birth_gives_no_age():
    assert student(born=None).age(date(2026, 9, 7)) is None


@pytest.mark.parametrize(("on", "counts"), [(date(2026, 8, 31), False), (date(2026, 9, 1), True)])
def test_a_sign_off_counts_from_its_day_on(on, counts):
    assert student(signoffs=(signed("ladder"),)).signed_off("ladder", on=on) is counts


def test_capitals_and_spaces_of_a_sign_off_do_not_matter():
    ana = student(signoffs=(signed("Miter  Saw"),))
    assert ana.signed_off("miter saw", on=date(2026, 9, 7))
    assert ana.signed(on=date(2026, 9, 7)) == {"miter saw"}
    assert plain(" Table\tSAW ") == "table saw"


@pytest.mark.parametrize(
    "more", [{"key": ""}, {"targets": (("boards", -5),)}], ids=["no key", "less than nothing wanted"]
)
def test_a_student_that_cannot_be_is_a_mistake_of_the_caller(more):
    with pytest.raises(ValueError, match=r"without a key|less than nothing"):
        Student(**{"key": "x", "name": "X", **more})


def test_a_sign_off_says_what_when_and_who():
    assert SignOff(what="lift", on=date(2026, 9, 1), by="R. Halvorsen") == signed("lift")
