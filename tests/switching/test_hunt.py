"""Planted faults: drawn the same again, answered as the house would, scored beside the shortest way."""

import numpy as np
import pytest

from setday.errors import NoAnswer
from setday.switching import Difficulty, Flip, HuntGround, Measure, Meter, Seen, diagnose
from tests.switching import oracle
from tests.switching.circuits import standard

HALL = standard("three-way-light-between")


@pytest.fixture(scope="module")
def ground():
    return HuntGround(HALL)


def test_the_same_seed_draws_the_same_fault(ground):
    drawn = [ground.draw(difficulty=Difficulty.EASY, seed=4) for _ in range(2)]
    assert drawn[0] == drawn[1]
    assert len({ground.draw(difficulty=Difficulty.EASY, seed=n).words for n in range(20)}) > 5


def test_hard_faults_take_more_effort_than_easy_ones(ground):
    mean = {
        level: np.mean(
            [
                ground.lengths[1][ground.group_of(ground.draw(difficulty=level, seed=n).variant)]
                for n in range(40)
            ]
        )
        for level in Difficulty
    }
    assert mean[Difficulty.EASY] < mean[Difficulty.MEDIUM] < mean[Difficulty.HARD]


@pytest.mark.parametrize("seed", range(6))
def test_what_the_house_shows_leads_the_finder_to_the_planted_fault(ground, seed):
    planted = ground.draw(difficulty=Difficulty.MEDIUM, seed=seed)
    seen, tests = [], []
    for _ in range(25):
        found = diagnose(HALL, tuple(seen), faults=1, meters=(Meter.DEAD,))
        if found.next is None:
            break
        tests.append(found.next.test)
        seen.append(ground.answer(planted, found.next.test))
    score = ground.score(planted, tests, named=found.suspects[0].faults[0])
    assert score.right
    assert score.left == 1
    assert score.tests == len(tests)


def test_a_wrong_name_is_not_right_and_says_what_the_tests_had_left(ground):
    planted = ground.planted("The lamp in L1 is burnt out, or not screwed in.")
    score = ground.score(planted, [Flip(position=(0, 0))], named="Switch S1 is dead: it never closes.")
    assert not score.right
    assert score.left > 2
    assert score.best_tests >= 1


def test_a_box_is_opened_once(ground):
    first, second = (HALL.device("S1").point(name) for name in ("common", "traveler 1"))
    reading = Measure(position=(0, 0), meter=Meter.DEAD, first=first, second=second)
    planted = ground.planted("The lamp in L1 is burnt out, or not screwed in.")
    once = ground.score(planted, [reading], named=planted.words).effort
    twice = ground.score(planted, [reading, reading], named=planted.words).effort
    assert twice - once < once


def test_a_burnt_lamp_is_dark_everywhere(ground):
    planted = ground.planted("The lamp in L1 is burnt out, or not screwed in.")
    shown = [ground.answer(planted, Flip(position=p)) for p in oracle.positions(HALL)]
    assert all(isinstance(s, Seen) and s.looks[0][1] == "off" for s in shown)


def test_what_is_no_fault_is_said(ground):
    with pytest.raises(NoAnswer):
        ground.planted("The cat did it.")
