"""A table of slips, each with the line and the words of its finding."""

import pytest

from setday.findings import Severity
from tests.files.typed import PLAIN, changed, line_of, read

SLIPS = [
    # what was meant, what was typed, where it is found, words of the finding, severity
    ("east 24'", "east 24", "east 24\n", "'24' has no unit.", "problem"),
    ("east 24'", "east 8.6", "east 8.6\n", "if 8 feet 6 inches was meant, write 8'-6\"", "problem"),
    ("wall height: 8'", "wall height: 8.6'", "8.6'", "8.6 ft is 8'-7 3/16\"; was 8'-6\" meant?", "ask"),
    ("wall height: 8'", "wall height: 8.11 ft", "8.11", "was 8'-11\" meant?", "ask"),
    ("center: 5' from west end", "center: 5.3' from west end", "5.3'", "was 5'-3\" meant?", "ask"),
    ("wall height: 8'", "wall height: eight feet", "eight feet", "'eight feet' is not a length.", "problem"),
    ("wall height: 8'", "wall height: -8'", "-8'", "nothing or less", "problem"),
    ("wall height: 8'", "wall height: 800'", "800'", "far more than any house has", "problem"),
    ("wall height: 8'", "wall height: 8'-14\"", "8'-14", "a foot has 12", "problem"),
    ("wall height: 8'", "wall heigth: 8'", "wall heigth", "Did you mean 'wall height'?", "problem"),
    ("wall height: 8'", "wall height:", "wall height", "nothing is written after 'wall height'", "ask"),
    ("wall height: 8'", "wall height:8'", "wall height:8'", "no space after the colon", "problem"),
    ("wall height: 8'", "wall height 8'", "wall height 8'", "no colon is found after the name", "problem"),
    ("wall height: 8'", "wall height: 8': 9'", "8': 9'", "two colons", "problem"),
    ("wall height: 8'", "wall height: [8', 9']", "[8', 9']", "a list is written here", "problem"),
    ("  wall height: 8'", "\twall height: 8'", "\twall height", "indented with a tab", "problem"),
    ("  wall height: 8'", "\u00a0 wall height: 8'", "wall height", "an unusual space", "problem"),
    ("  wall height: 8'", "   wall height: 8'", "  ceiling framing", "begins at column 4", "problem"),
    ("name: Practice house", "name: Practice\x07 house", "Practice\x07", "code 0x7", "problem"),
    ("name: Practice house", "name: @home", "@home", "'@' cannot begin a value".replace("'", ""), "problem"),
    ("name: Practice house", "name: *home", "*home", "'*home' marks a place to be repeated", "problem"),
    ("name: Practice house", "name: &home x", "&home", "'&home' marks a place to be repeated", "problem"),
    ("name: Practice house", "name: !!int 3", "!!int", "an instruction to YAML", "problem"),
    (
        "name: Practice house",
        'name: "Practice house',
        'name: "P',
        "a quote opens on line 2 and is never closed",
        "problem",
    ),
    (
        "name: Practice house",
        "name: 'Practice house",
        "name: 'P",
        "a quote opens on line 2 and is never closed",
        "problem",
    ),
    ("use: bedroom}", 'use: "bedroom}', "bedroom}", "and is never closed", "problem"),
    ("name: Practice house\n", "", "setday house: 1", "'name' is not written", "problem"),
    ("setday house: 1", "setday house: 2", "setday house: 2", "its form is '2'", "problem"),
    ("setday house: 1\n", "", "name: Practice", "'setday house' is not written", "problem"),
    ("studs: 2x6", "studs: 2x5", "2x5", "no lumber is called 2x5", "problem"),
    ("outside: yes", "outside: maybe", "maybe", "neither yes nor no", "problem"),
    ("kind: outside wall\n", "kind: outsde wall\n", "outsde wall", "Did you mean 'outside wall'?", "problem"),
    ("wall kind: partition\n", 'stud spacing: 16"\n', "middle wall: {", "its kind is not written", "problem"),
    (
        "west: south 16'",
        "west: south 15'-6\"",
        "west: south",
        'the walk ends 6" north of where it began',
        "problem",
    ),
    ("west: south 16'", "west: down 16'", "down 16'", "not a leg of a walk", "problem"),
    ("runs: north", "runs: up", "runs: up", "the word is not known here", "problem"),
    ("runs: north", "runs: south", "runs: south", "which is the other way", "problem"),
    ("runs: north", "runs: east", "middle wall: {", "a wall that runs east has no west face", "problem"),
    ("runs: north, ", "", "middle wall: {", "'runs' is not written", "problem"),
    (", to: north", "", "middle wall: {", "'to' is not written", "problem"),
    (", west face: 12' east of west", "", "middle wall: {", "not written where it stands", "problem"),
    ("12' east of west", "12' from west", "12' from west", "which way the tape runs", "problem"),
    ("12' east of west", "12' east of wset", "12' east of wset", "Did you mean 'west'?", "problem"),
    ("12' east of west", "12' north of west", "12' north of west", "the tape runs north", "problem"),
    (
        "12' east of west",
        "12' east of south",
        "12' east of south",
        "no face that looks east or west",
        "problem",
    ),
    ("12' east of west", "12' east of middle wall", "middle wall: {", "in a circle", "problem"),
    ("from: south,", "from: sooth,", "from: sooth,", "Did you mean 'south'?", "problem"),
    ("from: south,", "from: [1', 2'],", "[1', 2']", "a point is given", "problem"),
    ("wall: middle wall", "wall: midle wall", "wall: midle", "Did you mean 'middle wall'?", "problem"),
    ("door: 2'-8\" x 6'-8\"", "door: 2'-8\"", "door: 2'-8\",", "not a width and a height", "problem"),
    ("door: 2'-8\" x 6'-8\"", "door: 2.8' x 6'-8\"", "door: 2.8'", "was 2'-8\" meant?", "ask"),
    ("runs: north", "line: center, runs: north", "line: center", "for a wall by two points", "problem"),
    ("to: north,", "to: north, length: 6',", "length: 6'", "both 'to' and 'length'", "problem"),
    (
        "{runs: north, from: south, to: north,",
        "{from: [12', 0'], to: [12', 9'],",
        "west face",
        "a wall by two points has no 'west face'",
        "problem",
    ),
    ("rooms:\n", "as built:\n  midle wall: [stud added at 3']\nrooms:\n", "midle", "Did you mean", "problem"),
    ("rooms:\n", "as built:\n  middle: [brick added at 3']\nrooms:\n", "brick", "upright member", "problem"),
    ("rooms:\n", "as built:\n  middle: [stud gone]\nrooms:\n", "stud gone", "not a change", "problem"),
    ("rooms:\n", "boards:\n  carry in: {cellar: 8'}\nrooms:\n", "cellar", "there is no room", "problem"),
    ("rooms:\n", "boards:\n  choices: [{on: floor}]\nrooms:\n", "floor", "is no surface", "problem"),
    ("rooms:\n", "boards: {class factor: 0.5}\nrooms:\n", "0.5", "1 to 20", "problem"),
    ("rooms:\n", "boards: {off-cuts: some}\nrooms:\n", "some", "not known here", "problem"),
    (
        "rooms:\n",
        "ceilings:\n  west room: {shape: vault, rise: 3/12, ridge runs: east-west}\nrooms:\n",
        "vault",
        "needs 'ridge'",
        "problem",
    ),
    (
        "rooms:\n",
        "ceilings:\n  west room: {shape: vault, rise: 3/12, ridge runs: north-south, ridge: 6'}\nrooms:\n",
        "vault",
        "the ridge of this vault runs north-south, and its framing runs north-south (line 5)",
        "ask",
    ),
    (
        "rooms:\n",
        (
            "ceilings:\n  west room:\n    {shape: slope, rise: 3/12, low side: west,\n"
            "    framing: north-south}\nrooms:\n"
        ),
        "low side",
        "slopes down to the west, and its framing runs north-south (line 26): across the slope",
        "ask",
    ),
    (
        "rooms:\n",
        "ceilings:\n  west room: {rise: 3/12}\nrooms:\n",
        "3/12",
        "flat ceiling has no 'rise'",
        "problem",
    ),
    (
        "rooms:\n",
        "ceilings:\n  wst room: {height: 9'}\nrooms:\n",
        "wst room",
        "Did you mean 'west room'",
        "problem",
    ),
    (
        "rooms:\n",
        "floor holes:\n  well: {west side: 3', east-west: 2', north side: at north}\nrooms:\n",
        "well",
        "from south to north is written not wholly",
        "problem",
    ),
    (
        "rooms:\n",
        "floor holes:\n  well: {west side: 9', east side: 4', south side: 1', north-south: 2'}\nrooms:\n",
        "well",
        "its east side is not east of its west side",
        "problem",
    ),
    (
        "rooms:\n",
        (
            "wet areas:\n  t: {room: west room, board: none, bottom: 7', top: 6', on: {west: 5' from end}}\n"
            "rooms:\n"
        ),
        "bottom: 7'",
        "is not above its bottom",
        "problem",
    ),
    (
        "east: north 16'\n",
        "east: {go: north 16', peak: 9' in the middle, top: [8' at start]}\n",
        "peak",
        "both peak and top",
        "problem",
    ),
    (
        "east: north 16'\n",
        "east: {go: north 16', top: [8' at 5', 9' at 3']}\n",
        "8' at 5'",
        "one after another along the wall",
        "problem",
    ),
    (
        "east: north 16'\n",
        "east: {go: north 16', layout from: west end}\n",
        "layout",
        "is no end of this wall",
        "problem",
    ),
    (
        "door: 2'-8\" x 6'-8\"",
        'door: "2\'-8" x 6\'-8""',
        "middle door",
        "the quoted text ends at its second quote mark",
        "problem",
    ),
    ("door: 2'-8\" x 6'-8\"", "door: 2'-8\" x 0'", "door: 2'-8\" x 0'", "nothing or less", "problem"),
    (" door: 2'-8\" x 6'-8\",", "", "middle door", "its size is not written", "problem"),
    ("door: 2'-8\"", "door:2'-8\"", "door:2'-8\"", "Put a space after the colon", "problem"),
    (", center: 4' from south end", "", "middle door", "its place is not written", "problem"),
    ("center: 4' from south end", "center: 4'", "center: 4'}", "where the tape was held", "problem"),
    (
        "4' from south end",
        "4' from sauna wall",
        "4' from sauna wall",
        "there is no wall 'sauna wall'",
        "problem",
    ),
    (
        "window: 4'-0\" x 3'-6\"",
        "window: 4'-0\" x 7'-6\"",
        "window: 4'-0\" x 7'-6\"",
        "below the subfloor",
        "problem",
    ),
    ("going west}", "going west, sill: 3', head: 7'}", "window: {wall", "both sill and head", "problem"),
    ("at: [6', 6']", "at: 6'", "at: 6'", "is not a point of the plan", "problem"),
    ("at: [6', 6']", "at: [6']", "at: [6']", "a point of 1", "problem"),
    ("at: [6', 6'], ", "", "west room", "'at' is not written", "problem"),
    ("use: bedroom}", "use: bedroom", "west room", "opens here and is not closed", "problem"),
    ("  east room:", "  west room:", "  west room: {at: [20'", "the first is on line", "problem"),
    (
        "rooms:\n",
        "rooms:\n  - x\n",
        "west room",
        "names with colons and entries with dashes are mixed",
        "problem",
    ),
    ("rooms:\n", "rooms: two\nroms:\n", "roms", "Did you mean 'rooms'?", "problem"),
]


@pytest.mark.parametrize(
    ("meant", "typed", "stands", "words", "severity"), SLIPS, ids=lambda value: value[:24]
)
def test_a_slip_is_found_on_its_line_and_named(meant, typed, stands, words, severity):
    text = changed(meant, typed)
    line = line_of(text, stands)
    findings = read(text).findings
    hits = [each for each in findings if each.where.line == line and words in str(each)]
    assert hits, [str(each) for each in findings]
    assert hits[0].severity == severity


def test_the_house_of_the_table_has_no_findings_itself():
    assert read(PLAIN).findings == ()


def test_all_slips_are_told_at_once():
    text = changed("east 24'", "east 24")
    text = changed("door: 2'-8\" x 6'-8\"", "door: 2'-8\"", text=text)
    text = changed("at: [6', 6']", "at: 6'", text=text)
    text = changed("wall: middle wall", "wall: midle wall", text=text)
    lines = {each.where.line for each in read(text).findings}
    assert {line_of(text, part) for part in ("east 24\n", "middle door", "at: 6'")} <= lines


def test_faults_of_spelling_and_slips_are_told_at_once():
    text = changed("wall height: 8'", "wall height:8'")
    text = changed("use: bedroom}", "use: bedroom", text=text)
    text = changed("studs: 2x6", "studs: 2x5", text=text)
    lines = {each.where.line for each in read(text).findings}
    assert lines == {line_of(text, part) for part in ("wall height:8'", "use: bedroom", "2x5")}


def test_a_slip_in_one_wall_is_not_told_again_of_what_is_measured_from_it():
    text = changed("12' east of west", "12 east of west")
    assert [each.about for each in read(text).findings] == ["wall 'middle wall', 'west face'"]


def test_a_question_does_not_stand_in_the_way():
    file = read(changed("wall height: 8'", "wall height: 8.6'"))
    assert [each.severity for each in file.findings] == [Severity.ASK]
    assert file.description is not None


def test_a_problem_stands_in_the_way_but_the_rest_can_be_checked():
    file = read(changed("at: [6', 6']", "at: 6'"))
    assert file.description is None
    assert file.readable is not None
    assert [room.name for room in file.readable.rooms] == ["east room"]


def test_what_is_left_of_the_walls_is_never_checked_as_a_house():
    file = read(changed("12' east of west", "12 east of west"))
    assert file.readable is None


@pytest.mark.parametrize("quote", ["’", "′", "‘"])
def test_curly_quotes_in_lengths_are_read(quote):
    text = PLAIN.replace("8'\n", f"8{quote}\n")
    assert read(text).findings == ()
    assert read(text).description.walls[0].height.feet == 8


@pytest.mark.parametrize("word", ["yes", "Yes", "true", "on"])
def test_yes_is_read_as_people_write_it(word):
    assert read(changed("outside: yes", f"outside: {word}")).description.kinds[0].outside


def test_every_finding_says_what_to_do_and_what_was_expected():
    for meant, typed, *_ in SLIPS:
        for finding in read(changed(meant, typed)).findings:
            assert finding.do, str(finding)
            assert finding.expected, str(finding)
            assert finding.where.file == "house.yaml"
            assert finding.where.line > 0


def test_a_quote_closed_by_the_mark_of_a_later_length_is_told_where_it_opens():
    text = 'setday house: 1\nname: "My shed\nwall kinds:\n  a: {studs: 3 1/2"\n'
    (first, *_) = read(text).findings
    assert (first.where.line, "a quote opens on line 2 and is never closed" in first.found) == (2, True)


def test_a_quote_left_open_hides_nothing_of_the_rest():
    text = changed("name: Practice house", 'name: "Practice house')
    text = changed("door: 2'-8\" x 6'-8\"", "door: 2'-8\"", text=text)
    assert [f.where.line for f in read(text).findings] == [2, line_of(text, "middle door")]
