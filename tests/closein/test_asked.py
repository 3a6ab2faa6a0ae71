"""What gates ask for: blocking at a place, and the inspections of the locality."""

import pytest

from setday.closein import (
    Added,
    BlockingFor,
    GateRefusal,
    ItemKind,
    Spot,
    add,
    gate_rules,
    inspection_items,
    inspections,
    strike,
    usual_spot,
)
from setday.house import SurfaceKind
from setday.measure import ZERO
from setday.rules import LocalRules
from tests.closein.sketches import ANA, MORNING, TEACHER, built, ft, gate, item

HOUSE = built()
WALL = next(s for s in HOUSE.surfaces if s.kind is SurfaceKind.WALL and s.openings)
CEILING = next(s for s in HOUSE.surfaces if s.kind is SurfaceKind.CEILING)
WIRED = [item(WALL.id, "box", trade="cable")]


def added(kind=ItemKind.BLOCKING, *, by=TEACHER, surface=WALL, **facts):
    wanted = Added(key="7", surface=surface.id, kind=kind, by=by, at=MORNING, **facts)
    return add(gate(HOUSE, [], [], surface.id), surface, wanted)


def spot(x, y, w, h):
    return Spot(x=ft(x), y=ft(y), w=ft(w), h=ft(h))


def test_blocking_says_what_it_is_for_and_where():
    made = added(what=BlockingFor.GRAB_BAR, spot=spot("0'", '33"', "2'", '6"'), words="tub").item
    assert made.label == 'blocking for grab bar (tub): 0" from the left, 2\'-9" up, 2\'-0" wide, 6" high'
    assert (made.kind, made.thing) == (ItemKind.BLOCKING, "blocking/7")


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (("-1'", "3'", "1'", '6"'), "its left end"),
        (("0'", "3'", "90'", '6"'), "its right end"),
        (("0'", "-1'", "1'", '6"'), "its lower edge"),
        (("0'", "3'", "1'", "20'"), "its upper edge"),
        (("0'", "3'", "0'", '6"'), "is nothing"),
    ],
)
def test_blocking_off_the_wall_is_refused(place, words):
    with pytest.raises(GateRefusal, match=words):
        added(what=BlockingFor.RAIL, spot=spot(*place))


def test_blocking_in_an_opening_is_refused():
    hole = WALL.openings[0]
    inside = Spot(x=hole.x + ft('1"'), y=hole.y + ft('1"'), w=ft('1"'), h=ft('1"'))
    with pytest.raises(GateRefusal, match="where there is no wall"):
        added(spot=inside)


def test_a_brace_needs_no_place():
    assert added(what=BlockingFor.BRACE).item.label == "brace of the framing"


def test_blocking_of_a_grab_bar_holds_the_whole_height_a_bar_may_have():
    """2010 ADA Standards, 609.4: 33 to 36 in above the finished floor."""
    usual = usual_spot(BlockingFor.GRAB_BAR, WALL, rules=gate_rules())
    assert usual is not None
    assert usual.y <= ft('33"')
    assert usual.y + (usual.h or ZERO) >= ft('36"')


def test_no_height_is_usual_on_a_ceiling():
    assert usual_spot(BlockingFor.SCREEN, CEILING, rules=gate_rules()) is None


def test_an_added_item_without_words_is_refused():
    with pytest.raises(GateRefusal, match="what must be in"):
        added(ItemKind.ADDED, words=" ")


def test_blocking_without_a_place_is_refused():
    with pytest.raises(GateRefusal, match="not said where"):
        added(what=BlockingFor.SCREEN)


def test_a_student_adds_nothing():
    with pytest.raises(GateRefusal, match="Only the instructor"):
        added(ItemKind.ADDED, words="a strap", by=ANA)


def test_notice_of_a_year_is_refused():
    with pytest.raises(GateRefusal, match="is no notice"):
        added(ItemKind.INSPECTION, words="fire inspection", notice_days=365)


def test_what_is_struck_says_why_and_is_struck_once():
    item_ = added(ItemKind.ADDED, words="a strap")
    struck = strike(gate(HOUSE, [], [], WALL.id), item_, by=TEACHER, words="not on this wall")
    assert struck.struck == "not on this wall"
    with pytest.raises(GateRefusal, match="struck already"):
        strike(gate(HOUSE, [], [], WALL.id), struck, by=TEACHER, words="again")


def test_the_electrical_inspection_comes_before_surfaces_with_wiring_only():
    """International Residential Code R109.1.2: rough inspections before covering."""
    asked = {each.key: each for each in inspections(HOUSE, WIRED, rules=gate_rules())}
    assert asked["inspection/electrical"].surfaces == (WALL.id,)
    assert "inspection/plumbing" not in asked


def test_the_framing_inspection_comes_everywhere_and_after_the_rough_ones():
    """International Residential Code R109.1.2 and R109.1.4."""
    asked = inspections(HOUSE, WIRED, rules=gate_rules())
    framing = {
        each.surface: each.after for each in inspection_items(asked) if each.key == "inspection/framing"
    }
    assert set(framing) == {surface.id for surface in HOUSE.surfaces}
    assert framing[WALL.id] == ("inspection/electrical",)
    assert framing[CEILING.id] == ()


def test_the_locality_asks_for_more_or_less():
    local = LocalRules(
        values={
            "closein.framing_inspection": "no",
            "closein.insulation_inspection": "yes",
            "closein.insulation_notice": "3",
        },
        reasons={"closein.insulation_inspection": "county office"},
    )
    asked = {each.key: each for each in inspections(HOUSE, WIRED, rules=gate_rules(local))}
    assert set(asked) == {"inspection/electrical", "inspection/insulation"}
    assert asked["inspection/insulation"].notice_days == 3
    assert asked["inspection/insulation"].source.note == "county office"
    assert CEILING.id in asked["inspection/insulation"].surfaces
