"""The published and recomputed cases of pupils' errors: the right number, and the slip behind the wrong one.

Sources stand beside each case; those without one are geometry and arithmetic, recomputed.
"""

from fractions import Fraction

import pytest

from setday.learning import SlipKind, Written, diagnose, work_out
from setday.measure import Length, parse_length
from tests.learning import figures

RIGHT = [
    # how-to text on wall sheets: 135 ft x 8 ft / 32 = 33.75, so 34
    (figures.wall_sheets, {"area": 1080, "sheets": 34}),
    # Dagostino and Peterson, Estimating in Building Construction, example 16-3, page 203: 149 lf, both sides
    (figures.both_sides, {"one": 1192, "both": 2384}),
    # geometry: 12 x 14 x 8, door 3-0 x 6-8, window 3 x 4
    (figures.room, {"door": 20, "window": 12, "net": 384}),
    # 144 in2 to the square foot, how-to text on attic vents: 576 in2 are 4 ft2
    (figures.vent, {"area": 4}),
    # home-repair text: 14 ft 6 in at 16 in: 10.875, so 11, and one more
    (figures.studs, {"studs": 12}),
    # geometry: shell 24-0 x 40-0, walls 5.5 in, one partition 4.5 in across, 8 ft high
    (figures.faces, {"run": 169.75, "area": 1358}),
]


@pytest.mark.parametrize(("make", "expected"), RIGHT, ids=lambda value: getattr(value, "__name__", ""))
def test_the_correct_working_comes_to_the_known_number(make, expected):
    values = work_out(make())
    assert {key: values[key] for key in expected} == pytest.approx(expected, rel=1e-9)


WRONG = [
    (figures.both_sides, "both", 1192, 1, SlipKind.ONE_FACE),
    (figures.vent, "area", 48, 1, SlipKind.BY_TWELVE),
    (figures.studs, "studs", 11, 1, SlipKind.END_FORGOTTEN),
    (figures.wall_sheets, "sheets", 33, 1, SlipKind.ROUNDED_DOWN),
    (figures.room, "net", 404, 1, SlipKind.OPENING_FORGOTTEN),
    (figures.room, "net", 424, 1, SlipKind.OPENING_ADDED),
    (figures.room, "net", 288, 1, SlipKind.PART_FORGOTTEN),
]


@pytest.mark.parametrize(("make", "line", "value", "step", "kind"), WRONG)
def test_the_wrong_number_of_the_case_is_explained_by_its_slip(make, line, value, step, kind):
    figure = make()
    told = diagnose(figure, [Written(line=line, value=value, step=step)])
    assert kind in [each.kinds[0] for each in told.candidates if len(each.slips) == 1][:3]


def test_fractions_of_inches_add_up_exactly():
    # python's fractions: 5-7 3/8 + 3-9 7/8
    total = parse_length("5'-7 3/8\"") + parse_length("3'-9 7/8\"")
    assert total == Length.of(feet=9, inches=Fraction(21, 4))


def test_feet_in_decimals_are_not_feet_and_inches():
    # pint: 8 ft 5 in are 8.4167 ft, 10.4 ft are 10 ft 4.8 in
    assert parse_length("8'-5\"").feet == pytest.approx(8.4167, abs=1e-4)
    assert parse_length("10.4 ft").inches == pytest.approx(124.8, abs=1 / 64)


def test_eight_feet_six_read_as_a_decimal_is_told_so():
    figure = figures.figure(
        figures.tape("w", "8'-6\""),
        figures.tape("h", "7'-3\""),
        figures.feet_area("area", "area", "w", "h"),
    )
    told = diagnose(figure, [Written(line="area", value=8.6 * 7.25, step=0.01)])
    assert (told.likely[0].kinds, told.likely[0].slips[0].line) == ((SlipKind.DECIMAL_FEET,), "w")
