"""What lamps do in every position."""

import random
from dataclasses import replace

import networkx as nx
import numpy as np
import pytest

from setday.switching import BARE, Look, Point, try_hookup
from setday.switching.circuit import lay_out
from setday.switching.nets import in_position, only, static_nets
from tests.switching import oracle
from tests.switching.circuits import STANDARD, chain, rejoined, standard, without, wrong

HALL = "three-way-light-between"


def lit(hookup, load="L1"):
    """Return the positions in which a lamp is full."""
    return {
        tried.position
        for tried in try_hookup(hookup).positions
        for seen in tried.loads
        if seen.load == load and seen.look is Look.FULL
    }


@pytest.mark.parametrize("switches", [2, 3, 4, 5, 6])
def test_switches_in_a_row_are_parity(switches):
    # E45: Mathematical Gazette, "Parity lights" (Cambridge University Press, 2016)
    on = lit(chain(switches))
    odd = {position for position in oracle.positions(chain(switches)) if sum(position) % 2}
    every = set(oracle.positions(chain(switches)))
    assert on in (odd, every - odd)
    assert len(on) == 2 ** (switches - 1)


@pytest.mark.parametrize("switches", [2, 3, 4, 5, 6])
def test_every_flip_of_every_switch_changes_the_lamp(switches):
    on = lit(chain(switches))
    for position in oracle.positions(chain(switches)):
        for n in range(switches):
            flipped = (*position[:n], 1 - position[n], *position[n + 1 :])
            assert (position in on) != (flipped in on)


@pytest.mark.parametrize(
    ("pair", "others"),
    [
        (("S1 common", "S1 traveler 1"), "S2"),
        (("S1 common", "S1 traveler 2"), "S2"),
        (("S2 common", "S2 traveler 1"), "S1"),
        (("S2 common", "S2 traveler 2"), "S1"),
    ],
)
def test_a_common_swapped_with_a_traveler_works_with_the_other_switch_one_way_only(pair, others):
    # E46, the trade's symptom: which position it is comes out of the circuit
    hookup = rejoined(standard(HALL), pair)
    on = lit(hookup)
    assert len(on) == 1
    assert others in {switch.name for switch in hookup.switches}


def test_crossed_travelers_are_no_fault():
    # E47: the lamp is merely on where it was off
    crossed = lit(rejoined(standard(HALL), ("S1 traveler 1", "S1 traveler 2")))
    assert crossed == set(oracle.positions(standard(HALL))) - lit(standard(HALL))


def test_an_open_traveler_leaves_one_position_in_four():
    assert len(lit(without(standard(HALL), "N1 red", box="near"))) == 1  # E47


def test_both_ends_wrong_on_different_travelers_leave_none():
    hookup = rejoined(standard(HALL), ("S1 common", "S1 traveler 1"), ("S2 common", "S2 traveler 1"))
    hookup2 = rejoined(standard(HALL), ("S1 common", "S1 traveler 1"), ("S2 common", "S2 traveler 2"))
    assert 0 in {len(lit(hookup)), len(lit(hookup2))}  # E47


def test_mixed_pairs_of_a_four_way_leave_two_positions_in_eight():
    hookup = rejoined(standard("four-way-light-last"), ("S2 in 2", "S2 out 1"))
    assert len(lit(hookup)) == 2  # E47


def test_lamps_in_series_share_the_supply():
    hall = standard("two-lights-shared-cable")
    plan = rejoined(hall, ("S1 brass 1", "S1 brass 2"))
    assert lit(plan) == lit(hall), "a single-pole switch has no first and second screw"
    joins = [join for join in hall.joins if "L1 silver" not in str(join)]
    silver = next(join for join in hall.joins if "L1 silver" in str(join))
    others = tuple(point for point in silver.points if str(point) != "L1 silver")
    brass2 = next(
        join for join in joins if any(str(p) == "N2 black" and p.box == "light 1" for p in join.points)
    )
    moved = type(silver)(points=(*brass2.points, next(p for p in silver.points if str(p) == "L1 silver")))
    series = hall.with_joins(
        (*[join for join in joins if join is not brass2], type(silver)(points=others), moved)
    )
    looks = {seen.look for tried in try_hookup(series).positions for seen in tried.loads}
    assert Look.DIM in looks


@pytest.mark.parametrize("name", STANDARD)
def test_the_planned_circuits_do_what_is_wanted(name):
    hookup = standard(name)
    for want in hookup.wants:
        on = lit(hookup, want.load)
        for position in oracle.positions(hookup):
            ups = sum(
                state for state, s in zip(position, hookup.switches, strict=True) if s.name in want.switches
            )
            if not want.switches:
                assert position in on
            elif len(want.switches) == 1:
                assert (position in on) == (ups == 1)


def random_wrong(count, seed):
    chance = random.Random(seed)
    names = [name for name in STANDARD if len(standard(name).switches) <= 3]
    return [wrong(standard(chance.choice(names)), chance) for _ in range(count)]


def test_a_short_is_a_path_from_hot_to_bar_without_a_load():
    # Case E49, held against networkx
    for hookup in random_wrong(150, 7):
        trial = try_hookup(hookup)
        for tried in trial.positions:
            graph = oracle.connected(hookup, tried.position)
            ends = [Point(box="panel", holder="feed", part=part) for part in ("black", "white")]
            assert nx.has_path(graph, *ends) == (tried.breaker.opens), hookup.name


def test_what_metal_connects_to_the_supply_is_live():
    # E49: networkx; the shock test
    for hookup in random_wrong(80, 8):
        for tried in try_hookup(hookup).positions:
            if not tried.breaker.opens:
                graph = oracle.connected(hookup, tried.position)
                hot = Point(box="panel", holder="feed", part="black")
                reached = nx.node_connected_component(graph, hot) - {hot}
                assert reached <= set(tried.live)


def test_what_nothing_ties_to_the_panel_is_called_loose():
    for hookup in random_wrong(80, 9):
        graph = nx.Graph()
        for position in oracle.positions(hookup):
            graph = nx.compose(graph, oracle.connected(hookup, position))
        graph.add_edges_from((a, b) for _, a, b, _ in oracle.loads(hookup))
        ends = [Point(box="panel", holder="feed", part=part) for part in ("black", "white")]
        tied = set().union(*(nx.node_connected_component(graph, end) for end in ends))
        # contacts count in any position, so the graph is the one with every contact closed at some time
        free = {p for p in hookup.points() if p not in tied and p.part not in ("green", BARE)}
        assert set(try_hookup(hookup).loose) == free


def test_an_ideal_conductor_changes_no_lamp_by_two_percent():
    """The many-variants engine, held against the nodal one."""
    for hookup in random_wrong(120, 10):
        circuit = lay_out(hookup)
        static = static_nets(circuit, only(circuit))
        for tried in try_hookup(hookup).positions:
            ideal = in_position(circuit, only(circuit), static, np.array(tried.position))
            assert bool(ideal.opens[0]) == tried.breaker.opens
            shares = np.array([seen.share for seen in tried.loads])
            assert np.abs(ideal.share[0] - shares).max() < 0.02


def test_a_lamp_that_is_off_is_not_dead_when_the_neutral_is_switched():
    hookup = rejoined(standard("single-pole-feed-at-switch"), ("feed black", "feed white"))
    off = next(tried for tried in try_hookup(hookup).positions if tried.loads[0].look is Look.OFF)
    assert {"L1 brass", "L1 silver"} <= {str(point) for point in off.live}


def test_a_ground_left_open_is_told():
    hookup = without(standard(HALL), "S2 green")
    assert [str(point) for point in try_hookup(hookup).open_grounds] == ["S2 green"]


def test_a_heater_in_the_lampholder_overloads_the_cable():
    hall = standard("two-lights-two-three-ways")
    hot = replace(hall, devices=tuple(replace(d, watts=1500) if d.loads else d for d in hall.devices))
    worst = max(try_hookup(hot).positions, key=lambda tried: tried.breaker_a)
    assert worst.breaker.opens
    assert "overload" in worst.breaker
