"""Writing back: only what changes is touched."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.errors import FileProblem
from setday.files import Change, write_changes
from setday.files.written.kind import ANY_YAML
from setday.files.written.tree import Listing, Mapping, Scalar, to_plain
from setday.files.written.yaml_text import read_tree
from tests.files.typed import HOUSE, SHED, read
from tests.strategies import free_texts


def plain(text: str) -> object:
    """Return the entries of a file as dicts, lists and text."""
    return to_plain(read_tree(text, name="", kind=ANY_YAML).root)


def paths(node: object, at: tuple = ()) -> list[tuple]:
    """Return the path of every piece of text in a tree."""
    if isinstance(node, Scalar):
        return [at]
    if isinstance(node, Mapping):
        return [path for entry in node.entries for path in paths(entry.value, (*at, entry.key.text))]
    assert isinstance(node, Listing)
    return [path for n, item in enumerate(node.items) for path in paths(item, (*at, n))]


def at(value: object, path: tuple) -> object:
    """Follow a path."""
    for step in path:
        value = value[step]
    return value


PATHS = paths(read_tree(HOUSE, name="", kind=ANY_YAML).root)


@pytest.mark.parametrize("text", [SHED, HOUSE, SHED.replace("\n", "\r\n"), "a: b", ""])
def test_without_changes_every_character_stays(text):
    assert write_changes(text) == text


@given(path=st.sampled_from(PATHS), value=free_texts())
@settings(max_examples=30)
def test_any_entry_can_say_anything_else_and_nothing_around_it_moves(path, value):
    after = write_changes(HOUSE, [Change(path=path, value=value)])
    assert at(plain(after), path) == value
    old, new = HOUSE.splitlines(), after.splitlines()
    assert len(old) == len(new)
    differing = [n for n, (a, b) in enumerate(zip(old, new, strict=True)) if a != b]
    assert len(differing) <= 1


@given(path=st.sampled_from(PATHS), value=free_texts())
@settings(max_examples=20)
def test_a_change_and_the_change_back_give_the_same_text(path, value):
    there = write_changes(HOUSE, [Change(path=path, value=value)])
    was = at(plain(HOUSE), path)
    assert write_changes(there, [Change(path=path, value=was)]) == HOUSE


@given(path=st.sampled_from(PATHS))
@settings(max_examples=30)
def test_an_entry_taken_out_is_gone_and_its_neighbours_stay(path):
    after = plain(write_changes(HOUSE, [Change(path=path, value=None)]))
    before = plain(HOUSE)
    holder = at(before, path[:-1])
    del holder[path[-1]]
    assert after == before


def test_comments_and_order_stay():
    change = Change(path=("outside walls", "walk", "south wall"), value="east 18'")
    after = write_changes(SHED, [change])
    assert after == SHED.replace("south wall: east 16'", "south wall: east 18'")


ADDED = [
    (("rooms", "loft"), {"at": "1' east, 1' north", "use": "storage"}),
    (("rooms", "workroom", "note"), "x"),
    (("openings", "shed door", "jacks"), "2"),
    (("as built", "south wall"), ["stud added at 4'-2\"", "stud removed at 5'-4\""]),
    (("local rules", "boards.least_piece"), {"value": '16"', "said by": "the inspector: 4 March"}),
    (("boards", "choices", 1), {"on": "ceilings", "kind": "sag-resistant"}),
    (("boards", "hanging days"), [["workroom"]]),
    (("wall kinds", "outside wall", "top plates"), "1"),
    (("wall kinds", 'odd: "name"'), {"studs": "2x4"}),
    (("foundation",), {"kind": "basement"}),
]


@pytest.mark.parametrize(("path", "value"), ADDED, ids=lambda each: str(each)[:40])
def test_entries_are_added_or_replaced_and_read_back(path, value):
    after = write_changes(SHED, [Change(path=path, value=value)])
    assert at(plain(after), path) == value
    comments = [line.split("#", maxsplit=1)[1] for line in SHED.splitlines() if "#" in line]
    assert [line.split("#", maxsplit=1)[1] for line in after.splitlines() if "#" in line] == comments


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_new_lines_end_as_the_others_do(newline):
    text = SHED.replace("\n", newline)
    after = write_changes(text, [Change(path=("rooms", "loft"), value={"at": "1' east, 1' north"})])
    assert after.count("\n") == after.count(newline)


def test_a_room_added_by_hand_is_a_room():
    after = write_changes(SHED, [Change(path=("rooms", "loft"), value={"at": "1' east, 1' north"})])
    assert [room.name for room in read(after).description.rooms] == ["workroom", "loft"]


NOWHERE = [(), ("rooms", 3), ("boards", "choices", 5), ("name", "x", "y"), ("rooms", "cellar")]


@pytest.mark.parametrize("path", NOWHERE, ids=str)
def test_a_path_that_leads_nowhere_is_said(path):
    with pytest.raises(FileProblem, match="There is no"):
        write_changes(SHED, [Change(path=path, value=None)])


def test_a_file_with_faults_of_spelling_is_left_alone():
    with pytest.raises(FileProblem, match="faults of spelling"):
        write_changes("a: [1, 2\n", [Change(path=("a",), value="3")])
