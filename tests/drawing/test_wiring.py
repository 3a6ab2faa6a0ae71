"""Wiring plans, walls with what is inside them, and the map of home runs."""

import pytest

from setday.drawing import (
    circuit_table,
    device_table,
    home_run_map,
    home_run_table,
    inside_wall_table,
    wall_wiring,
    wiring_plan,
)
from setday.drawing.circuit_lines import style_of
from setday.drawing.device_symbols import device_mark
from tests.drawing.every import link
from tests.drawing.reading import SVG, root_of, texts_of
from tests.drawing.wired import circuits, routing, wired_house


def marked(svg: str, kind: str) -> list[str]:
    return [element.get("data-id") for element in root_of(svg).iter() if element.get("data-kind") == kind]


def test_every_device_has_its_symbol():
    svg = wiring_plan(wired_house(), circuits=circuits())
    assert sorted(marked(svg, "device")) == sorted(device.name for device in wired_house().devices)


def test_every_device_is_a_link_that_says_its_circuit():
    svg = wiring_plan(wired_house(), circuits=circuits(), link=link)
    labels = {a.get("href"): a.get("aria-label") for a in root_of(svg).iter(f"{SVG}a")}
    assert labels["/device/stove?a=1&b=2"] == "stove, range, circuit 2, stove"


def test_switches_of_a_pair_carry_a_three():
    # The lamp has two switches, the fan one.
    texts = texts_of(wiring_plan(wired_house()))
    assert (texts.count("S"), texts.count("3")) == (3, 2)


@pytest.mark.parametrize(
    ("name", "mark"), [("fan", "F"), ("alarm", "A"), ("stove", "RA"), ("box", "J"), ("one", ""), ("lamp", "")]
)
def test_symbols_are_told_by_their_letters(name, mark):
    assert device_mark(wired_house().device(name)) == mark


def test_circuits_differ_by_line_and_not_by_color():
    styles = [style_of(n) for n in range(8)]
    assert len(set(styles)) == 8


def test_every_circuit_is_drawn_and_named_in_the_key():
    svg = wiring_plan(wired_house(), circuits=circuits(), runs=routing().runs)
    assert marked(svg, "circuit") == ["general", "stove"]
    assert {"1  general, 15 A", "2  stove, 50 A"} <= set(texts_of(svg))


def test_a_circuit_that_is_lit_is_shown_alone_with_its_devices_ringed():
    plain = wiring_plan(wired_house(), circuits=circuits(), runs=routing().runs, lit="stove")
    assert "1  general, 15 A" not in texts_of(plain)
    radii = [float(e.get("r")) for e in root_of(plain).iter(f"{SVG}circle")]
    assert radii.count(10.0) == 1


def test_what_is_inside_a_wall_is_drawn_and_listed():
    house, routed = wired_house(), routing()
    wall = house.wall("across")
    svg = wall_wiring(house, wall, runs=routed.runs, holes=routed.holes, circuits=["general", "stove"])
    inside = [run.number for run in routed.runs if "across" in run.walls]
    assert inside
    assert sorted(set(marked(svg, "run"))) == sorted(inside)
    rows = inside_wall_table(house, wall, runs=routed.runs, holes=routed.holes).rows
    assert sorted(row[1] for row in rows if row[0] == "run") == sorted(inside)
    assert sum(row[0] == "hole" for row in rows) == sum(hole.wall == "across" for hole in routed.holes)
    assert {row[1] for row in rows if row[0] == "box"} == {"pair", "two & a half"}


def test_boxes_are_dimensioned_from_the_end_of_the_wall():
    house = wired_house()
    along = house.device("two & a half").typed.along
    beyond = house.wall("across").length - along
    assert str(beyond) in texts_of(wall_wiring(house, house.wall("across")))


def test_home_runs_are_mapped_with_their_coils():
    routed = routing()
    svg = home_run_map(wired_house(), routed.runs)
    assert marked(svg, "run") == ["1-1", "2-1"]
    assert "coils" in texts_of(svg)
    slack = {run.number: str(run.slack) for run in routed.runs}
    assert [(row[0], row[5]) for row in home_run_table(routed.runs).rows] == [
        ("1-1", slack["1-1"]),
        ("2-1", slack["2-1"]),
    ]


def test_the_tables_say_what_the_plan_shows():
    devices = {row[0]: row for row in device_table(wired_house(), circuits()).rows}
    assert devices["door switch"][5:] == ("pair", "lamp", "1 general")
    assert [row[:4] for row in circuit_table(circuits()).rows] == [
        ("1", "general", "general", "15 A"),
        ("2", "stove", "individual", "50 A"),
    ]
