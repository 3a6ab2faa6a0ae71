"""The diagram of a hookup: everything in it, marked to read without color, on one page."""

import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest

from setday.drawing import hookup_diagram, hookup_table, point_key, position_table, shown_at
from setday.drawing.hookup_strands import LIVE
from setday.sheets import hookup_sheets
from setday.switching import CAUTIONS, try_hookup
from tests.switching.circuits import STANDARD, chain, standard, touching

SVG = "{http://www.w3.org/2000/svg}"


def drawn(hookup):
    return ET.fromstring(hookup_diagram(hookup))


def words(root):
    return ["".join(text.itertext()) for text in root.iter(f"{SVG}text")]


@pytest.mark.parametrize("name", STANDARD)
def test_every_conductor_end_is_marked_with_its_letter(name):
    hookup = standard(name)
    told = words(drawn(hookup))
    ends = [
        (c, color) for cable in hookup.cables for c in (cable,) for color in cable.colors for _ in range(2)
    ]
    ends += [(cable, color) for cable in hookup.all_cables[:1] for color in cable.colors]
    for letter, color in (("B", "black"), ("R", "red"), ("G", "bare")):
        assert told.count(letter) == sum(c == color for _, c in ends)
    remarked = sum(color in cable.remarked for cable, color in ends)
    assert told.count("W*") == remarked
    assert told.count("W") == sum(c == "white" for _, c in ends) - remarked


@pytest.mark.parametrize("name", STANDARD)
def test_every_box_device_and_terminal_is_there(name):
    hookup = standard(name)
    root = drawn(hookup)
    ids = {(e.get("data-kind"), e.get("data-id")) for e in root.iter() if e.get("data-kind")}
    assert {("box", box.name) for box in hookup.boxes} <= ids
    assert {("device", device.name) for device in hookup.devices} <= ids
    assert {("cable", cable.name) for cable in hookup.all_cables} <= ids


@pytest.mark.parametrize("name", STANDARD)
def test_colors_differ_in_dashes_too(name):
    strokes: dict[str, set[str | None]] = {}
    for path in drawn(standard(name)).iter(f"{SVG}path"):
        if path.get("stroke") not in (None, "#ffffff"):
            key = f"{path.get('stroke')} {path.get('stroke-width')}"
            strokes.setdefault(key, set()).add(path.get("stroke-dasharray"))
    marks = [(key.split()[1], *dashes) for key, dashes in strokes.items()]
    assert len(marks) == len(set(marks)), "two colors drawn alike but for the color"


@pytest.mark.parametrize("name", STANDARD)
def test_on_its_letter_page_no_letter_is_under_seven_points(name):
    picture = hookup_sheets(standard(name))[0].blocks[0]
    smallest = min(float(size) for size in re.findall(r'font-size="([\d.]+)"', picture.svg))
    assert smallest * picture.shrunk * 72 / 96 >= 7
    assert picture.size_in[0] * picture.shrunk <= 7.5
    assert picture.size_in[1] * picture.shrunk <= 9.25


@pytest.mark.parametrize("columns", [1, 2])
@pytest.mark.parametrize("name", STANDARD)
def test_cables_that_share_a_channel_keep_apart(name, columns):
    assert_apart(ET.fromstring(hookup_diagram(standard(name), columns=columns)))


def test_a_drawing_in_one_column_is_narrow_enough_for_a_phone():
    root = ET.fromstring(hookup_diagram(standard("three-way-light-between"), columns=1))
    assert float(root.get("viewBox").split()[2]) < 330


@pytest.mark.parametrize("name", STANDARD)
def test_a_page_finds_every_conductor_end_by_its_point(name):
    hookup = standard(name)
    told = hookup_diagram(hookup, hooked=True)
    found = set(re.findall(r'data-(?:point|at)="([^"]+)"', told))
    ends = {point_key(e) for c in hookup.all_cables for color in c.colors for e in c.ends(color)}
    assert ends - found <= {point_key(p) for p in hookup.points() if p.box == "panel"}


@pytest.mark.parametrize("name", STANDARD)
def test_nothing_is_drawn_beyond_the_paper(name):
    root = drawn(standard(name))
    wide, high = (float(each) for each in root.get("viewBox").split()[2:])
    for path in root.iter(f"{SVG}path"):
        for x, y in re.findall(r"[ML]([\d.-]+) ([\d.-]+)", path.get("d")):
            assert 0 <= float(x) <= wide
            assert 0 <= float(y) <= high


def test_it_says_the_cautions_and_names_its_joins_for_a_screen_reader():
    root = drawn(standard("three-way-light-between"))
    told = " ".join(words(root))
    for caution in CAUTIONS:
        assert all(word in told for word in caution.split())
    assert "feed black + S1 common" in root.find(f"{SVG}desc").text


def test_any_circuit_is_drawn_the_same_twice():
    assert hookup_diagram(chain(4)) == hookup_diagram(chain(4))


def test_names_from_a_file_are_escaped():
    assert "<b>" not in hookup_diagram(replace(chain(2), name="<b>&"))


def test_the_tables_hold_every_join_and_every_position():
    hookup = standard("four-way-light-last")
    assert len(hookup_table(hookup).rows) == len(hookup.joins)
    assert len(position_table(try_hookup(hookup)).rows) == 8


@pytest.mark.parametrize(
    "name", ["three-way-light-between", "four-way-light-last", "half-switched-receptacle"]
)
def test_a_position_shows_an_arrow_on_every_conductor_that_carries_current_and_a_band_on_what_is_live(name):
    trial = try_hookup(standard(name))
    for row, tried in enumerate(trial.positions):
        root = ET.fromstring(hookup_diagram(trial.hookup, shown=shown_at(trial, tried.position)))
        carrying = int((abs(trial.solution.wire_a[row]) > 1e-3).sum())
        assert len(list(root.iter(f"{SVG}polygon"))) == carrying
        bands = [path for path in root.iter(f"{SVG}path") if path.get("stroke") == LIVE]
        assert bool(bands) == bool(tried.live)
        for seen in tried.loads:
            if " " not in seen.load:
                assert seen.look.upper() in words(root)


def test_with_the_breaker_open_nothing_is_shown_live():
    hookup = touching(standard("single-pole-feed-at-switch"), "S1 brass 2", "feed white")
    trial = try_hookup(hookup)
    root = ET.fromstring(hookup_diagram(hookup, shown=shown_at(trial, (1,))))
    assert not [path for path in root.iter(f"{SVG}path") if path.get("stroke") == LIVE]
    assert "the breaker opens" in " ".join(words(root))


@pytest.mark.parametrize("name", STANDARD)
def test_no_two_conductors_lie_on_each_other_between_the_boxes(name):
    assert_apart(drawn(standard(name)))


def assert_apart(root):
    taken: dict[tuple[str, float], list[tuple[float, float]]] = {}
    for group in root.iter(f"{SVG}g"):
        if group.get("data-kind") == "cable":
            for path in group.iter(f"{SVG}path"):
                if path.get("stroke") == "#ffffff":
                    continue
                points = [
                    (float(x), float(y)) for x, y in re.findall(r"[ML]([\d.-]+) ([\d.-]+)", path.get("d"))
                ]
                for (x1, y1), (x2, y2) in pairwise(points):
                    level, span = (("y", y1), sorted((x1, x2))) if y1 == y2 else (("x", x1), sorted((y1, y2)))
                    for low, high in taken.get(level, []):
                        assert span[1] <= low or span[0] >= high, (level, span, (low, high))
                    taken.setdefault(level, []).append(tuple(span))


def test_lengths_are_written_as_on_site():
    hookup = standard("three-way-light-between")
    first, *rest = hookup.cables
    uneven = replace(hookup, cables=(replace(first, length_ft=71 / 12), *rest))
    (told,) = [line for line in words(drawn(uneven)) if line.startswith("Cables: ")]
    assert f"{first.name} {first.kind}, 5'-11\"" in told
    assert not re.search(r"\d ft|\.\d{2,}", told)
