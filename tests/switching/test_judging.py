"""What is wrong is said where it is, and what would mend it does."""

import random
from dataclasses import replace

import pytest

from setday.switching import judge
from setday.switching.changes import applied, hookup_of, join_changes
from setday.switching.circuit import lay_out
from setday.switching.nets import only
from tests.switching.circuits import STANDARD, rejoined, standard, touching, without, wrong

HALL = "three-way-light-between"


def said(hookup):
    return " ".join(str(finding) for finding in judge(hookup).findings)


def test_a_swap_is_told_in_its_position_and_mended_in_its_box():
    judgment = judge(rejoined(standard(HALL), ("S1 common", "S1 traveler 1")))
    assert not judgment.works
    told = str(next(f for f in judgment.behavior if f.rule == "switching.want-not-met"))
    assert "L1 is off and should be lit" in told
    assert any("'near'" in step and "swap" in step for step in judgment.mends[0].steps)
    assert judgment.mends[0].left == 0


def test_a_short_names_the_positions_in_which_the_breaker_opens():
    hookup = touching(standard("single-pole-feed-at-switch"), "S1 brass 2", "feed white")
    told = said(hookup)
    assert "opens" in told
    assert "S1 on" in told


def test_a_neutral_joined_to_the_ground_is_told_with_its_current():
    hookup = rejoined(standard(HALL), ("L1 silver", "L1 green"))
    assert "a bare wire carries nothing" in said(hookup)


def test_what_is_wrong_stands_before_what_is_only_worth_knowing():
    hookup = rejoined(standard("four-way-feed-at-light"), ("S1 common", "S1 traveler 1"))
    told = [finding.severity.value for finding in judge(hookup, mend=False).behavior]
    assert told[0] == "problem"
    assert told[-1] == "note"


def test_a_lamp_that_stays_live_while_off_is_told():
    hookup = rejoined(standard("single-pole-feed-at-switch"), ("feed black", "feed white"))
    assert "off and still live" in said(hookup)


def test_live_metal_is_told():
    hookup = rejoined(standard("single-pole-feed-at-light"), ("L1 brass", "L1 green"))
    told = said(without(hookup, "feed bare", box="ceiling"))
    assert "is live: whoever touches the metal gets a shock" in told


def test_a_loose_end_and_an_empty_terminal_are_told_by_name():
    told = said(without(standard(HALL), "N2 black", box="far"))
    assert "N2 black in box 'far'" in told
    assert "S2 common in box 'far'" in told


def test_a_tab_left_in_is_told_and_mended():
    half = standard("half-switched-receptacle")
    whole = replace(half, devices=tuple(replace(device, brass_tab=True) for device in half.devices))
    judgment = judge(whole)
    assert not judgment.works
    assert "R1 lower" in said(whole)


@pytest.mark.parametrize("seed", range(12))
def test_every_mend_mends(seed):
    chance = random.Random(seed)
    name = chance.choice([name for name in STANDARD if len(standard(name).switches) <= 2])
    broken = wrong(standard(name), chance)
    circuit = lay_out(broken)
    by_words = {change.mend: change for change in join_changes(circuit)}
    for mend in judge(broken).mends:
        variant = only(circuit)
        for step in mend.steps:
            applied(circuit, by_words[step], variant)
        left = [
            f
            for f in judge(hookup_of(circuit, variant.labels[0]), mend=False).behavior
            if f.rule in ("switching.want-not-met", "switching.breaker-opens")
        ]
        assert left == []


def test_two_changes_are_looked_for_when_one_is_not_enough():
    hookup = rejoined(standard(HALL), ("S1 common", "S1 traveler 1"), ("S2 common", "S2 traveler 1"))
    judgment = judge(hookup)
    assert judgment.mends
    assert {len(mend.steps) for mend in judgment.mends} <= {1, 2}
