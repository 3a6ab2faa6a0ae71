"""Holes, plates and what the framing forbids, all by routing runs through a house."""

from dataclasses import replace

import pytest

from setday.cable import PANEL, route_cables
from setday.errors import RuleError
from setday.house import MemberKind, WallKind
from tests.cable.routed import built, feed, inches, on_ceiling, on_wall, passages, plain_shed, wired
from tests.house.sketches import OUTSIDE, ceiling, house, ring, room


def shed_of(kind: WallKind):
    """A shed of 16 x 12 ft whose walls are all of one kind, a box at each end of the south wall."""
    description = replace(
        house(ring("16'", "12'"), rooms=(room("shop", "8'", "6'"),), ceilings=(ceiling("shop"),)),
        kinds=(replace(kind, name="outside"),),
    )
    shed = built(description)
    boxes = [on_wall(shed, "a", "south", 20, 16), on_wall(shed, "b", "south", 150, 16)]
    return wired(shed, boxes)


def deep(inches_deep: float, *, bearing: bool) -> WallKind:
    return replace(OUTSIDE, depth=inches(inches_deep), bearing=bearing)


def routed(home, *cables, **local: str):
    ways = passages(home, **local)
    return route_cables(ways, cables or [feed("a", "b")])


# E25: NEC 300.4(A)(1), 1-1/4 in to the nearer face: a 1 in hole in the middle of a 2x4 leaves exactly that,
# 1-1/8 in leaves 1-3/16 in; the widest in a 2x6 without a plate is 3 in (2-1/5 in is the most a bearing stud
# allows, R602.6).  Article on nails and cables in a trade magazine; arithmetic.
@pytest.mark.parametrize(
    ("inches_deep", "bit", "plated"),
    [(3.5, '1"', False), (3.5, '1 1/8"', True), (5.5, '1 1/2"', False)],
)
def test_a_hole_near_a_face_takes_a_plate(inches_deep, bit, plated):
    outcome = routed(shed_of(deep(inches_deep, bearing=True)), hole_diameter=bit)
    level = [hole for hole in outcome.holes if not hole.upright]
    assert level
    assert {hole.plated for hole in level} == {plated}
    assert bool(outcome.plates) == plated


def test_a_plate_goes_on_both_faces_of_a_stud():
    outcome = routed(shed_of(deep(3.5, bearing=True)), hole_diameter='1 1/8"')
    level = [hole for hole in outcome.holes if not hole.upright]
    assert sorted({plate.side for plate in outcome.plates}) == ["left", "right"]
    assert len(outcome.plates) == 2 * len(level)


# E26: NEC 300.4(D), cable along a stud less than 1-1/4 in from its face: 2x3 studs (2-1/2 in) leave
# (2.5 - 0.374) / 2 = 1.063 in beside a 14/2, 2x4 studs leave 1.563 in.  Regional contractors' association.
@pytest.mark.parametrize(("inches_deep", "plates"), [(2.5, True), (3.5, False)])
def test_a_cable_along_a_shallow_stud_takes_plates(inches_deep, plates):
    outcome = routed(shed_of(deep(inches_deep, bearing=False)))
    along_studs = [plate for plate in outcome.plates if "along a stud" in plate.why]
    assert bool(along_studs) == plates


# P41: IRC R602.6, 2018: bearing studs 40 % of the depth, nonbearing 60 %, 5/8 in to the face: 1.40, 2.10 in
# of a 2x4, 2.20 and 3.30 in of a 2x6.  The bit of these rules goes to 1-1/2 in.
@pytest.mark.parametrize(
    ("inches_deep", "bearing", "bit", "allowed"),
    [
        (3.5, True, '1 3/8"', True),
        (3.5, True, '1 13/32"', False),
        (3.5, False, '1 1/2"', True),
        (5.5, True, '1 1/2"', True),
        (1.5, False, '3/4"', False),  # 60 % of 1-1/2 in is 0.90 in, but only 3/8 in is left to each face
    ],
)
def test_studs_are_not_bored_beyond_what_the_framing_rules_allow(inches_deep, bearing, bit, allowed):
    outcome = routed(shed_of(deep(inches_deep, bearing=bearing)), hole_diameter=bit)
    level = [hole for hole in outcome.holes if not hole.upright]
    assert bool(level) == allowed
    assert len(outcome.runs) == 1, "where no stud may be bored, the way goes over the ceiling"


def test_every_stud_between_two_boxes_is_bored_once():
    home = shed_of(OUTSIDE)
    outcome = routed(home)
    studs = [
        m
        for m in home.wall("south").members
        if inches(20) < m.center < inches(150)
        and m.kind not in (MemberKind.BOTTOM_PLATE, MemberKind.TOP_PLATE)
    ]
    assert sorted(hole.member_at for hole in outcome.holes) == sorted(m.center for m in studs)
    assert outcome.runs[0].bored == len(studs)


def test_a_home_run_is_bored_through_the_bottom_plate():
    outcome = routed(shed_of(OUTSIDE), feed(PANEL, "a"))
    assert [hole.member for hole in outcome.holes] == [MemberKind.BOTTOM_PLATE]
    assert outcome.holes[0].upright


def test_a_way_over_the_ceiling_is_bored_through_both_top_plates():
    shed = plain_shed()
    home = wired(shed, [on_wall(shed, "a", "south", 40, 48), on_ceiling("light", 96, 72)])
    outcome = routed(home, feed("a", "light"))
    assert [hole.member for hole in outcome.holes] == [MemberKind.TOP_PLATE] * 2


# P42: IRC R602.6.1, 2018: a top plate cut by more than half of its width is tied with 0.054 x 1-1/2 in steel.
@pytest.mark.parametrize(("inches_deep", "bit", "tied"), [(3.5, '1 1/2"', False), (2.5, '1 1/2"', True)])
def test_a_top_plate_bored_too_wide_takes_a_tie(inches_deep, bit, tied):
    home = shed_of(deep(inches_deep, bearing=False))
    home = wired(home, [*home.devices, on_ceiling("light", 96, 72)])
    outcome = routed(home, feed("a", "light"), hole_diameter=bit)
    assert any(finding.rule == "cable.top-plate" for finding in outcome.findings) == tied


def across_the_ceiling(**local: str):
    shed = plain_shed()
    home = wired(shed, [on_ceiling("a", 40, 72), on_ceiling("b", 140, 72)])  # members run north-south, 24 in
    return routed(home, feed("a", "b"), **local)


def test_trusses_are_never_bored():  # P44: IRC R502.8.2, no field cut of trusses
    assert across_the_ceiling().holes == ()


def test_joists_are_bored_where_they_are_crossed():
    outcome = across_the_ceiling(ceiling_framing="joists")
    assert [hole.plan.x for hole in outcome.holes] == [inches(x) for x in (48, 72, 96, 120)]
    assert {hole.room for hole in outcome.holes} == {"shop"}


# P40: IRC R502.8.1: hole not wider than a third of the depth (2.42 in of 7-1/4 in, 3.08 in of 9-1/4 in), 2 in
# or more to each edge.  A 1-1/2 in bit in a 5-1/2 in joist leaves 2 in to each edge; in 5-1/4 in it does not.
@pytest.mark.parametrize(
    ("depth", "bit", "asked"),
    [
        ('7 1/4"', '1 1/2"', False),
        ('5 1/2"', '1 1/2"', False),
        ('5 1/4"', '1 1/2"', True),
        ('4 1/4"', '3/4"', True),
    ],
)
def test_shallow_joists_are_asked_about(depth, bit, asked):
    outcome = across_the_ceiling(ceiling_framing="joists", ceiling_joist_depth=depth, hole_diameter=bit)
    assert [finding.rule for finding in outcome.findings] == (["cable.joist-hole"] if asked else [])


def several(kind: str, count: int):
    """So many runs side by side through the same studs."""
    shed = plain_shed()
    home = wired(shed, [on_wall(shed, "a", "south", 20, 16), on_wall(shed, "b", "south", 60, 16)])
    cables = [feed("a", "b", number=f"1-{n}", kind=kind) for n in range(1, count + 1)]
    outcome = routed(home, *cables, cables_in_hole="9")
    stud = min(hole.member_at for hole in outcome.holes)
    return [len(hole.runs) for hole in outcome.holes if hole.member_at == stud]


# E29: NEC 334.80 and the adjustment table: three 14/2 (25 A x 80 % = 20 A) and four 12/2 (30 A x 70 % = 21 A)
# may share a sealed hole; of five 12/2 (30 A x 50 % = 15 A) one takes another.  Trade forum; arithmetic.
@pytest.mark.parametrize(
    ("kind", "count", "holes"), [("14/2", 3, [3]), ("12/2", 4, [4]), ("12/2", 5, [4, 1])]
)
def test_cables_share_a_hole_as_long_as_they_keep_their_ampacity(kind, count, holes):
    assert several(kind, count) == holes


def test_holes_in_one_stud_stand_apart():
    shed = plain_shed()
    home = wired(shed, [on_wall(shed, "a", "south", 20, 16), on_wall(shed, "b", "south", 60, 16)])
    outcome = routed(home, *(feed("a", "b", number=f"1-{n}") for n in range(5)))  # two to a hole
    stud = min(hole.member_at for hole in outcome.holes)
    assert sorted(hole.up for hole in outcome.holes if hole.member_at == stud) == [
        inches(22),
        inches(24),
        inches(26),
    ]


def test_less_tail_than_the_code_leaves_is_refused():  # E27: NEC 300.14, 6 in free, and 1/4 in of sheath
    with pytest.raises(RuleError, match="box_tail"):
        passages(shed_of(OUTSIDE), box_tail='6"')


# E28: NEC 334.30, 314.17(C): within 8 in of each box, then every 4-1/2 ft along members; bored holes hold.
def test_staples_stand_at_the_boxes_and_along_members():
    assert routed(shed_of(OUTSIDE)).runs[0].staples == 2, "holes carry the level part"
    shed = plain_shed()
    home = wired(shed, [on_wall(shed, "a", "south", 96, 16), on_ceiling("light", 96, 84)])
    # 73-1/8 of 81-1/8 in up the stud: one more; 69-1/4 of 81-1/4 in along the ceiling's member: one more.
    assert routed(home, feed("a", "light")).runs[0].staples == 4


# E28: 314.17(C), exception: 8 in from a one-gang nonmetallic box without clamps, 12 in from others (334.30).
@pytest.mark.parametrize(
    ("boxes", "changes", "staples"),
    [
        (("a",), {}, 4),  # 63-1/8 in up the stud: 55-1/8 in are left, more than 4-1/2 ft
        (("a",), {"box_clamps": "yes"}, 3),  # 51-1/8 in are left
        (("a", "b"), {}, 3),  # two gangs
    ],
)
def test_the_staple_at_a_plain_one_gang_box_stands_nearer(boxes, changes, staples):
    shed = plain_shed()
    outlets = [on_wall(shed, name, "south", 96, 34) for name in boxes]
    shared = [replace(each, typed=replace(each.typed, box="a")) for each in outlets]
    home = wired(shed, [*shared, on_ceiling("light", 96, 84)])
    assert routed(home, feed("a", "light"), **changes).runs[0].staples == staples
