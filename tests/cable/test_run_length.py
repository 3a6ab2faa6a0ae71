"""Cut lengths, the pull list and what an instructor figures by hand."""

import pytest

from setday.cable import PANEL, Medium, RoutePoint, compared, home_runs, pull_list, route_cables
from setday.cable.routes.words import passes
from setday.house import Point
from setday.measure import Length
from tests.cable.routed import feed, inches, on_ceiling, on_wall, passages, plain_shed, wired


def shed():
    bare = plain_shed()
    boxes = [on_wall(bare, "a", "south", 24, 16), on_wall(bare, "b", "south", 96, 16)]
    return wired(bare, [*boxes, on_ceiling("light", 96, 72)])


# Check E51: the way, the tail in each box and the allowance that the user sets.
@pytest.mark.parametrize(
    ("start", "end", "local", "expected"),
    [
        ("a", "b", {}, 109),  # 88 in + 5 % (4.4) + 2 x 8 = 108.4, up to the inch
        ("a", "b", {"drape_percent": "0", "cut_mark": '1/64"'}, 104),
        ("a", "b", {"drape_percent": "0", "box_tail": '6 1/4"', "cut_mark": '1/64"'}, 100.5),
        (PANEL, "a", {"drape_percent": "0", "cut_mark": '1/64"'}, 24 + 2.75 + 6 + 16 + 8 + 144),
        (PANEL, "a", {"drape_percent": "0", "cut_mark": '1/64"', "set_slack": "20'"}, 48.75 + 8 + 240),
    ],
)
def test_a_run_is_cut_to_its_way_its_tails_its_drape_and_its_slack(start, end, local, expected):
    run = route_cables(passages(shed(), **local), [feed(start, end)]).runs[0]
    assert run.cut == inches(expected)


def test_the_working_adds_up_to_the_cut():
    run = route_cables(passages(shed()), [feed(PANEL, "b")]).runs[0]
    *parts, last = run.working.steps
    assert Length.of(inches=sum(step.value for step in parts)) <= run.cut
    assert run.cut - Length.of(inches=sum(step.value for step in parts)) < inches(1)
    assert last.value == run.cut.inches == run.working.value


def test_only_home_runs_carry_slack():
    runs = route_cables(passages(shed()), [feed(PANEL, "a", number="1-1"), feed("a", "b", number="1-2")]).runs
    assert [run.slack for run in runs] == [inches(144), inches(0)]


def test_the_pull_list_says_where_a_run_begins_passes_and_ends():
    ways = passages(shed())
    routing = route_cables(ways, [feed(PANEL, "a", number="3-1"), feed("a", "b", number="3-2")])
    first, second = pull_list(routing, ways)
    assert first.home
    assert not second.home
    assert second.passes == (
        "south: up to 2'-0\" at 2'-0\" from the west end",
        "south: bored at 2'-0\", 6'-0\" east",
        "south: down to 1'-4\" at 8'-0\" from the west end",
    )
    assert first.passes[-1] == "south: up through the bottom plate to 1'-4\" at 2'-0\" from the west end"
    assert (second.start_label, second.end_label) == ("3-2 general 1 to b", "3-2 general 1 to a")
    assert "HOME RUN" in first.label


def test_the_map_of_home_runs_ends_at_the_coils():
    ways = passages(shed())
    (home,) = home_runs(route_cables(ways, [feed(PANEL, "b", number="3-1")]))
    assert home.coil == ways.by_name[PANEL].plan
    assert home.drop.x == inches(96)
    assert home.way[-1] == home.coil
    assert home.slack == inches(144)


def test_the_figure_by_hand_and_its_differences_add_up():
    ways = passages(shed())
    cables = [feed(PANEL, "a", number="1"), feed("a", "b", number="2"), feed("b", "light", number="3")]
    for line in compared(route_cables(ways, cables).runs, ways):
        assert line.hand + line.climbs + line.round_about + line.allowances == line.cut


def test_by_hand_is_the_distance_along_the_walls_and_a_fifth():
    ways = passages(shed())
    (line,) = compared(route_cables(ways, [feed("a", "b")]).runs, ways)
    assert (line.direct, line.hand) == (inches(72), inches(72 * 1.2))
    assert line.climbs == inches(16)


@pytest.mark.parametrize(
    ("rise", "said"), [(42.75, "2'-0\" east, then 3'-6 3/4\" up"), (0.09, "2'-0\" east")]
)
def test_a_climb_over_the_ceilings_is_told_and_a_hair_is_not(rise, said):
    spots = [(0.0, 0.0, 97.125), (24.0, 0.0, 97.125), (24.0, 0.0, 97.125 + rise)]
    points = [
        RoutePoint(plan=Point(x=inches(x), y=inches(y)), up=inches(up), medium=Medium.CEILING)
        for x, y, up in spots
    ]
    assert passes(points, passages(shed())) == (f"over the ceiling: {said}",)
