"""As built: planned against used, and what the coils have left."""

from hypothesis import given
from hypothesis import strategies as st

from setday.actions.cable.pulling import AsBuilt, RunPulled, as_built
from setday.cable import Pull
from setday.materials import CoilCut
from setday.measure import ZERO, Length, parse_length


def pull(number: str, cut: str) -> Pull:
    return Pull(
        number=number,
        circuit="one",
        kind="14/2",
        start="a",
        end="b",
        cut=parse_length(cut),
        passes=(),
        staples=4,
        label=f"{number} from a to b",
        start_label="",
        end_label="",
        home=False,
    )


PULLS = (pull("1-1", "30'"), pull("1-2", "12'"), pull("1-3", "8'"))


def coil(number: int, length: str, *runs: str) -> CoilCut:
    long = parse_length(length)
    cut = sum((pull.cut for pull in PULLS if pull.number in runs), ZERO)
    return CoilCut(
        number=number,
        kind="14/2",
        stock="cable-14/2",
        label="14/2",
        length=long,
        runs=runs,
        left=long - cut,
        on_hand=False,
    )


COILS = (coil(1, "45'", "1-1", "1-2"), coil(2, "20'", "1-3"))


def noted(number: str, measured: str = "", coil: int = 0) -> RunPulled:
    return RunPulled(
        number=number,
        label=f"{number} from a to b",
        measured=parse_length(measured) if measured else None,
        coil=coil,
    )


def left(built: AsBuilt) -> list[str]:
    return [str(each.left) for each in built.coils]


def test_before_anything_is_pulled_the_coils_are_whole():
    built = as_built(PULLS, COILS, ())
    assert (built.pulled, built.used, left(built)) == (0, ZERO, ["45'-0\"", "20'-0\""])
    assert [str(each.at_the_end) for each in built.coils] == ["3'-0\"", "12'-0\""]


def test_what_will_be_left_is_what_the_plan_leaves():
    built = as_built(PULLS, COILS, ())
    assert [each.at_the_end for each in built.coils] == [coil.left for coil in COILS]


def test_a_ticked_run_takes_its_planned_length_off_its_coil():
    built = as_built(PULLS, COILS, [noted("1-1")])
    assert (built.pulled, left(built)) == (1, ["15'-0\"", "20'-0\""])


def test_a_measured_run_takes_what_was_measured():
    built = as_built(PULLS, COILS, [noted("1-1", "32' 6\"")])
    assert str(built.runs[0].over) == "2'-6\""
    assert left(built)[0] == "12'-6\""


def test_a_coil_that_will_run_out_shows_less_than_nothing():
    built = as_built(PULLS, COILS, [noted("1-1", "40'")])
    assert built.coils[0].at_the_end == -parse_length("7'")


def test_a_run_cut_from_another_coil_is_taken_off_that_one():
    built = as_built(PULLS, COILS, [noted("1-2", coil=2)])
    assert left(built) == ["45'-0\"", "8'-0\""]


def test_a_note_for_another_run_of_the_same_number_is_set_aside():
    other = RunPulled(number="1-1", label="1-1 from x to y")
    built = as_built(PULLS, COILS, [other])
    assert (built.pulled, built.astray) == (0, (other,))


@given(st.lists(st.sampled_from(("1-1", "1-2", "1-3")), unique=True), st.integers(1, 60 * 768))
def test_what_is_used_and_what_is_left_add_up_to_the_coils(numbers, measured):
    notes = [RunPulled(number=n, label=f"{n} from a to b", measured=Length(measured)) for n in numbers]
    built = as_built(PULLS, COILS, notes)
    assert sum((each.left for each in built.coils), ZERO) + built.used == sum(
        (coil.length for coil in COILS), ZERO
    )
