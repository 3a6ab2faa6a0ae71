"""Finding faults: whatever is planted is found, and the next test is worth its effort."""

import numpy as np
import pytest

from setday.files import read_observation
from setday.rules import LocalRules
from setday.switching import (
    ChangeKind,
    Flip,
    Look,
    Measure,
    Meter,
    Seen,
    answers,
    best_tree,
    catalog,
    diagnose,
    distinct,
    efforts,
    every_change,
    groups_of,
    hunt_lengths,
    lay_out,
    observation_of,
    switching_rules,
    try_hookup,
)
from setday.switching.changes import applied, hookup_of
from setday.switching.nets import only
from tests.switching import oracle
from tests.switching.circuits import STANDARD, rejoined, standard

HALL = "three-way-light-between"


def planted(hookup, *changes):
    """Return how a hookup with changes in it answers a test."""
    circuit = lay_out(hookup)
    variant = only(circuit)
    for change in changes:
        applied(circuit, change, variant)

    def answer(test):
        code = int(answers(circuit, variant, (test,)).codes[0, 0])
        return observation_of(circuit, test, code)

    return answer


def hunted(hookup, answer, *, most=25, **options):
    """Do every test proposed until none is left; return the last diagnosis and how many tests it took."""
    seen = []
    for _ in range(most):
        found = diagnose(hookup, tuple(seen), faults=1, **options)
        if found.next is None:
            return found, len(seen)
        seen.append(answer(found.next.test))
    pytest.fail("the hunt did not end")


def some_faults(hookup, step):
    circuit = lay_out(hookup)
    changes = every_change(circuit)
    _, groups = distinct(circuit, changes)
    return [changes[places[0]] for places in groups[::step]]


@pytest.mark.parametrize("name", [HALL, "half-switched-receptacle", "two-lights-shared-cable"])
def test_a_planted_fault_is_among_those_left_when_no_test_tells_more(name):
    hookup = standard(name)
    for change in some_faults(hookup, 17):
        found, _ = hunted(hookup, planted(hookup, change))
        told = {
            words for suspect in found.suspects for each in (suspect.faults, *suspect.same) for words in each
        }
        assert change.words in told
        assert len({suspect.group for suspect in found.suspects}) == 1


def test_suspects_are_exactly_the_faults_that_explain_what_the_whole_solver_sees():
    """The engine of many variants, held against trying each faulty hookup by itself."""
    hookup = standard(HALL)
    circuit = lay_out(hookup)
    changes = [c for c in every_change(circuit) if c.mend]
    wrong = rejoined(hookup, ("S2 common", "S2 traveler 1"))
    seen = tuple(
        Seen(position=t.position, looks=tuple((s.load, s.look) for s in t.loads))
        for t in try_hookup(wrong).positions
    )
    expected = set()
    for change in changes:
        variant = only(circuit)
        applied(circuit, change, variant)
        tried = try_hookup(hookup_of(circuit, variant.labels[0]))
        looks = tuple(tuple((s.load, s.look) for s in t.loads) for t in tried.positions)
        if looks == tuple(s.looks for s in seen) and not any(t.breaker.opens for t in tried.positions):
            expected.add(change.words)
    found = diagnose(hookup, seen, faults=1)
    told = {words for s in found.suspects for each in (s.faults, *s.same) for words in each}
    assert expected
    assert {words for words in told if words in {c.words for c in changes}} == expected


def test_flipping_comes_before_opening_a_box_and_dead_before_live():
    hookup = standard(HALL)
    assert isinstance(diagnose(hookup, (), faults=1).next.test, Flip)
    seen = tuple(Seen(position=p, looks=(("L1", Look.OFF),)) for p in oracle.positions(hookup))
    after = diagnose(hookup, seen, faults=1).next
    assert isinstance(after.test, Measure)
    assert after.test.meter is Meter.DEAD
    assert not after.instructor


def test_live_readings_are_the_instructors():
    hookup = standard(HALL)
    seen = tuple(Seen(position=p, looks=(("L1", Look.OFF),)) for p in oracle.positions(hookup))
    found = diagnose(hookup, seen, faults=1, meters=(Meter.LIVE,))
    assert found.next.instructor
    assert "instructor" in found.next.words


def test_likelihoods_can_be_set():
    hookup = standard(HALL)
    seen = tuple(Seen(position=p, looks=(("L1", Look.OFF),)) for p in oracle.positions(hookup))
    usual = diagnose(hookup, seen, faults=1)
    burnt = [s for s in usual.suspects if s.changes[0].kind is ChangeKind.BURNT_LAMP]
    assert burnt
    never = switching_rules(LocalRules(values={"switching.likely_burnt_lamp": "0"}))
    assert not [
        s
        for s in diagnose(hookup, seen, faults=1, rules=never).suspects
        if s.changes[0].kind is ChangeKind.BURNT_LAMP
    ]
    surely = switching_rules(LocalRules(values={"switching.likely_burnt_lamp": "1000"}))
    assert diagnose(hookup, seen, faults=1, rules=surely).suspects[0].changes[0].kind is ChangeKind.BURNT_LAMP


def test_two_faults_are_looked_for_when_no_single_one_explains():
    hookup = standard(HALL)
    circuit = lay_out(hookup)
    by_words = {change.words: change for change in every_change(circuit)}
    both = [
        next(c for w, c in by_words.items() if c.kind is ChangeKind.STUCK_SWITCH and "S1" in w and "up" in w),
        next(c for w, c in by_words.items() if "S2 common" in w and c.kind is ChangeKind.SWAPPED_TERMINALS),
    ]
    answer = planted(hookup, *both)
    seen = [answer(Flip(position=p)) for p in oracle.positions(hookup)]
    tests = [t for t in catalog(circuit, meters=(Meter.DEAD,)) if isinstance(t, Measure)]
    seen += [answer(test) for test in tests[::7]]
    found = diagnose(hookup, tuple(seen))
    assert found.faults == 2
    told = [set(each) for s in found.suspects for each in (s.faults, *s.same)]
    assert {change.words for change in both} in told


def test_the_search_for_pairs_tells_how_far_it_is_and_can_be_stopped():
    calls = []

    def progress(done, of):
        calls.append((done, of))
        return len(calls) < 2

    found = diagnose(standard("four-way-light-last"), (), faults=2, progress=progress)
    assert found.stopped
    assert len(calls) == 2


def test_nothing_wrong_is_said_to_be_as_planned():
    hookup = standard(HALL)
    seen = tuple(
        Seen(position=t.position, looks=tuple((s.load, s.look) for s in t.loads))
        for t in try_hookup(hookup).positions
    )
    assert diagnose(hookup, seen).agrees_with_plan


def test_what_contradicts_itself_is_explained_by_nothing():
    hookup = standard(HALL)
    seen = (
        read_observation("S1 up, S2 up: L1 full", hookup),
        read_observation("S1 up, S2 up: L1 off", hookup),
    )
    found = diagnose(hookup, seen, faults=1)
    assert found.suspects == ()
    assert "No single fault" in found.verdict


def matrix(name, kinds=tuple(ChangeKind)):
    circuit = lay_out(standard(name))
    changes = tuple(c for c in every_change(circuit) if c.kind in kinds and not c.with_ground)
    variants, _ = distinct(circuit, changes)
    told = answers(circuit, variants, catalog(circuit, meters=(Meter.DEAD,)))
    return circuit, told.tests, told.codes[[rows[0] for rows in groups_of(told)]]


AT_DEVICES = (
    ChangeKind.SWAPPED_TERMINALS,
    ChangeKind.DEAD_SWITCH,
    ChangeKind.STUCK_SWITCH,
    ChangeKind.BURNT_LAMP,
    ChangeKind.WRONG_KIND,
)
SMALL = [
    "single-pole-feed-at-light",
    "single-pole-feed-at-switch",
    "half-switched-receptacle",
    "two-lights-shared-cable",
    "light-and-receptacles",
    "three-way-light-between",
]


@pytest.mark.parametrize("name", SMALL)
def test_the_mean_number_of_tests_is_within_15_percent_of_the_best_tree(name):
    _, tests, codes = matrix(name, AT_DEVICES)
    count, _ = hunt_lengths(codes, np.ones(len(codes)), np.ones(len(tests)))
    best = best_tree(codes)
    assert best.exact
    assert best.least <= count.mean() <= 1.15 * best.least


@pytest.mark.parametrize("name", STANDARD)
def test_the_mean_number_of_tests_is_within_1_3_log2_of_the_groups(name):
    circuit, tests, codes = matrix(name)
    for effort in (np.ones(len(tests)), efforts(tests, circuit.rules)):
        count, _ = hunt_lengths(codes, np.ones(len(codes)), effort)
        assert count.mean() <= 1.3 * np.log2(len(codes))


def test_the_best_tree_of_eight_alike_is_three_questions_of_two_answers():
    codes = np.array([[n >> k & 1 for k in range(3)] for n in range(8)], dtype=np.int16)
    found = best_tree(codes)
    assert (found.least, found.exact) == (3.0, True)


def test_the_best_tree_where_each_question_names_one_is_a_chain():
    # Four suspects, each question singles one out: 1, 2, 3, 3 questions
    codes = np.eye(4, dtype=np.int16)
    assert best_tree(codes).least == pytest.approx((1 + 2 + 3 + 3) / 4)
