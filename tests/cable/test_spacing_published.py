"""Spacing of receptacles against published values; the E numbers are those of the list of outside checks."""

import pytest

from setday.cable import cable_rules, check_devices, island_outlets
from setday.house import DeviceKind, Mount, OpeningKind, TypedCounter, TypedDevice
from setday.measure import parse_length
from setday.rules import LocalRules
from tests.cable.shapes import inches, opening, plain_room, point, receptacle, two_doors

RULES = cable_rules()
START = 48 + 5.5
"""From the start of the south wall's framing to the wall between the doors [in]."""


def bare_between(house, low, high):
    """Return the bare stretches on the south wall between two places of its inner face [in]."""
    return [
        (part.x_from.inches, part.x_to.inches)
        for bare in check_devices(house, RULES).bare
        for part in bare.parts
        if part.wall == "south" and low <= 360 - part.x_to.inches and 360 - part.x_from.inches <= high
    ]


@pytest.mark.parametrize(
    ("gap", "at", "met"),
    [
        (144, (72,), True),
        (145, (72.5,), False),
        (145, (72, 100), True),
        (144, (71,), False),
        (23, (), True),
        (24, (), False),
    ],
    ids=[
        "12 ft, one in the middle",
        "12 ft 1 in, one in the middle",
        "12 ft 1 in, two",
        "12 ft, one off the middle",
        "23 in, none",
        "24 in, none",
    ],
)
def test_wall_between_two_doors(gap, at, met):
    """E01, E02: NEC 210.52(A)(1) and (2), IRC E3801.2.1, read in a study text of article 210."""
    devices = tuple(receptacle(f"r{n}", "south", START + place) for n, place in enumerate(at))
    assert (bare_between(two_doors(gap, devices=devices), 48, 48 + gap) == []) is met


@pytest.mark.parametrize(("each", "met"), [(36, False), (11, True), (12, False)])
def test_a_wall_space_runs_round_a_corner(each, met):
    """E02: 3 ft and 3 ft round a corner are one space of 6 ft; two of 11 in are 22 in and do not count."""
    house = plain_room(
        width=200,
        depth=200,
        openings=(
            opening("one", "south", 200 - each - 38, 38, OpeningKind.DOOR),
            opening("other", "east", each, 38, OpeningKind.DOOR),
        ),
    )
    corner = [
        bare
        for bare in check_devices(house, RULES).bare
        if {part.wall for part in bare.parts} == {"south", "east"} and bare.length == inches(2 * each)
    ]
    assert (corner == []) is met


def test_one_receptacle_serves_both_sides_of_a_corner():
    """E02: 3 ft and 3 ft round a corner are one space of 6 ft, which one receptacle serves."""
    house = plain_room(
        width=200,
        depth=200,
        openings=(
            opening("one", "south", 200 - 36 - 38, 38, OpeningKind.DOOR),
            opening("other", "east", 36, 38, OpeningKind.DOOR),
        ),
        devices=(receptacle("r", "south", 5.5 + 200 - 20),),
    )
    in_corner = [
        part
        for bare in check_devices(house, RULES).bare
        for part in bare.parts
        if part.wall == "south" and max(part.along_from, part.along_to).inches > 5.5 + 200 - 36
    ]
    assert in_corner == []


@pytest.mark.parametrize(
    ("change", "counts"),
    [
        ({"up": 66}, True),
        ({"up": 66 + 1 / 64}, False),
        ({"what": "cabinet"}, False),
        ({"half_switched": True}, True),
    ],
    ids=["5 1/2 ft up", "just over 5 1/2 ft", "in a cabinet", "upper half switched"],
)
def test_which_receptacles_count(change, counts):
    """E03: NEC 210.52, read in a study text of article 210."""
    house = two_doors(144, devices=(receptacle("r", "south", START + 72, **change),))
    assert (bare_between(house, 48, 192) == []) is counts


@pytest.mark.parametrize(("off", "counts"), [(18, True), (18 + 1 / 64, False)])
def test_a_floor_receptacle_counts_near_the_wall(off, counts):
    """E03: NEC 210.52(A)(3), read in trade texts."""
    floor = TypedDevice(
        name="f",
        kind=DeviceKind.RECEPTACLE,
        room="room",
        mount=Mount.FLOOR,
        point=point(START + 72, 5.5 + off),
    )
    assert (bare_between(two_doors(144, devices=(floor,)), 48, 192) == []) is counts


def test_a_receptacle_switched_as_a_whole_does_not_count():
    """E03; the upper half alone may be switched."""
    switch = TypedDevice(
        name="s", kind=DeviceKind.SWITCH, room="room", wall="south", side="", along=inches(70), up=inches(48),
        serves=("r",),
    )  # fmt: skip
    house = two_doors(144, devices=(receptacle("r", "south", START + 72), switch))
    assert bare_between(house, 48, 192) != []


def counter(width, **more):
    return TypedCounter(
        name="top",
        room="room",
        wall="south",
        measured_from="west",
        distance=inches(60),
        width=inches(width),
        **more,
    )


@pytest.mark.parametrize(
    ("width", "above", "met"),
    [
        (11, None, True),
        (12, None, False),
        (48, 8, True),
        (49, 8, False),
        (48, 20, True),
        (48, 20 + 1 / 64, False),
    ],
)
def test_counter_spaces(width, above, met):
    """E04: NEC 210.52(C)(1) and (C)(5), read in a trade forum that quotes the sections; one in the middle."""
    devices = (
        ()
        if above is None
        else (receptacle("r", "south", 5.5 + 60 + width / 2, up=36 + above, what="counter"),)
    )
    house = plain_room(width=240, depth=144, counters=(counter(width),), devices=devices, use="kitchen")
    short = [bare for bare in check_devices(house, RULES).bare if bare.rule == "cable.counter_reach"]
    assert (short == []) is met


@pytest.mark.parametrize(
    ("edition", "sides", "count"),
    [
        ("2017", ("24\"", "12\""), 1),
        ("2017", ("23\"", "12\""), 0),
        ("2005", ("8'", "4'"), 1),
        ("2020", ("3'", "3'"), 1),
        ("2020", ("9'", "3'"), 2),
        ("2020", ("9'", "3'-1\""), 3),
        ("2023", ("8'", "4'"), 0),
    ],
)  # fmt: skip
def test_islands_by_edition(edition, sides, count):
    """E05: NEC 210.52(C)(2); 2005 and 2023 read in trade texts, the areas of 2020 from memory."""
    rules = cable_rules(LocalRules(values={"cable.edition": edition}))
    assert island_outlets(*(parse_length(side) for side in sides), rules)[0] == count


def test_an_island_without_its_receptacle_is_asked_about():
    """E05 through the check of a whole house."""
    island = TypedCounter(name="island", room="room", width=inches(60), depth=inches(36))
    house = plain_room(width=240, depth=144, counters=(island,), use="kitchen")
    assert "cable.island" in {finding.rule for finding in check_devices(house, RULES).findings}


def test_a_local_rule_overrides_and_says_so():
    local = LocalRules(values={"cable.reach": "12'"}, reasons={"cable.reach": "town, 3 May"})
    house = two_doors(145, devices=(receptacle("r", "south", START + 72.5),))
    found = check_devices(house, cable_rules(local)).findings
    assert {finding.source.certainty for finding in found if finding.rule == "cable.reach"} == {"local"}
