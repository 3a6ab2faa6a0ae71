"""Figures for the tests of learning, written by hand, and the demo house's own."""

import time
from functools import cache

from setday.actions.cable.figured import figure_cable
from setday.actions.houses import demo_text, open_house
from setday.boards import board_rules
from setday.cable import cable_rules
from setday.learning import Figure, figure_of, figures_of
from setday.learning.building import added, feet_area, inch_area, measure, per_piece, summed, times
from setday.learning.tree import Line, Number, Of, Over, Part, Product, Role, Sum, Up
from setday.measure import parse_length

SHEET = Number(value=32, words="4' x 8'")
BOTH = Part(node=Number(value=2), role=Role.FACES, about="both sides")


def tape(key, text):
    return measure(key, key, parse_length(text))


def figure(*lines, swaps=()):
    return Figure(key="test", kind="test", title="Test", ask="How much?", lines=lines, swaps=swaps)


def wall_sheets():
    area = feet_area("area", "wall area", "long", "high")
    return figure(
        tape("long", "135'"),
        tape("high", "8'"),
        area,
        per_piece("sheets", "sheets", area, SHEET, unit="sheets"),
    )


def both_sides():
    area = feet_area("one", "one side", "long", "high")
    return figure(tape("long", "149'"), tape("high", "8'"), area, times("both", "both sides", area, [BOTH]))


def room():
    """Return walls of 12 by 14 by 8 feet with a door 3-0 x 6-8 and a window 3 x 4, openings in inches."""
    lines = [tape("long", "14'"), tape("short", "12'"), tape("high", "8'")]
    walls = [
        feet_area(name, f"{name} wall, area", across, "high")
        for name, across in (("north", "long"), ("east", "short"), ("south", "long"), ("west", "short"))
    ]
    door = [tape("door w", "3'-0\""), tape("door h", "6'-8\""), inch_area("door", "door", "door w", "door h")]
    window = [tape("win w", "3'"), tape("win h", "4'"), inch_area("window", "window", "win w", "win h")]
    off = [added(each[-1], Role.OPENING, sign=-1) for each in (door, window)]
    net = summed("net", "walls, net", [*(added(wall) for wall in walls), *off])
    return figure(*lines, *walls, *door, *window, net)


def vent():
    """Return 24 in by 24 in turned into square feet."""
    return figure(tape("w", '24"'), tape("h", '24"'), inch_area("area", "area", "w", "h"))


def studs():
    spaces = Up(node=Over(top=Of(line="length"), bottom=Number(value=16)))
    parts = (Part(node=spaces), Part(node=Number(value=1), role=Role.END, about="the one at the end"))
    count = Line(key="studs", label="studs", node=Sum(parts=parts), unit="studs", decimals=0)
    return figure(tape("length", "14'-6\""), count)


def faces():
    """Return the room perimeters of a 24 x 40 ft shell with one partition, times 8 ft (A8)."""
    inside = 24 - 11 / 12
    rooms = 40 - 11 / 12 - 4.5 / 12
    across, along = tape("across", "23'-1\""), tape("along", "38'-8 1/2\"")
    assert abs(across.node.value / 12 - inside) + abs(along.node.value / 12 - rooms) < 1e-9
    parts = [
        added(line, feet=True, about=name)
        for name, line in (
            ("north face", along), ("south face", along), ("west face", across), ("east face", across),
            ("partition, west side", across), ("partition, east side", across),
        )
    ]  # fmt: skip
    run = summed("run", "room perimeters", parts, unit="ft")
    height = Part(node=Of(line="high", feet=True))
    area = Line(key="area", label="area", node=Product(parts=(Part(node=Of(line="run")), height)), unit="ft2")
    return figure(across, along, run, tape("high", "8'"), area)


@cache
def demo():
    """Return the demo house wired, its cable and its figures."""
    opened = open_house(demo_text("wired"), name="wired.yaml")
    cable = figure_cable(opened, clock=time.monotonic).figure
    rules = {"board_rules": board_rules(opened.local), "cable_rules": cable_rules(opened.local)}
    return cable.house, cable, figures_of(cable.house, cable=cable, **rules)


def demo_figure(key):
    return figure_of(demo()[2], key)
