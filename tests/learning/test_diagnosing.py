"""Which slip is found where, what is carried forward, and when nothing is claimed."""

import sys
from pathlib import Path

import pytest

from setday.learning import Odds, SlipKind, StudentLine, Written, diagnose, read_lines, slips_of, work_out
from setday.learning.sealed import hints_for
from tests.learning import figures

BENCH = Path(__file__).resolve().parents[2] / "bench"


def written(figure, *, wrong=None, only=None):
    """Return what somebody wrote who worked right but for some lines, going on from those."""
    own = dict(wrong or {})
    values = work_out(figure, own=own) | own
    keys = only or [line.key for line in figure.lines]
    return [Written(line=key, value=values[key], step=0.01) for key in keys]


def test_a_right_working_is_right_and_nothing_is_blamed():
    told = diagnose(figures.room(), written(figures.room()))
    assert (told.right, told.wrong_lines, told.explained) == (True, (), False)


def test_a_slip_early_on_is_blamed_once_only():
    figure = figures.wall_sheets()
    told = diagnose(figure, written(figure, wrong={"area": 1180.0}))
    assert (told.wrong_lines, told.likely[0].kinds) == (("area",), (SlipKind.ARITHMETIC,))


def test_two_slips_on_two_lines_are_both_found():
    figure = figures.room()
    told = diagnose(figure, written(figure, wrong={"door": 240.0, "north": 121.0}))
    named = {(slip.kind, slip.line) for slip in told.likely[0].slips}
    assert named == {(SlipKind.BY_TWELVE, "door"), (SlipKind.DIGITS_SWAPPED, "north")}


def test_a_number_no_slip_comes_to_is_not_explained():
    figure = figures.room()
    told = diagnose(figure, written(figure, wrong={"north": 87.3}))
    assert (told.explained, told.wrong_lines) == (False, ("north",))
    assert told.unknown > 0.5


def test_walls_of_one_length_are_not_told_apart_by_the_answer():
    figure = figures.room()
    told = diagnose(figure, [Written(line="net", value=272, step=0.1)])
    first = told.likely[0]
    places = {slips[0].about for slips in (first.slips, *first.alike)}
    assert places == {"north wall, area", "south wall, area"}


def test_a_misread_tape_within_its_tolerance_is_nobodys_slip():
    figure = figures.wall_sheets()
    told = diagnose(figure, written(figure, wrong={"long": 135 * 12 + 0.25}))
    assert told.wrong_lines == ()


def test_what_the_instructor_marks_comes_first_next_time():
    figure = figures.studs()
    answer = [Written(line="studs", value=11, step=1)]
    usual = diagnose(figure, answer).candidates[0].kinds
    learned = diagnose(figure, answer, odds=Odds(marked={"rounded-down": 40})).candidates[0].kinds
    assert (usual, learned) == ((SlipKind.END_FORGOTTEN,), (SlipKind.ROUNDED_DOWN,))


def test_shares_of_all_kinds_come_to_one():
    odds = Odds(marked={"rounded-down": 3, "unknown": 2})
    assert sum(each.now for each in odds.explained()) == pytest.approx(1)


def test_the_explanation_says_what_was_marked_and_how_it_moved():
    line = next(each for each in Odds(marked={"waste-twice": 9}).explained() if each.kind == "waste-twice")
    assert line.marked == 9
    assert line.now > line.start


def test_a_sum_that_does_not_come_to_its_result_is_arithmetic():
    figure = figures.wall_sheets()
    lines = [StudentLine(label="wall area", worked="135' x 8'", result="917 ft2")]
    read = read_lines(figure, lines, "29 sheets")
    told = diagnose(figure, [each.written for each in read])
    assert (told.likely[0].kinds, told.likely[0].slips[0].line) == ((SlipKind.ARITHMETIC,), "area")


def test_lines_are_known_by_their_words_in_any_order():
    figure = figures.room()
    lines = [
        StudentLine(label="S wall", result="112 ft2"),
        StudentLine(label="door", result="20 sq ft"),
        StudentLine(label="N wall area", result="112 ft2"),
    ]
    found = {each.written.line for each in read_lines(figure, lines, "384")}
    assert found == {"south", "door", "north", "net"}


def test_a_hint_names_no_number_no_place_and_no_line():
    figure = figures.room()
    told = diagnose(figure, [Written(line="net", value=404, step=1)])
    hint = " ".join(hints_for(told))
    assert "openings" in hint
    assert not any(char.isdigit() for char in hint)
    assert not any(line.label in hint for line in figure.lines)


def test_every_slip_of_every_figure_of_the_demo_changes_a_number_and_has_its_sentence():
    for figure in figures.demo()[2][::9]:
        right = work_out(figure)
        for slip in slips_of(figure):
            assert work_out(figure, dict(slip.changes)) != right
            assert "%(" not in slip.sentence


@pytest.fixture(scope="module")
def bench():
    sys.path.insert(0, str(BENCH))
    import slip_figures
    import slips

    yield slips, slip_figures
    sys.path.remove(str(BENCH))


def test_invented_students_without_slips_come_to_the_same_answers(bench):
    slips, slip_figures = bench
    house, cable, all_figures = figures.demo()
    walks = slip_figures.forty(house, cable)
    assert len(walks) == 40
    slips.walked_right(all_figures, walks)


def test_slips_of_invented_students_are_found_as_often_as_is_asked(bench):
    slips, slip_figures = bench
    house, cable, all_figures = figures.demo()
    counts = slips.run(all_figures, slip_figures.forty(house, cable), each=9, seed=7)
    by_chance = 0.04  # what so few papers may be off; bench/slips.py runs thousands
    missed = {
        words: share
        for words, share, limit, _held in slips.kept(counts)
        if (share > limit + by_chance if "all the same" in words else share < limit - by_chance)
    }
    assert missed == {}
