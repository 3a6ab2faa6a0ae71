"""Each code rule, on a hookup that breaks it and nothing near it; and switched off by a local rule."""

from dataclasses import replace

import pytest

from setday.rules import LocalRules
from setday.switching import Cable, Join, Point, code_findings, judge, plan, switching_rules, try_hookup
from tests.switching.circuits import STANDARD, rejoined, standard, without

HALL = "three-way-light-between"


def unmarked():
    hall = standard(HALL)
    return replace(hall, cables=tuple(replace(cable, remarked=()) for cable in hall.cables))


def neutral_to_ground():
    hall = standard(HALL)
    ground = next(j for j in hall.joins if "N1 bare" in str(j) and j.box == "light")
    white = next(j for j in hall.joins if "L1 silver" in str(j))
    rest = tuple(join for join in hall.joins if join not in (ground, white))
    return hall.with_joins((*rest, Join(points=(*ground.points, *white.points))))


def small_box():
    hall = standard(HALL)
    return replace(hall, boxes=tuple(replace(box, volume_in3=14.0) for box in hall.boxes))


def big_breaker():
    hall = standard(HALL)
    return replace(hall, feed=replace(hall.feed, breaker_a=20.0))


def no_neutral():
    """The old two-wire loop: E40, E41."""
    light = standard("single-pole-feed-at-light")
    cable = replace(light.cables[0], kind="14/2", remarked=("white",))

    def at(box, holder, part):
        return Point(box=box, holder=holder, part=part)

    joins = (
        Join(points=(at("ceiling", "feed", "black"), at("ceiling", "N1", "white"))),
        Join(points=(at("ceiling", "N1", "black"), at("ceiling", "L1", "brass"))),
        Join(points=(at("ceiling", "feed", "white"), at("ceiling", "L1", "silver"))),
        Join(
            points=tuple(at("ceiling", h, p) for h, p in (("feed", "bare"), ("N1", "bare"), ("L1", "green")))
        ),
        Join(points=(at("door", "N1", "white"), at("door", "S1", "brass 1"))),
        Join(points=(at("door", "N1", "black"), at("door", "S1", "brass 2"))),
        Join(points=(at("door", "N1", "bare"), at("door", "S1", "green"))),
    )
    return replace(light, cables=(cable,), joins=joins)


def white_as_return():
    return rejoined(no_neutral(), ("feed black", "L1 brass"))


def red_neutral():
    """White and red of the first cable trade places at both ends."""
    hall = standard(HALL)
    other = {"red": "white", "white": "red"}

    def traded(point):
        return replace(point, part=other[point.part]) if str(point) in ("N1 red", "N1 white") else point

    return hall.with_joins(tuple(Join(points=tuple(map(traded, join.points))) for join in hall.joins))


CASES = [
    (
        "switch_hot",
        lambda: rejoined(standard("single-pole-feed-at-switch"), ("feed black", "feed white")),
        "404.2(A)",
    ),
    ("neutral_at_switch", no_neutral, "404.2(C)"),
    ("white_marked", unmarked, "200.7(C)"),
    ("white_supply", white_as_return, "200.7(C)"),
    ("neutral_white", red_neutral, "200.6"),
    ("ground_apart", neutral_to_ground, "250.142"),
    ("ground_bare", lambda: rejoined(standard(HALL), ("N2 red", "N2 bare")), "250.119"),
    ("grounds_joined", lambda: without(standard(HALL), "N2 bare", box="light"), "250.148"),
    ("device_grounded", lambda: without(standard(HALL), "S2 green"), "404.9(B)"),
    ("box_fill", small_box, "314.16"),
    ("breaker_size", big_breaker, "240.4(D)"),
    (
        "lamp_shell",
        lambda: rejoined(standard("single-pole-feed-at-switch"), ("L1 brass", "L1 silver")),
        "410.90",
    ),
    (
        "receptacle_polarity",
        lambda: rejoined(standard("half-switched-receptacle"), ("R2 upper brass", "R2 upper silver")),
        "200.11",
    ),
]


@pytest.mark.parametrize(("key", "make", "section"), CASES, ids=[case[0] for case in CASES])
def test_a_rule_is_told_with_its_section(key, make, section):
    told = [f for f in code_findings(try_hookup(make())) if f.rule == f"switching.{key}"]
    assert told
    assert section in f"{told[0].source.title} {told[0].source.section}"


@pytest.mark.parametrize(("key", "make", "section"), CASES, ids=[case[0] for case in CASES])
def test_a_local_rule_switches_it_off(key, make, section):
    rules = switching_rules(LocalRules(values={f"switching.{key}": "no"}))
    told = code_findings(try_hookup(make(), rules))
    assert not [f for f in told if f.rule == f"switching.{key}"]


@pytest.mark.parametrize("name", STANDARD)
def test_nothing_is_told_of_a_planned_hookup(name):
    assert judge(standard(name)).clean


def test_a_circuit_parted_over_two_cables_is_told():
    # In a ring of three boxes: out over one cable and back over another (NEC 300.3(B))
    hall = standard("two-lights-shared-cable")
    ring = Cable(name="N9", kind="14/2", a="door", b="light 2", length_ft=21)
    joins = []
    for join in hall.joins:
        points = join.points
        if join.box == "light 1":
            points = tuple(p for p in points if str(p) != "N2 white")
        if join.box == "light 2" and "N2 white" in str(join):
            points = tuple(replace(p, holder="N9") if str(p) == "N2 white" else p for p in points)
        if join.box == "door" and "N1 white" in str(join):
            points = (*points, Point(box="door", holder="N9", part="white"))
        joins.append(Join(points=points))
    parted = replace(hall, cables=(*hall.cables, ring), joins=tuple(j for j in joins if len(j.points) > 1))
    told = {f.rule: f for f in code_findings(try_hookup(parted))}
    assert "300.3(B)" in told["switching.one_cable"].source.title


def test_one_neutral_for_two_three_ways_is_enough_and_a_box_that_reopens_needs_none():
    # E40: one of several switches in view suffices; not needed where a cable can be added
    two_wire = no_neutral()
    assert [f for f in code_findings(try_hookup(two_wire)) if f.rule == "switching.neutral_at_switch"]
    reopens = replace(two_wire, boxes=tuple(replace(box, reopens=True) for box in two_wire.boxes))
    assert not [f for f in code_findings(try_hookup(reopens)) if f.rule == "switching.neutral_at_switch"]
    every = switching_rules(LocalRules(values={"switching.neutral_at_switch": "every switch box"}))
    told = code_findings(try_hookup(standard("three-way-feed-at-light"), every))
    assert [f for f in told if f.rule == "switching.neutral_at_switch"]


def test_a_switch_of_receptacles_alone_needs_no_neutral():
    # 404.2(C) speaks of lighting loads; from memory
    half = standard("half-switched-feed-at-receptacle")
    planned = plan(half).hookup
    assert {cable.kind for cable in planned.cables} == {"12/2"}
    told = {finding.rule for finding in code_findings(try_hookup(planned))}
    assert "switching.neutral_at_switch" not in told
    every = switching_rules(LocalRules(values={"switching.neutral_at_switch": "every switch box"}))
    strict = {finding.rule for finding in code_findings(try_hookup(planned, every))}
    assert "switching.neutral_at_switch" in strict


def test_a_white_as_feed_of_a_loop_is_fine_when_marked():
    # The rule is 200.7(C), case E41
    told = {f.rule for f in code_findings(try_hookup(no_neutral()))}
    assert "switching.white_marked" not in told
    assert "switching.white_supply" not in told
