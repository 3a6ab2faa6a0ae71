"""Searching a real fault: groups, their shares, the next test, and the same again from the records."""

import json
from dataclasses import replace

import pytest

from setday.actions.switching.faults import explained_again, observed, search
from setday.actions.switching.hookups import example_text, open_hookup
from setday.actions.switching.hunts import asked, begun, hunt_ground
from setday.errors import SetdayError
from setday.files import read_test

HALL = open_hookup(example_text("three-way-light-between"), name="hall").sound()
DARK = ("S1 up, S2 up: L1 off", "S1 up, S2 down: L1 off")


@pytest.fixture(scope="module")
def dark():
    return search(HALL, DARK, faults=1)


def test_a_lamp_that_is_always_dark_may_be_burnt_out(dark):
    listed = [words for group in dark.groups for words in group.faults]
    assert "The lamp in L1 is burnt out, or not screwed in." in listed
    assert dark.faults == 1


def test_the_shares_of_the_groups_fall_and_make_one_whole(dark):
    shares = [group.share for group in dark.groups]
    assert shares == sorted(shares, reverse=True)
    assert dark.groups_left_out or sum(shares) == pytest.approx(1)


def test_the_next_test_can_be_typed_as_it_stands(dark):
    assert dark.next
    assert read_test(dark.next.test, HALL).position
    assert 0 < dark.next.groups_left < dark.next.groups_now


def test_a_search_comes_back_from_the_records_as_it_was(dark):
    assert explained_again(json.loads(json.dumps(dark.record()))) == dark


def test_a_kind_made_more_likely_rises():
    burnt = [
        next(
            g.share
            for g in search(HALL, DARK, faults=1, likely=likely).groups
            if any("burnt" in w for w in g.faults)
        )
        for likely in ({"burnt_lamp": 20.0}, {"burnt_lamp": 500.0})
    ]
    assert burnt[0] < burnt[1]


def test_a_kind_without_likelihood_is_no_suspect():
    found = search(HALL, DARK, faults=1, likely={"burnt_lamp": 0.0})
    assert not [words for group in found.groups for words in group.faults if "burnt" in words]


def test_following_the_next_test_ends_when_the_rest_cannot_be_told_apart():
    ground = hunt_ground(HALL)
    planted = ground.planted("Box 'light': L1 brass is not joined to N2 black.")
    log = begun(HALL)
    for _ in range(20):
        found = search(HALL, log.lines(HALL), faults=1)
        if found.next is None:
            break
        test = read_test(found.next.test, HALL)
        opened = [test.first.box] if hasattr(test, "first") else []
        log = asked(replace(log, opened=(*log.opened, *opened)), test, ground=ground, planted=planted)
    assert found.next is None
    assert len(found.groups) == 1
    assert planted.words in found.groups[0].faults


def test_two_faults_are_looked_for_with_progress_and_can_be_stopped():
    heard = []

    def hear(done, of):
        heard.append((done, of))
        return len(heard) < 2

    found = search(HALL, DARK, faults=2, progress=hear)
    assert found.stopped
    assert found.faults == 2
    assert len(heard) == 2


def test_two_faults_that_explain_what_no_single_one_does_are_found():
    """One lamp always dark, the other always lit."""
    hookup = open_hookup(example_text("two-lights-shared-cable"), name="two").sound()
    lines = tuple(
        f"S1 {a}, S2 {b}: L1 off, L2 full" for a, b in (("on", "off"), ("on", "on"), ("off", "off"))
    )
    assert search(hookup, lines, faults=1).suspects == 0
    found = search(hookup, lines, faults=2)
    listed = [words for group in found.groups for words in group.faults]
    assert all(" And also: " in words for words in listed)
    assert any("burnt" in words and "stuck as if on" in words for words in listed)


@pytest.mark.parametrize("line", ["S1 up: L1 off", "S1 up, S2 up: L1 purple", "nothing"])
def test_a_line_that_cannot_be_read_is_refused(line):
    with pytest.raises(SetdayError):
        observed(HALL, [line])
