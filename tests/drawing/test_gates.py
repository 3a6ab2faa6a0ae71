"""The plan of gates, and what is behind a surface."""

import re
from xml.etree import ElementTree

import pytest

from setday.closein import GateState, ItemKind, Spot, gates_of
from setday.drawing import LANDSCAPE, PHONE, behind_surface, behind_table, gate_plan, gate_table
from setday.drawing.behind_places import behind_of
from setday.house import SurfaceKind
from setday.measure import parse_length
from tests.actions.gate_rules import demo_gates
from tests.closein.sketches import item

PLACE = demo_gates("wired")
HOUSE = PLACE.house
ROUTING = PLACE.wired.figure.routing
INSIDE = {"runs": ROUTING.runs, "holes": ROUTING.holes, "plates": ROUTING.plates}
EVERY = {surface.id: list(GateState)[n % len(GateState)] for n, surface in enumerate(HOUSE.surfaces)}


def marked(svg):
    """Return the surfaces that a plan marks."""
    return re.findall(r'data-kind="surface" data-id="([^"]+)"', svg)


@pytest.mark.parametrize("paper", [LANDSCAPE, PHONE], ids=["wide", "phone"])
def test_every_surface_of_the_house_is_on_the_plan_once(paper):
    svg = gate_plan(HOUSE, EVERY, paper=paper, link=lambda kind, name: f"/{kind}/{name}")
    faces = [s.id for s in HOUSE.surfaces if s.kind is not SurfaceKind.SOFFIT_SIDE]
    assert sorted(marked(svg)) == sorted(faces)
    ElementTree.fromstring(svg)


def test_every_state_has_its_word_beside_its_pattern():
    svg = gate_plan(HOUSE, EVERY)
    for state in GateState:
        count = sum(each is state for each in EVERY.values())
        assert f"{state.value}: {count}" in svg


def test_a_link_says_the_state_in_words():
    svg = gate_plan(HOUSE, {"bath/south": GateState.WAITING}, link=lambda kind, name: f"/{name}")
    assert 'aria-label="bath, south wall: waiting for confirmation"' in svg


def test_no_two_states_look_alike_without_their_letters():
    drawn = {
        re.sub(
            r"<text.*?</text>",
            "",
            gate_plan(HOUSE, {"bath/south": state}).split("<desc")[1].split("</desc>")[1],
        )
        for state in GateState
    }
    assert len(drawn) == len(GateState)


def test_the_table_says_state_and_counts():
    table = gate_table(HOUSE, {"bath/south": (GateState.NOT_READY, 3, 1, 9)})
    assert table.rows == (("bath, south wall", "not ready", "3", "1", "9"),)


def surfaces_with_boxes():
    return sorted({device.surface for device in HOUSE.devices if device.surface})


@pytest.mark.parametrize("surface", surfaces_with_boxes())
def test_boxes_stand_where_the_house_says_on_every_surface(surface):
    behind = behind_of(HOUSE, HOUSE.surface(surface), **INSIDE)
    placed = {
        device.box: (device.x, device.y) for device in reversed(HOUSE.devices) if device.surface == surface
    }
    assert {box.name: (box.x, box.y) for box in behind.boxes if box.this_side} == placed


@pytest.mark.parametrize("surface", surfaces_with_boxes())
def test_a_run_that_ends_in_a_box_reaches_it(surface):
    """The way of a run is known by the wall, the box by the surface: both must meet at the box."""
    behind = behind_of(HOUSE, HOUSE.surface(surface), **INSIDE)
    boxes = {box.name: box for box in behind.boxes if box.this_side}
    for each in behind.runs:
        for end in {each.run.cable.start, each.run.cable.end} & set(boxes):
            box = boxes[end]
            near = min(
                abs(x - box.x.inches) + abs(y - box.y.inches)
                for way in each.ways
                for x, y in (way[0], way[-1])
            )
            assert near < 6, f"run {each.run.number} ends {near:.1f} in from box {end}"


def test_members_are_cut_off_at_the_ends_of_the_surface():
    for surface in HOUSE.surfaces:
        for span, member in behind_of(HOUSE, surface).members():
            ends = sorted((span.along, span.along + (span.width if span.forward else -span.width)))
            assert ends[0] <= member.left < member.right <= ends[1]


@pytest.mark.parametrize("surface", [s.id for s in HOUSE.surfaces if s.kind is SurfaceKind.WALL])
def test_no_member_reaches_above_the_surface(surface):
    found = HOUSE.surface(surface)
    members = [member for _, member in behind_of(HOUSE, found).members()]
    assert members
    assert max(max(each.top_left, each.top_right) for each in members) <= found.height


def test_blocking_of_the_other_side_is_mirrored_to_its_place():
    spot = Spot(x=parse_length("4'"), y=parse_length("3'"), w=parse_length("1'"), h=parse_length('6"'))
    marked_ = item("hall/north", "blocking/1", kind=ItemKind.BLOCKING, thing="blocking/1", spot=spot)
    (there,) = behind_of(HOUSE, HOUSE.surface("bath/south"), items=[marked_]).blocks
    hall, bath = HOUSE.surface("hall/north").spans[0], HOUSE.surface("bath/south").spans[0]

    def plan(span, x):
        return span.along + (x - span.x if span.forward else span.x - x)

    ends = sorted(plan(bath, x) for x in (there.spot.x, there.spot.x + spot.w))
    assert ends == sorted(plan(hall, x) for x in (spot.x, spot.x + spot.w))
    assert not there.this_side


@pytest.mark.parametrize("surface", [surface.id for surface in HOUSE.surfaces])
def test_every_surface_can_be_drawn_with_its_table(surface):
    found = HOUSE.surface(surface)
    svg = behind_surface(HOUSE, found, **INSIDE, paper=LANDSCAPE)
    ElementTree.fromstring(svg)
    rows = behind_table(HOUSE, found, **INSIDE).rows
    assert all(len(row) == 4 for row in rows)


def test_states_of_a_new_house_are_all_not_ready():
    gates = gates_of(PLACE.asked(), ())
    states = {surface: gate.state for surface, gate in gates.by_surface.items()}
    assert f"not ready: {len(states)}" in gate_plan(HOUSE, states)
