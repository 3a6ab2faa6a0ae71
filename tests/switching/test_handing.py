"""Switching as a trade: hookups figured, and what they hand on."""

from setday.actions.switching.hookups import example_names, example_text, open_hookup
from setday.switching import figure, gate_items, needs, switching_rules, work_items


def hookups(*names):
    return [open_hookup(example_text(name), name=name).sound() for name in names]


def test_every_example_is_tried_and_clean():
    figured = figure(hookups(*example_names()))
    assert [each.hookup.name for each in figured.hookups if not each.clean] == []


def test_a_hookup_that_does_not_fit_together_is_not_tried():
    sound = hookups("single-pole-feed-at-switch")[0]
    broken = sound.with_joins((*sound.joins, sound.joins[0]))
    figured = figure([broken])
    assert figured.hookups[0].judgment is None
    assert figured.findings


def test_connectors_are_counted_by_hand():
    """Supply at the switch: the switch box joins two neutrals and two grounds with a pigtail, the hot
    conductors go to the switch; the light's box joins black, white and ground to one terminal each.
    """
    figured = figure(hookups("single-pole-feed-at-switch"))
    assert [need.quantity for need in needs(figured)] == [2.0]


def test_each_surface_with_a_box_asks_that_the_hookup_was_judged():
    hookup = hookups("single-pole-feed-at-switch")[0]
    surfaces = {box.name: f"room/{n}" for n, box in enumerate(hookup.boxes)}
    items = gate_items(figure([hookup]), surfaces=surfaces)
    assert {item.surface for item in items} == set(surfaces.values())
    assert all("judged" in item.label for item in items)


def test_every_hookup_is_work():
    figured = figure(hookups("three-way-light-last", "single-pole-feed-at-light"))
    items = work_items(figured, rules=switching_rules())
    assert [item.quantity for item in items] == [4.0, 2.0]
