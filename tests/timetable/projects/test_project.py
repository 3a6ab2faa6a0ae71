"""Projects as written: what does not fit is told, all at once, and loops are printed."""

import pytest

from setday.errors import NoAnswer
from setday.timetable.projects import Link, Project, lower_bound, verify


def project(**changes):
    given = {
        "name": "porch",
        "durations": (2, 3, 1),
        "demands": ((1,), (2,), (2,)),
        "links": (Link(before=0, after=1, lag=1),),
        "capacities": ((2,),),
    }
    return Project(**(given | changes))


def test_tasks_that_wait_for_each_other_are_printed_as_a_loop():
    links = (Link(before=0, after=1), Link(before=1, after=2), Link(before=2, after=0))
    with pytest.raises(NoAnswer, match="0 -> 1 -> 2 -> 0"):
        project(links=links)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"demands": ((1,), (2,))}, "3 lengths but 2 rows of demands"),
        ({"demands": ((1,), (3,), (2,))}, "task 1 asks for 3 of resource 0, which never has more than 2"),
        ({"capacities": ((2, 1),)}, "task 1 asks for 2 of resource 0, which in the end has only 1"),
        ({"capacities": ((),)}, "a resource has no capacity at all"),
        ({"durations": (2, -1, 1)}, "a task has a length below nothing"),
        ({"links": (Link(before=0, after=7),)}, "a link names a task outside 0 to 2"),
        ({"links": (Link(before=0, after=1, lag=-2),)}, "task 1 waits for task 0 with a lag of -2"),
        ({"releases": (0,)}, "3 lengths but 1 earliest starts"),
    ],
)
def test_what_does_not_fit_is_told(changes, said):
    with pytest.raises(NoAnswer) as told:
        project(**changes)
    assert said in str(told.value)


@pytest.mark.parametrize(
    ("starts", "said"),
    [
        ((0, 2, 6), "task 1 starts in period 2, before 3 when task 0 lets it"),
        ((0, 3, 3), "period 3 uses 4 of resource 0, which has 2"),
        ((-1, 3, 6), "task 0 starts in period -1, but not before 0 is allowed"),
        ((0, 3), "3 tasks but 2 starts"),
    ],
)
def test_the_check_finds_what_a_timetable_breaks(starts, said):
    assert said in verify(project(), starts)


def test_the_bound_is_the_longest_chain_or_the_work_a_resource_has_to_do():
    assert lower_bound(project()) == 6  # 2 + 1 waiting + 3
    assert lower_bound(project(links=())) == 5  # 10 of work through 2 at a time
    assert lower_bound(project(links=(), capacities=((0, 0, 0, 2),))) == 8  # nothing in the first three
