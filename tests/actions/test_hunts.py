"""A crew's hunt as data: answers from the circuit, nothing of the fault beside them."""

import pytest

from setday.actions.switching.hookups import example_text, open_hookup
from setday.actions.switching.hunts import (
    asked,
    asked_for,
    begun,
    best_hunt,
    box_opened,
    faults_by_box,
    hunt_ground,
    logged,
    outcome,
    standing,
    thrifty_way,
)
from setday.actions.switching.naming import Named
from setday.errors import NoAnswer, RuleError
from setday.files import read_test
from setday.switching import ChangeKind, Difficulty, Seen, diagnose

HALL = open_hookup(example_text("three-way-light-between"), name="hall").sound()
LAMP = Named(kind=ChangeKind.BURNT_LAMP, first="L1")
BURNT = "The lamp in L1 is burnt out, or not screwed in."
ONLY_DEVICES = dict.fromkeys(["swapped_ends", "moved", "missing", "extra", "broken", "with_ground"], 0.0)


@pytest.fixture(scope="module")
def ground():
    return hunt_ground(HALL)


def hunting(ground, planted, *tests, opened=()):
    log = begun(HALL)
    for box in opened:
        log = box_opened(log, box, HALL)
    for test in tests:
        log = asked(log, read_test(test, HALL), ground=ground, planted=planted)
    return log


def test_a_crew_begins_with_handles_down_boxes_closed_and_nothing_seen():
    log = begun(HALL)
    assert (log.position, log.opened, log.seen) == ((0, 0), (), ())


def test_a_flip_moves_the_handles_and_shows_the_lamps(ground):
    log = hunting(ground, ground.planted(BURNT), "S1 up, S2 down")
    assert log.position == (1, 0)
    assert log.lines(HALL) == ("S1 up, S2 down: L1 off",)


def test_the_same_flip_is_not_counted_twice(ground):
    log = hunting(ground, ground.planted(BURNT), "S1 up, S2 down", "S1 up, S2 up", "S1 up, S2 down")
    assert len(log.tests) == 2
    assert log.position == (1, 0)


def test_the_same_reading_the_other_way_round_is_not_counted_twice(ground):
    there = "S1 up, S2 up: dead, S1 common to S1 traveler 1 in near"
    back = "S1 up, S2 up: dead, S1 traveler 1 to S1 common in near"
    log = hunting(ground, ground.planted(BURNT), there, back, opened=["near"])
    assert len(log.tests) == 1


@pytest.mark.parametrize(
    ("reading", "said"),
    [
        ("S1 up, S2 up: dead, S2 common to S2 traveler 1 in far", "closed"),
        ("S1 up, S2 up: dead, S1 common to S1 common in near", "one point"),
    ],
)
def test_a_reading_that_cannot_be_taken_is_refused(ground, reading, said):
    with pytest.raises(NoAnswer, match=said):
        hunting(ground, ground.planted(BURNT), reading, opened=["near"])


def test_a_box_that_is_not_there_cannot_be_opened():
    with pytest.raises(NoAnswer, match="no box 'attic'"):
        box_opened(begun(HALL), "attic", HALL)


def test_a_log_comes_back_as_it_was_written_down(ground):
    reading = "S1 up, S2 up: dead, S1 common to feed black in near"
    log = hunting(ground, ground.planted(BURNT), "S1 up, S2 down", reading, opened=["near"])
    back = logged(HALL, position=list(log.position), opened=["near"], lines=log.lines(HALL))
    assert back == log


@pytest.mark.parametrize("seed", range(5))
def test_what_is_still_open_is_what_the_finder_finds(ground, seed):
    planted = ground.draw(difficulty=Difficulty.MEDIUM, seed=seed)
    reading = "S1 up, S2 up: dead, S1 common to S1 traveler 1 in near"
    log = hunting(ground, planted, "S1 up, S2 down", "S1 down, S2 down", reading, opened=["near"])
    found = diagnose(HALL, log.seen, faults=1)
    still = standing(ground, log.seen).open
    assert {words for group in still for words in group} == {
        words
        for suspect in found.suspects
        for words in (*suspect.faults, *(w for s in suspect.same for w in s))
    }
    assert any(planted.words in group for group in still)


def test_before_the_first_test_everything_is_open(ground):
    at = standing(ground, ())
    assert len(at.open) == at.groups == len(ground.groups)


def test_what_was_seen_speaks_against_a_wrong_name(ground):
    lit = hunting(ground, ground.planted("Switch S2 is stuck as if up."), "S1 up, S2 up", "S1 up, S2 down")
    at = standing(ground, lit.seen, named=Named(kind=ChangeKind.BURNT_LAMP, first="L1"))
    lines = lit.lines(HALL)
    assert at.against == tuple(n for n, line in enumerate(lines, 1) if not line.endswith("L1 off"))
    assert at.against
    stuck = Named(kind=ChangeKind.STUCK_SWITCH, first="S2")
    assert standing(ground, lit.seen, named=stuck).against == ()


def test_two_faults_that_look_alike_stand_alike(ground):
    """Nothing but what was seen decides where a hunt stands."""
    flips = ("S1 up, S2 down", "S1 down, S2 down")
    dark = [
        words
        for at in faults_by_box(ground)
        for _kind, words in at.faults
        if all(line.endswith("off") for line in hunting(ground, ground.planted(words), *flips).lines(HALL))
    ]
    assert len(dark) > 10
    logs = [hunting(ground, ground.planted(words), *flips) for words in dark[:6]]
    assert len({standing(ground, log.seen, named=LAMP) for log in logs}) == 1


def test_every_fault_is_listed_at_its_box_once(ground):
    listed = [words for at in faults_by_box(ground) for _kind, words in at.faults]
    assert sorted(listed) == sorted(set(ground.fault_words()))


def test_a_kind_with_no_likelihood_cannot_be_planted():
    ground = hunt_ground(HALL, ONLY_DEVICES)
    assert {str(kind) for at in faults_by_box(ground) for kind, _words in at.faults} & set(
        ONLY_DEVICES
    ) == set()


def test_a_hunt_without_any_kind_of_fault_is_refused():
    with pytest.raises(NoAnswer, match="Choose more kinds"):
        hunt_ground(HALL, {str(kind): 0.0 for kind in ChangeKind})


@pytest.mark.parametrize("likely", [{"gremlins": 1.0}, {"missing": -1.0}, {"missing": float("nan")}])
def test_a_likelihood_that_is_none_is_refused(likely):
    with pytest.raises(RuleError):
        hunt_ground(HALL, likely)


def test_the_best_hunt_of_few_faults_is_proven():
    best = best_hunt(hunt_ground(HALL, ONLY_DEVICES))
    assert best.exact
    assert best.least <= best.mean <= best.most


def test_the_best_hunt_of_many_faults_is_the_shortest_known(ground):
    best = best_hunt(ground)
    assert not best.exact
    assert best.least is None
    assert best.groups == len(ground.groups)


def test_a_hunt_is_told_beside_the_shortest_way(ground):
    planted = ground.planted(BURNT)
    log = hunting(ground, planted, "S1 up, S2 down")
    best = best_hunt(ground)
    went = outcome(ground, planted, log, named=LAMP, best=best)
    assert (went.right, went.tests) == (True, 1)
    assert went.best_tests == best.by_group[ground.group_of(planted.variant)] >= 1
    wrong = Named(kind=ChangeKind.DEAD_SWITCH, first="S1")
    assert not outcome(ground, planted, log, named=wrong, best=best).right
    assert not outcome(ground, planted, log, named=None, best=best).right


@pytest.mark.parametrize("seed", range(6))
def test_the_thrifty_way_leads_to_the_fault_with_flips_before_boxes(ground, seed):
    planted = ground.draw(difficulty=Difficulty.HARD, seed=seed)
    way = thrifty_way(ground, planted)
    (left,) = standing(ground, way).open
    assert planted.words in left
    assert isinstance(way[0], Seen)
    assert all(ground.answer(planted, asked_for(each)) == each for each in way)


@pytest.mark.parametrize("seed", range(6))
def test_the_thrifty_way_takes_less_effort_than_going_by_boxes_first(ground, seed):
    planted = ground.draw(difficulty=Difficulty.EASY, seed=seed)
    tests = tuple(asked_for(each) for each in thrifty_way(ground, planted))
    taken = ground.score(planted, tests, named=planted.words)
    assert taken.left == 1
    assert taken.effort <= taken.best_effort
