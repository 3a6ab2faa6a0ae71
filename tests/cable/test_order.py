"""The order of boxes: equal to every order tried, and proven beyond."""

import time
from itertools import pairwise, permutations
from random import Random

import pytest

from setday.cable import PANEL, Circuit, CircuitUse, chain_of, circuit_cables, order_boxes
from setday.cable.cables import SwitchLeg
from setday.measure import Length
from setday.solving import Limits
from tests.cable.routed import drawn, passages


def limits(seconds: float = 20.0) -> Limits:
    return Limits(seconds=seconds, clock=time.perf_counter, workers=1)


def tried(start: str, boxes: list[str], between) -> int:
    """The least length over every order there is."""
    best = None
    for order in permutations(boxes):
        total = sum(between(p, q).sixtyfourths for p, q in pairwise((start, *order)))
        best = total if best is None else min(best, total)
    return best or 0


def scattered(seed: int, count: int):
    """Boxes at random places of a plan, far apart by the two directions of a house."""
    draw = Random(seed)
    at = {name: (draw.randrange(30000), draw.randrange(20000)) for name in [PANEL, *map(str, range(count))]}
    return [name for name in at if name != PANEL], lambda p, q: Length(
        abs(at[p][0] - at[q][0]) + abs(at[p][1] - at[q][1])
    )


@pytest.mark.parametrize(
    ("seed", "count"), [(s, n) for n in range(1, 8) for s in range(3)] + [(7, 8), (8, 9)]
)
def test_the_order_equals_every_order_tried(seed, count):
    boxes, between = scattered(seed, count)
    order = order_boxes(PANEL, boxes, between=between, limits=limits())
    assert order.length.sixtyfourths == tried(PANEL, boxes, between)
    assert order.proven
    assert sorted(order.boxes) == sorted(boxes)


def test_the_order_on_a_house_equals_every_order_tried():
    ways = passages(drawn(2))
    boxes = [name for name in ways.net.stops if name != PANEL][:7]
    order = order_boxes(PANEL, boxes, between=ways.length, limits=limits())
    assert order.length.sixtyfourths == tried(PANEL, boxes, ways.length)


@pytest.mark.parametrize("seed", [1, 2])
def test_more_boxes_than_can_be_weighed_are_proven_by_a_bound(seed):
    boxes, between = scattered(seed, 17)
    order = order_boxes(PANEL, boxes, between=between, limits=limits())
    assert order.proven
    assert order.bound == order.length
    # The same boxes in two halves, each ordered at its best, cannot take less than the whole's bound allows
    # without the cable between them; the chain through all is at most both chains with one joint.
    first = order_boxes(PANEL, boxes[:7], between=between, limits=limits())
    second = order_boxes(first.boxes[-1], boxes[7:], between=between, limits=limits())
    assert order.length <= first.length + second.length


def test_where_time_runs_out_there_is_an_order_and_an_honest_bound():
    boxes, between = scattered(5, 40)
    order = order_boxes(PANEL, boxes, between=between, limits=limits(0.05))
    assert sorted(order.boxes) == sorted(boxes)
    assert order.bound <= order.length
    assert order.proven == (order.bound == order.length)


def test_a_box_named_twice_is_refused():
    with pytest.raises(ValueError, match="twice"):
        order_boxes(PANEL, ["a", "a"], between=lambda p, q: Length(1), limits=limits())


def circuit(**more: object) -> Circuit:
    given: dict[str, object] = {
        "name": "general 1",
        "use": CircuitUse.GENERAL,
        "devices": (),
        "breaker": 15,
        "volts": 120,
        "awg": 14,
        "cable": "14/2",
        "load_va": 0.0,
    }
    return Circuit(**{**given, **more})  # type: ignore[arg-type]


def test_an_order_the_instructor_fixed_stays_and_says_what_it_costs():
    ways = passages(drawn(2))
    boxes = [name for name in ways.net.stops if name != PANEL][:6]
    shortest = order_boxes(PANEL, boxes, between=ways.length, limits=limits())
    fixed = chain_of(circuit(ordered=True), shortest.boxes[::-1], passages=ways, limits=limits())
    assert fixed.boxes == shortest.boxes[::-1]
    assert fixed.bound == shortest.length <= fixed.length


def test_alarms_sound_together_by_one_conductor_more_from_the_first_to_the_last():
    cables = circuit_cables(circuit(), ("a", "b", "c", "d", "e"), number=4, sounding={"b", "d"})
    assert [cable.kind for cable in cables] == ["14/2", "14/2", "14/3", "14/3", "14/2"]
    alone = circuit_cables(circuit(), ("a", "b"), number=4, sounding={"b"})
    assert [cable.kind for cable in alone] == ["14/2", "14/2"]


def test_the_cables_of_a_circuit_are_numbered_from_its_home_run_on():
    legs = (SwitchLeg(start="a", end="light", kind="14/3"),)
    cables = circuit_cables(circuit(), ("b", "a"), number=4, legs=legs)
    assert [(c.number, c.start, c.end, c.kind, c.purpose) for c in cables] == [
        ("4-1", PANEL, "b", "14/2", "home run"),
        ("4-2", "b", "a", "14/2", "feed"),
        ("4-3", "a", "light", "14/3", "switch leg"),
    ]
