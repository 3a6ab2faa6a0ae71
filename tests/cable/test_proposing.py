"""Proposed devices, held against a check that knows nothing of how they were proposed, and against laws."""

from dataclasses import replace
from itertools import combinations, pairwise
from math import hypot

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from setday.actions import demo_names, demo_text, open_house
from setday.cable import cable_rules, check_devices, propose_devices
from setday.findings import Severity
from setday.house import DeviceKind, MemberKind, Mount, OpeningKind, build_house
from tests.cable.shapes import built, houses

RULES = cable_rules()
DRAWN = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
HELD = {"bedroom", "living", "dining", "kitchen", "study"}
"""Uses of drawn rooms whose walls are held to the spacing of receptacles."""


def with_devices(house, devices):
    return build_house(replace(house.description, devices=devices))


def demo(name="house"):
    return open_house(demo_text(name), name=name).house


def drawn_house(description):
    """Return the drawn house, None where what was drawn cannot stand."""
    return build_house(description).house


@pytest.mark.parametrize("name", demo_names())
def test_a_proposal_for_a_demo_house_can_stand(name):
    house = demo(name)
    assert [str(f) for f in with_devices(house, propose_devices(house, RULES)).findings] == []


def test_the_demo_house_proposed_meets_every_rule():
    house = demo()
    found = check_devices(with_devices(house, propose_devices(house, RULES)).house, RULES).findings
    assert [str(f) for f in found if f.severity is not Severity.NOTE] == []


def test_a_proposal_is_the_same_every_time():
    assert propose_devices(demo(), RULES) == propose_devices(demo(), RULES)


@DRAWN
@given(houses())
def test_a_proposed_house_has_no_spacing_finding(description):
    """The check walks the floor line on the plan; the proposal was made along the surfaces."""
    house = drawn_house(description)
    if house is None:
        return
    made = with_devices(house, propose_devices(house, RULES))
    assert [str(f) for f in made.findings if f.severity is Severity.PROBLEM] == []
    bare = [b for b in check_devices(made.house, RULES).bare if b.rule == "cable.reach"]
    assert [(b.room, str(b.length)) for b in bare if has_place(made.house, b)] == []


def has_place(house, bare):
    """Tell whether a box could be nailed on a bare stretch at all: between its studs is room for one."""
    for part in bare.parts:
        wall = house.wall(part.wall)
        low, high = sorted((part.along_from.inches, part.along_to.inches))
        taken = [
            (m.left.inches, m.right.inches)
            for m in wall.members
            if m.kind not in (MemberKind.HEADER, MemberKind.TOP_PLATE)
            and m.bottom.inches < 18 < m.top_left.inches
        ]
        edges = [low, *(x for pair in sorted(taken) for x in pair), high]
        if any(b - a >= 8 for a, b in pairwise(sorted(edges)) if a >= low and b <= high):
            return True
    return False


@DRAWN
@given(houses())
def test_no_box_stands_in_framing_in_an_opening_or_in_another_box(description):
    house = drawn_house(description)
    if house is None:
        return
    seen = {}
    for device in propose_devices(house, RULES):
        if device.mount is Mount.WALL and (device.box not in seen or not device.box):
            seen[device.box or device.name] = device
    boxes = [(d.wall, rectangle(d)) for d in seen.values()]
    for name, shape in boxes:
        wall = house.wall(name)
        for member in wall.members:
            body = box(member.left.inches, member.bottom.inches, member.right.inches, member.top_left.inches)
            assert shape.intersection(body).area < 0.05, (name, member.kind)
        for hole in wall.openings:
            body = box(
                hole.along.inches, hole.sill.inches, (hole.along + hole.width).inches, hole.head.inches
            )
            assert shape.intersection(body).area < 0.05, (name, hole.name)
    for (a, first), (b, second) in combinations(boxes, 2):
        assert a != b or first.intersection(second).area < 0.05, (a, first.bounds, second.bounds)


def rectangle(device):
    x, y = device.along.inches, device.up.inches
    return box(x - 1.125, y - 1.875, x + 1.125, y + 1.875)


@DRAWN
@given(houses(), st.randoms(use_true_random=False))
def test_the_check_agrees_with_a_walk_point_by_point(description, chance):
    """A tape laid every half inch along the foot of the walls, its doors found by area on the plan."""
    house = drawn_house(description)
    if house is None:
        return
    kept = tuple(
        d
        for d in propose_devices(house, RULES)
        if d.kind is not DeviceKind.RECEPTACLE or chance.random() < 0.5
    )
    made = with_devices(house, kept).house
    bare = {room.name: [] for room in made.rooms}
    for each in check_devices(made, RULES).bare:
        if each.rule == "cable.reach":
            bare[each.room] += list(pairwise(each.plan))
    for room in made.rooms:
        if room.use in HELD - {"kitchen"}:
            for spot, far in walked(made, room):
                inside = any(off(spot, ends) < 1.0 for ends in bare[room.name])
                if far == "too far":
                    assert inside, (room.name, spot)
                elif far == "near":
                    assert not any(off(spot, ends) < 1e-6 for ends in bare[room.name]), (room.name, spot)


STEP = 0.5


def walked(house, room):
    """Yield points of a room's floor line with "too far", "near" or, at the edge of the rule, "either"."""
    ring = Polygon([(p.x.inches, p.y.inches) for p in room.outline]).exterior
    count = int(ring.length / STEP)
    spots = [ring.interpolate(n * ring.length / count) for n in range(count)]
    holes = doors_on_plan(house)
    door = [any(hole.covers(spot) for hole in holes) for spot in spots]
    outlets = [
        (d.plan.x.inches, d.plan.y.inches)
        for d in house.devices
        if d.room == room.name and d.kind is DeviceKind.RECEPTACLE and d.height.inches <= 66
    ]
    at = [min((hypot(s.x - x, s.y - y) for x, y in outlets), default=999) <= STEP for s in spots]
    first = door.index(True) if any(door) else 0
    order = [(first + n) % count for n in range(count)]
    for run in runs(order, door):
        length = len(run) * ring.length / count
        near = [n for n, k in enumerate(run) if at[k]]
        closed = not any(door)
        for n, k in enumerate(run):
            apart = [abs(n - m) for m in near]
            if closed:
                apart += [count - abs(n - m) for m in near]
            far = min(apart, default=10**6) * ring.length / count
            yield (spots[k].x, spots[k].y), told(far, length)


def told(far, length):
    if length < 22.5 or far < 70.5:
        return "near"
    return "too far" if length > 25.5 and far > 73.5 else "either"


def runs(order, door):
    run = []
    for k in order:
        if door[k]:
            if run:
                yield run
            run = []
        else:
            run.append(k)
    if run:
        yield run


def doors_on_plan(house):
    found = []
    for wall in house.walls:
        x, y, length = wall.start.x.inches, wall.start.y.inches, wall.length.inches
        ux, uy = (wall.end.x.inches - x) / length, (wall.end.y.inches - y) / length
        half = wall.kind.depth.inches / 2 + 0.2
        for hole in wall.openings:
            if hole.kind is OpeningKind.WINDOW:
                continue
            low, high = hole.along.inches, (hole.along + hole.width).inches
            corners = [(low, half), (high, half), (high, -half), (low, -half)]
            found.append(Polygon([(x + ux * a - uy * h, y + uy * a + ux * h) for a, h in corners]))
    return found


def off(spot, ends):
    (ax, ay), (bx, by) = ends
    run = hypot(bx - ax, by - ay)
    if run == 0:
        return hypot(spot[0] - ax, spot[1] - ay)
    t = ((spot[0] - ax) * (bx - ax) + (spot[1] - ay) * (by - ay)) / run
    t = min(max(t, 0), run)
    x, y = ax + (bx - ax) * t / run, ay + (by - ay) * t / run
    away = hypot(spot[0] - x, spot[1] - y)
    return away if away > 1e-6 else (0.0 if 1.0 < t < run - 1.0 else 0.5)


def test_switches_of_the_demo_house_serve_what_is_there():
    devices = propose_devices(demo(), RULES)
    names = {d.name for d in devices}
    assert {s for d in devices for s in d.serves} <= names
    assert len(names) == len(devices)


def test_every_switch_of_the_demo_house_stands_beside_the_way_it_belongs_to():
    """Within arm's reach of a door or a cased opening of its room: 3 ft."""
    house = with_devices(demo(), propose_devices(demo(), RULES)).house
    for device in house.devices:
        if device.kind is DeviceKind.SWITCH:
            ways = [
                o
                for s in house.surfaces
                if s.room == device.room
                for o in s.openings
                if o.kind in ("door", "cased opening")
            ]
            surface = house.surface(device.surface)
            own = [o for o in surface.openings if o in ways]
            gaps = [max(o.x - device.x, device.x - o.x - o.w).inches for o in own]
            assert min(gaps, default=0) <= 36, (device.name, gaps)


__all__ = ["built"]
