"""What keeps a student off a piece of work.

Outside checks: 29 CFR 570, subpart E, as far as it was read; each case names its section.
"""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.errors import RuleError
from setday.findings import Severity
from setday.roster import (
    LimitRules,
    Student,
    Work,
    barring,
    exposures,
    limits,
    may,
    refusals,
)
from tests.roster.people import adult, signed, student

ON = date(2026, 10, 1)
LEARNER = student("lea", student_learner=True)
YOUNG = student("yan", born=date(2011, 9, 30))  # 15


def work(*near, signoffs=(), on_site=True):
    """A work near something."""
    return Work(key="w", label="the work", signoffs=signoffs, exposures=near, on_site=on_site)


def barred_by(who, what, **more):
    """Return the keys of the rules that bar somebody."""
    return [each.rule.removeprefix("limits.") for each in barring(refusals(who, what, on=ON, **more))]


@pytest.mark.parametrize(
    ("near", "order", "learner_exempt"),
    [
        # Seven orders exempt student-learners: 5, 8, 10, 12, 14, 16, 17 (570.50(c), secondary texts)
        ("woodworking machine", "order-5", True),  # 570.55
        ("power nailer", "order-5", True),  # 570.55, that nailers are in it: from memory
        ("hoisting apparatus", "order-7", False),  # 570.58; tending it too; no exemption
        ("metal shear", "order-8", True),  # 570.59
        ("power saw", "order-14", True),  # 570.65
        ("wrecking", "order-15", False),  # 570.66, read in full: no exemption
        ("roofing", "order-16", True),  # 570.67
        ("about a roof", "order-16", True),  # 570.67(b): sheathing, trusses, joists, gutters
        ("excavation", "order-17", True),  # 570.68, from memory
        ("driving", "order-2", False),  # 570.52
    ],
)
def test_the_hazardous_occupations_orders(near, order, learner_exempt):
    assert barred_by(student(), work(near)) == [order]
    assert barred_by(LEARNER, work(near)) == ([] if learner_exempt else [order])
    assert barred_by(adult(), work(near)) == []


def test_orders_15_and_7_and_2_are_the_only_ones_here_without_an_exemption():
    """570.50(c): of the orders that touch a building site, 5, 8, 14, 16 and 17 are among the seven."""
    orders = {limit.key for limit in limits() if limit.key.startswith("order") and limit.learner}
    assert orders == {"order-5", "order-8", "order-14", "order-16", "order-17"}


def test_an_order_ends_on_the_eighteenth_birthday():
    ana = student(born=date(2008, 10, 2))
    assert not may(ana, work("roofing"), on=date(2026, 10, 1))
    assert may(ana, work("roofing"), on=date(2026, 10, 2))


def test_under_sixteen_nobody_works_on_the_site_and_a_bench_is_open():
    """Child Labor Regulation 3: construction, repair and demolition are closed at 14 and 15."""
    assert barred_by(YOUNG, work()) == ["regulation-3-construction"]
    assert barred_by(YOUNG, work(on_site=False)) == []
    assert barred_by(YOUNG, work("power tool", on_site=False)) == ["regulation-3-machinery"]


def test_an_agreement_does_not_help_before_sixteen():
    young = student("yan", born=date(2011, 9, 30), student_learner=True)
    assert "order-16" in barred_by(young, work("roofing"))


def test_without_a_day_of_birth_a_student_is_a_minor_without_exemption_and_is_asked_for_it():
    found = refusals(student("ben", born=None, student_learner=True), work("roofing"), on=ON)
    assert [(each.rule, each.severity) for each in found] == [
        ("limits.birth-date", Severity.ASK),
        ("limits.order-16", Severity.PROBLEM),
    ]
    assert "taken for a minor" in found[1].found


def test_plain_work_on_the_site_is_open_from_sixteen_on():
    assert may(student(), work(), on=ON)


def test_a_refusal_says_the_order_until_when_and_what_lifts_it():
    (found,) = refusals(student(), work("roofing"), on=ON)
    assert found.about == "Ana on 'the work'"
    assert "Order 16" in found.found
    assert "9 March 2028" in found.found
    assert "student-learner agreement" in found.do
    assert "570.67" in str(found.source)


def test_what_is_from_memory_says_so():
    sources = {limit.key: str(limit.source) for limit in limits()}
    assert "from memory" in sources["order-17"]
    assert "from memory" in sources["regulation-3-ladder"]
    assert "from memory" not in sources["order-7"]


def test_a_missing_sign_off_is_told_and_no_reason_lifts_it():
    rules = LimitRules(set_aside=(("all", "the school is no employer: board decision of 3 May"),))
    assert barred_by(adult(), work(signoffs=("lift", "saw")), rules=rules) == ["signoff", "signoff"]
    assert barred_by(adult(signoffs=(signed("lift"), signed("SAW"))), work(signoffs=("lift", "saw"))) == []


def test_a_sign_off_dated_later_says_from_when_it_counts():
    found = refusals(adult(signoffs=(signed("lift", date(2026, 11, 2)),)), work(signoffs=("lift",)), on=ON)
    assert "counts from 2 November 2026 only" in found[0].found


def test_a_limit_set_aside_lets_through_and_keeps_its_reason():
    rules = LimitRules(set_aside=(("order-16", "county letter of 4 June"),))
    (found,) = refusals(student(), work("roofing"), on=ON, rules=rules)
    assert found.severity is Severity.NOTE
    assert "county letter of 4 June" in found.found
    assert may(student(), work("roofing"), on=ON, rules=rules)
    assert not may(student(), work("power saw"), on=ON, rules=rules)


def test_setting_aside_all_sets_the_age_limits_aside_too():
    rules = LimitRules(set_aside=(("all", "not like employment"),))
    assert may(YOUNG, work("roofing"), on=ON, rules=rules)


def test_nothing_is_set_aside_without_a_reason_and_all_that_is_wrong_is_told_at_once():
    with pytest.raises(RuleError) as told:
        LimitRules(set_aside=(("order-16", "  "), ("order-99", "because"), ("order-5", "letter")))
    assert "order-16" in told.value.message
    assert "order-99" in told.value.message
    assert "order-5'" not in told.value.message


def test_the_exemption_tells_its_conditions():
    """570.50(c): incidental, short, close supervision, safety instruction, schedule, written agreement."""
    (found,) = refusals(LEARNER, work("roofing"), on=ON)
    assert found.severity is Severity.NOTE
    for words in ("written agreement", "incidental", "short periods", "supervision", "safety", "schedule"):
        assert words in found.found


BORN = st.one_of(st.none(), st.dates(date(2000, 1, 1), date(2014, 1, 1)))


@given(
    born=BORN,
    learner=st.booleans(),
    near=st.lists(st.sampled_from(exposures()), max_size=4),
    days=st.tuples(
        st.dates(date(2026, 1, 1), date(2030, 1, 1)), st.dates(date(2026, 1, 1), date(2030, 1, 1))
    ),
)
def test_getting_older_never_closes_a_work(born, learner, near, days):
    who = Student(key="x", name="X", born=born, student_learner=learner)
    earlier, later = sorted(days)
    assert not may(who, work(*near), on=earlier) or may(who, work(*near), on=later)


@given(born=BORN, learner=st.booleans(), near=st.lists(st.sampled_from(exposures()), min_size=1, max_size=4))
def test_one_more_exposure_never_opens_a_work(born, learner, near):
    who = Student(key="x", name="X", born=born, student_learner=learner)
    assert may(who, work(*near[1:]), on=ON) or not may(who, work(*near), on=ON)
