"""How walls are framed where nothing is written: rules, which the local authority may set otherwise."""

import pytest

from setday.actions import demo_text, open_house
from setday.errors import RuleError
from setday.house import House, MemberKind, house_rules
from setday.measure import Length
from setday.rules import LocalRules


def house_with(**rules: str) -> House:
    """Return the practice shed under local rules."""
    local = "\nlocal rules:\n" + "".join(f"  house.{key}: {value}\n" for key, value in rules.items())
    return open_house(demo_text("shed") + (local if rules else ""), name="shed.yaml").built()


def headers(house: House) -> set[Length]:
    """Return the depths of the headers of a house."""
    members = [member for wall in house.walls for member in wall.members]
    return {m.top_left - m.bottom for m in members if m.kind is MemberKind.HEADER}


def test_a_header_is_as_deep_as_the_local_rule_says_where_none_is_written():
    assert headers(house_with()) == {Length.of(inches=9.25)}
    assert headers(house_with(header_bearing="5 1/2 in")) == {Length.of(inches=5.5)}


def test_a_local_rule_says_who_set_it():
    book = house_rules(
        LocalRules(values={"house.backing_shown": '3/4"'}, reasons={"house.backing_shown": "Ana"})
    )
    rule = book["house.backing_shown"]
    assert (rule.overridden, rule.source.note) == (True, "Ana")


@pytest.mark.parametrize(
    ("key", "value"),
    [("house.header_bearing", "30 ft"), ("house.header_bearing", "deep"), ("house.no_such_rule", '1"')],
)
def test_a_rule_that_cannot_be_is_refused(key, value):
    with pytest.raises(RuleError, match=key):
        house_rules(LocalRules(values={key: value}))


def test_rules_of_other_trades_are_passed_over():
    assert house_rules(LocalRules(values={"boards.stagger": '32"'})) == house_rules()


@pytest.mark.parametrize("line", ["house.header_bearing: deep", "house.header_baering: 7 1/4 in"])
def test_a_wrong_rule_in_the_house_file_is_found_with_its_line(line):
    text = demo_text("shed") + f"\nlocal rules:\n  {line}\n"
    opened = open_house(text, name="shed.yaml")
    assert [f.where.line for f in opened.problems] == [text.count("\n")]
    assert "house.header_bearing" in str(opened.problems[0])


def test_backing_shows_as_far_as_the_local_rule_says():
    text = demo_text("house")
    usual = open_house(text, name="h.yaml").built()
    changed = text.replace("\nlocal rules:\n", "\nlocal rules:\n  house.backing_shown: 1/2 in\n")
    less = open_house(changed, name="h.yaml").built()
    moved = [
        (a.center - b.center).inches
        for one, other in zip(usual.walls, less.walls, strict=True)
        for a, b in zip(
            [m for m in one.members if m.kind is MemberKind.PARTITION],
            [m for m in other.members if m.kind is MemberKind.PARTITION],
            strict=False,
        )
    ]
    assert 0.5 in {abs(by) for by in moved}


def test_the_size_of_boxes_is_a_rule_of_the_house():
    assert house_with().boxes.wide(2) == 2.25 + 1.8125
    assert house_with(box_width="2 1/2 in", box_height="4 in").boxes.tall == 4.0
    assert house_with(box_width="2 1/2 in").boxes.wide() == 2.5
