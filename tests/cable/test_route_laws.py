"""Laws of ways, on houses drawn at random."""

from dataclasses import replace
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from setday.cable import PANEL, Passages, cable_rules, route_cables, route_rules, stops_of
from setday.house import House, MemberKind, Wiring, build_house
from setday.measure import Length
from tests.cable.routed import drawn, feed, inches, passages, wired
from tests.house.sketches import window

SEEDS = st.integers(0, 10_000)
FEW = settings(max_examples=15, deadline=None)


def named(home: House) -> list[str]:
    return [stop.name for stop in stops_of(home)]


def routed(home: House):
    ways = passages(home)
    names = [name for name in named(home) if name in ways.net.stops]
    cables = [feed(a, b, number=f"1-{n}") for n, (a, b) in enumerate(pairwise(names))]
    return ways, route_cables(ways, cables)


@FEW
@given(SEEDS)
def test_no_run_passes_through_an_opening_a_header_or_a_sill(seed):
    home = drawn(seed)
    _, outcome = routed(home)
    for run in outcome.runs:
        for a, b in pairwise(run.points):
            if not a.wall or a.wall != b.wall:
                continue
            wall = home.wall(a.wall)
            boxes = [(o.along, o.along + o.width, o.sill, o.head) for o in wall.openings]
            boxes += [
                (m.left, m.right, m.bottom, m.top_left)
                for m in wall.members
                if m.kind in (MemberKind.HEADER, MemberKind.SILL)
            ]
            left, right = min(a.along, b.along), max(a.along, b.along)
            low, high = min(a.up, b.up), max(a.up, b.up)
            for x0, x1, y0, y1 in boxes:
                inside = x0 < (left if left == right else right) and x1 > left
                assert not (inside and y0 < (low if low == high else high) and y1 > low), (run.number, a, b)


@FEW
@given(SEEDS, st.sampled_from(["south", "north", "east", "west", "across"]))
def test_no_run_enters_a_closed_wall(seed, closed):
    home = drawn(seed)
    home = replace(home, wiring=replace(home.wiring, closed_walls=(closed,)))
    _, outcome = routed(home)
    assert all(closed not in run.walls for run in outcome.runs)


@FEW
@given(SEEDS, st.sampled_from(["south", "north", "across"]))
def test_closing_a_wall_never_shortens_a_way(seed, closed):
    home = drawn(seed)
    free, shut = (
        passages(replace(home, wiring=replace(home.wiring, closed_walls=walls))) for walls in ((), (closed,))
    )
    for a, b in pairwise(named(home)):
        shorter, longer = free.length(a, b), shut.length(a, b)
        assert longer is None or (shorter is not None and shorter <= longer)


@FEW
@given(SEEDS)
def test_lengths_are_the_same_both_ways_and_no_detour_is_shorter(seed):
    ways = passages(drawn(seed))
    names = [name for name in ways.net.stops if name != PANEL]
    for a in names:
        for b in names:
            assert ways.length(a, b) == ways.length(b, a)
    for a, b, c in zip(names, names[1:], names[2:], strict=False):
        assert ways.length(a, c) <= ways.length(a, b) + ways.length(b, c)


@FEW
@given(SEEDS)
def test_no_way_is_shorter_than_the_distance_along_the_houses_directions(seed):
    ways = passages(drawn(seed))
    stops = {stop.name: stop for stop in ways.stops}
    for a, b in pairwise(name for name in ways.net.stops if name != PANEL):
        one, two = stops[a], stops[b]
        apart = abs(one.plan.x - two.plan.x) + abs(one.plan.y - two.plan.y) + abs(one.up - two.up)
        assert ways.length(a, b) >= apart


@FEW
@given(SEEDS, st.floats(0.1, 0.9))
def test_an_opening_more_never_shortens_a_way_between_boxes_under_the_line_of_holes(seed, share):
    # Higher boxes may gain by one: only over its head are studs bored so high.
    home = drawn(seed)
    wall = home.wall("north")
    distance = Length(round((wall.length.sixtyfourths - inches(60).sixtyfourths) * share))
    more = window("one more", "north", f'{distance.inches}"', "west", sill=inches(6))
    description = replace(home.description, openings=(*home.description.openings, more))
    outcome = build_house(description)
    if outcome.house is None:
        return
    low = tuple(d for d in home.devices if d.height <= inches(24) and d.typed.wall)
    with_it = replace(outcome.house, devices=low, wiring=home.wiring)
    without = replace(home, devices=low)
    before, after = passages(without), passages(with_it)
    for a, b in pairwise(d.name for d in low):
        longer = after.length(a, b)
        assert longer is None or longer >= before.length(a, b)


@FEW
@given(SEEDS)
def test_the_same_house_gives_the_same_runs(seed):
    home = drawn(seed)
    assert routed(home)[1] == routed(home)[1]


@FEW
@given(SEEDS, st.integers(8, 60))
def test_the_line_of_holes_is_where_the_house_file_puts_it(seed, height):
    home = drawn(seed)
    home = replace(
        wired(home, [d for d in home.devices if d.typed.wall]),
        wiring=Wiring(panel=home.wiring.panel, hole_height=inches(height)),
    )
    ways = Passages(home, stops_of(home), route_rules(home, cable_rules()))
    assert all(inches(height).sixtyfourths in walls.heights for walls in ways.net.walls)
