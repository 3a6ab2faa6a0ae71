"""A file of gates: written by the site, typed by hand, and everything that can be wrong with it."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.closein import GateStanding, GateState
from setday.files import read_gates, write_gates

NAMES = st.text("abc north/-2", min_size=1, max_size=20).map(str.strip).filter(bool)
LETTERS = st.characters(codec="utf-8", exclude_categories=("C", "Z"))
WORDS = st.text(st.one_of(LETTERS, st.just(" ")), min_size=1, max_size=80).map(str.strip).filter(bool)


@st.composite
def standings(draw):
    seen, checked_off, refused, more = (draw(st.integers(0, 40)) for _ in range(4))
    keys = draw(st.lists(st.sampled_from(["inspection/electrical", "inspection/framing"]), unique=True))
    cut = draw(st.integers(0, len(keys)))
    return GateStanding(
        surface=" ".join(draw(NAMES).split()), label=draw(WORDS), state=draw(st.sampled_from(GateState)),
        things=seen + checked_off + refused + more, seen=seen, checked_off=checked_off, refused=refused,
        passed=tuple(keys[:cut]), awaited=tuple(keys[cut:]), reopened=draw(st.booleans()),
        held_by=tuple(draw(st.lists(WORDS, max_size=3))),
    )  # fmt: skip


@given(st.lists(standings(), min_size=1, max_size=6, unique_by=lambda each: each.surface))
def test_what_is_written_is_read_as_it_was(listed):
    read = read_gates(write_gates(listed, house="Plover Lane house"), name="gates.yaml")
    assert (read.findings, list(read.standings)) == ((), listed)


def test_a_file_typed_by_hand_says_little_of_each_surface():
    text = "setday gates: 1\nsurfaces:\n  bath/ceiling: {state: ready}\n  bath/north: {state: closed}\n"
    read = read_gates(text, name="gates.yaml")
    assert [(each.surface, each.open) for each in read.standings] == [
        ("bath/ceiling", True),
        ("bath/north", True),
    ]


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("setday gates: 2\nsurfaces: {}\n", 1, "its form is '2'"),
        ("surfaces: {}\n", 1, "setday gates"),
        ("setday gates: 1\nsurfaces:\n  bath/north: {state: shut}\n", 3, "'shut' is no state of a gate"),
        ("setday gates: 1\nsurfaces:\n  bath/north: {state: ready, things: 2, seen: 3}\n", 3, "3 are seen"),
        ("setday gates: 1\nsurfaces:\n  bath/north: {state: ready, thngs: 2}\n", 3, "thngs"),
        ("- one\n- two\n", 1, "no names with values"),
        ("", 1, "nothing"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(text, line, said):
    found = read_gates(text, name="gates.yaml").problems
    assert [(each.where.line, said in str(each)) for each in found] == [(line, True)]


def test_several_faults_are_told_at_once():
    text = "setday gates: 1\nsurfaces:\n  a: {state: shut}\n  b: {state: open}\n  c: {things: 1}\n"
    assert len(read_gates(text, name="gates.yaml").problems) == 3


def test_the_example_of_the_docs_is_read():
    docs = (Path(__file__).parents[2] / "docs" / "gates.md").read_text(encoding="utf-8")
    text = docs.split("```yaml\n")[1].split("```")[0]
    read = read_gates(text, name="gates.yaml")
    assert (read.findings, [each.surface for each in read.standings]) == ((), ["bath/ceiling", "bath/north"])
