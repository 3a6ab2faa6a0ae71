"""Limits become a deadline when a solve begins."""

import pytest

from setday.solving import Limits


class Ticking:
    """A clock set by hand."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


@pytest.mark.parametrize(
    ("later", "spent", "left", "expired"),
    [(0.0, 0.0, 10.0, False), (9.0, 9.0, 1.0, False), (10.0, 10.0, 0.0, True), (12.0, 12.0, 0.0, True)],
)
def test_a_deadline_counts_from_the_start_of_the_solve(later, spent, left, expired):
    clock = Ticking()
    deadline = Limits(seconds=10.0, clock=clock).start()
    clock.now += later
    assert (deadline.spent, deadline.left, deadline.expired) == (spent, left, expired)
