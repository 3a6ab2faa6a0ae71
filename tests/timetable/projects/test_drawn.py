"""Projects drawn in the published manner have the complexity, factor and strength that were asked for."""

import pytest

from bench.project_cases import COMPLEXITIES, FACTORS, STRENGTHS, drawn_rows
from bench.rcpsp import project_of
from setday.timetable.projects import verify
from setday.timetable.projects.bounds import heads

TASKS = 30


@pytest.fixture(scope="module")
def rows():
    return list(drawn_rows(TASKS))


def reached(after, task):
    found = set(after[task])
    for later in after[task]:
        found |= reached(after, later)
    return found


def test_there_is_one_for_every_cell_of_the_design(rows):
    assert len(rows) == len(COMPLEXITIES) * len(FACTORS) * len(STRENGTHS[60])


def test_links_are_as_many_as_the_complexity_says_and_each_says_something_new(rows):
    each = len(FACTORS) * len(STRENGTHS[60])
    for number, row in enumerate(rows):
        wanted = COMPLEXITIES[number // each] * (TASKS + 2)
        assert abs(sum(map(len, row["suc"])) / wanted - 1) < 0.05, row["name"]
        for later in row["suc"]:
            assert not any(other in reached(row["suc"], task) for task in later for other in later)


def test_demands_are_as_many_as_the_factor_says(rows):
    for number, row in enumerate(rows):
        factor = FACTORS[number // len(STRENGTHS[60]) % len(FACTORS)]
        assert sum(amount > 0 for line in row["dem"] for amount in line) == round(factor * TASKS * 4)


def test_a_strength_of_one_never_makes_the_earliest_starts_wait(rows):
    """By its definition: capacity is then the peak of the earliest starts."""
    easy = [project_of(row) for row in rows[len(STRENGTHS[60]) - 1 :: len(STRENGTHS[60])]]
    assert [verify(project, heads(project)) for project in easy] == [[] for _ in easy]


def test_the_same_seed_draws_the_same_projects(rows):
    assert list(drawn_rows(TASKS, skip=5, every=16)) == rows[5::16]
