"""Hookup files: what is wrong is said with its line, several at once; what is right comes back the same."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.files import read_hookup, read_observation, write_hookup, write_observation
from setday.switching import Hookup
from tests.switching.circuits import FOLDER, STANDARD, standard

HALL = (FOLDER / "three-way-light-between.yaml").read_text(encoding="utf-8")


def findings(old: str, new: str):
    assert old in HALL
    return read_hookup(HALL.replace(old, new, 1), name="hall.yaml").findings


def line_of(text: str, changed: str) -> int:
    return next(n for n, line in enumerate(changed.splitlines(), start=1) if text in line)


BAD = [
    ("N1: 14/3 near to light", "N1: 14/3 near to lihgt", "no-such-box", "Did you mean 'light'?"),
    ("S1 traveler 1", "S1 traveler 3", "no-such-terminal", "common, traveler 1, traveler 2, green"),
    ("feed black + S1 common", "feed black + feed black + S1 common", "joined-to-itself", "two different"),
    ("feed white + N1 white", "feed white + N1 blue", "no-such-color", "has no blue conductor"),
    ("feed white + N1 white", "feed white + N1 white + S1 common", "joined-twice", "two joins"),
    ("S2: three-way switch", "S2: five-way switch", "file", "three-way switch"),
    ("N2: 14/3", "N2: 14/9", "no-such-cable", "no cable of the table"),
    ("light to far, 10 ft", "light to far, 0 ft", "length", "above 0"),
    ("light to far, 10 ft", "light to light, 10 ft", "cable-to-itself", "two different boxes"),
    ("- feed white + N1 white", "- feed white", "join-of-one", "joins nothing"),
    ("- L1 from S1 and S2", "- L1 from S1 and S9", "no-such-switch", "no switch 'S9'"),
    ("- L1 from S1 and S2", "- L7 from S1 and S2", "no-such-load", "no lamp"),
    ("- L1 from S1 and S2", "- L1 by S1", "file", "is no wish"),
    ("breaker: 15 A", "breaker: fifteen", "file", "15 A"),
    ("box: near", "box: nearby", "no-such-box", "enters box 'nearby'"),
    ("cable: 14/2", "cable: 14/3", "feed-cable", "14/2"),
    ("re-marked:\n  - N2 white", "re-marked:\n  - N7 white", "file", "names no cable"),
    ("re-marked:\n  - N2 white", "re-marked:\n  - N2 red", "re-marked", "white"),
    ("name: Hall", "colour: green\nname: Hall", "file", "no name used here"),
    ("S2 common", "S2 comon", "no-such-terminal", "Did you mean 'common'?"),
]


@pytest.mark.parametrize(("old", "new", "rule", "words"), BAD, ids=[f"{b[2]}: {b[1][:30]}" for b in BAD])
def test_what_is_wrong_is_said_with_file_line_and_what_to_do(old, new, rule, words):
    told = [f for f in findings(old, new) if f.rule == f"switching.{rule}"]
    assert told
    assert any(words in str(f) for f in told)
    assert all(f.where.file == "hall.yaml" and f.where.line > 1 for f in told)
    assert all(f.do for f in told)


def test_the_line_is_the_line():
    changed = HALL.replace("feed white + N1 white", "feed white + N1 blue")
    told = [f for f in read_hookup(changed, name="x").findings if f.rule == "switching.no-such-color"]
    assert [f.where.line for f in told] == [line_of("N1 blue", changed)]


def test_two_feeds_on_different_legs():
    feed = HALL[HALL.index("feed:") : HALL.index("boxes:")]
    two = "feed:\n  - {box: near, leg: A}\n  - {box: far, leg: B}\n"
    told = read_hookup(HALL.replace(feed, two), name="hall.yaml").findings
    assert any(f.rule == "switching.two-legs" and "240 V" in f.found for f in told)
    same = read_hookup(HALL.replace(feed, two.replace("leg: B", "leg: A")), name="hall.yaml").findings
    assert any(f.rule == "switching.two-feeds" for f in same)


def test_several_at_once_and_no_hookup():
    changed = HALL
    for old, new, _, _ in (BAD[1], BAD[3], BAD[10]):
        changed = changed.replace(old, new, 1)
    read = read_hookup(changed, name="hall.yaml")
    assert read.hookup is None
    assert len(read.problems) >= 3


def test_a_local_rule_needs_a_rule_and_a_value():
    good = HALL + "local rules:\n  switching.device_grounded:\n    value: no\n    said by: the inspector\n"
    read = read_hookup(good, name="hall.yaml")
    assert read.sound().local.values == {"switching.device_grounded": "no"}
    for bad in (
        good.replace("device_grounded", "device_gruonded"),
        good.replace("value: no", "value: perhaps"),
    ):
        assert read_hookup(bad, name="hall.yaml").problems


@pytest.mark.parametrize(
    "data", [b"", b"PK\x03\x04abc", b"\xff\xfe\x00", "- a\n- b\n", "just words", "a: [1"]
)
def test_what_is_no_hookup_file_is_said(data):
    read = read_hookup(data, name="x.yaml")
    assert read.hookup is None
    assert read.problems
    assert "house" not in " ".join(str(f) for f in read.problems).lower()


@pytest.mark.parametrize("name", STANDARD)
def test_what_is_written_reads_back_the_same(name):
    text = write_hookup(standard(name))
    again = write_hookup(read_hookup(text, name=name).sound())
    assert text == again


def test_joins_read_back_to_the_same_points():
    for name in STANDARD:
        back: Hookup = read_hookup(write_hookup(standard(name)), name=name).sound()
        assert {join.points for join in back.joins} == {join.points for join in standard(name).joins}


OBSERVED = [
    "S1 up, S2 down: L1 off",
    "S1 up, S2 down: L1 dim",
    "S1 down, S2 down: breaker opens",
    "S1 up, S2 up: dead, S1 common to feed black in near: joined",
    "S1 up, S2 up: live, L1 brass to L1 silver in light: full",
]


@pytest.mark.parametrize("text", OBSERVED)
def test_an_observation_reads_back_the_same(text):
    hookup = standard("three-way-light-between")
    assert write_observation(read_observation(text, hookup), hookup) == text


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("S1 up: L1 off", "position of S2 is missing"),
        ("S1 up, S2 sideways: L1 off", "is no position"),
        ("S1 up, S2 up: L1 purple", "full, dim or off"),
        ("S1 up, S2 up: L4 off", "no lamp"),
        ("S1 up, S2 up: dead, S1 common to N2 red in near: joined", "holds no N2 red"),
        ("S1 up, S2 up: dead, S1 common to feed black in near: full", "no dead reading"),
        ("S1 up, S2 up", "says no result"),
    ],
)
def test_a_wrong_observation_is_said_with_its_line(text, words):
    changed = f'{HALL}observed:\n  - "{text}"\n'
    told = read_hookup(changed, name="hall.yaml").problems
    assert any(words in str(f) and f.where.line == len(changed.splitlines()) for f in told)


@settings(max_examples=150)
@given(st.integers(0, len(HALL) - 1), st.integers(0, 6), st.text(max_size=4))
def test_no_change_to_a_file_brings_a_traceback(start, length, put_in):
    read = read_hookup(HALL[:start] + put_in + HALL[start + length :], name="hall.yaml")
    assert read.hookup is not None or read.problems
