"""The cheapest packages, against trying every count."""

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.materials.packages import cheapest_packages, fewest_packages
from tests.materials.cases import SCREWS, UNPRICED, package

CONTENTS = st.sampled_from(["1", "2", "3", "5", "7", "5/2", "9/4"])
LINES = st.lists(st.tuples(CONTENTS, st.integers(0, 40)), min_size=1, max_size=3)


def lines_of(pairs):
    return [package(f"p{i}", item="x", content=c, unit="u", cents=p) for i, (c, p) in enumerate(pairs)]


def cheapest_by_trying(quantity, packages):
    most = [-int(-quantity // package.content) for package in packages]
    return min(
        sum(count * package.price_cents for count, package in zip(counts, packages, strict=True))
        for counts in product(*(range(m + 1) for m in most))
        if sum(c * p.content for c, p in zip(counts, packages, strict=True)) >= quantity
    )


@given(quantity=st.integers(1, 48), pairs=LINES)
def test_no_other_choice_of_packages_costs_less(quantity, pairs):
    packages, wanted = lines_of(pairs), Fraction(quantity, 2)
    bought = cheapest_packages(wanted, packages)
    assert sum(entry.cost_cents for entry in bought) == cheapest_by_trying(wanted, packages)
    assert sum(entry.quantity for entry in bought) >= wanted


@given(quantity=st.integers(1, 10**7), pairs=LINES)
@settings(max_examples=50)
def test_a_large_quantity_costs_no_more_than_all_of_one_package(quantity, pairs):
    packages = lines_of(pairs)
    cost = sum(entry.cost_cents for entry in cheapest_packages(Fraction(quantity), packages))
    alone = min(-int(-quantity // p.content) * p.price_cents for p in packages)
    assert cost <= alone


# 1,000 for 9.00 and 5,000 for 39.00, worked by hand
@pytest.mark.parametrize(
    ("screws", "counts", "cents"),
    [
        (1, {"screw-1000": 1}, 900),
        (4000, {"screw-1000": 4}, 3600),
        (4001, {"screw-5000": 1}, 3900),
        (6200, {"screw-5000": 1, "screw-1000": 2}, 5700),
        (9500, {"screw-5000": 2}, 7800),
    ],
)
def test_screws_are_bought_in_the_cheapest_boxes(screws, counts, cents):
    bought = cheapest_packages(Fraction(screws), SCREWS)
    assert {entry.package.key: entry.count for entry in bought} == counts
    assert sum(entry.cost_cents for entry in bought) == cents


def test_nothing_is_bought_for_nothing():
    assert cheapest_packages(Fraction(0), SCREWS) == ()


def test_a_package_without_a_price_cannot_be_weighed():
    with pytest.raises(ValueError, match="price"):
        cheapest_packages(Fraction(1), [UNPRICED])


def test_without_prices_the_fewest_packages_are_taken():
    bought = fewest_packages(Fraction(11_200), SCREWS)
    assert {entry.package.key: entry.count for entry in bought} == {"screw-5000": 3}
