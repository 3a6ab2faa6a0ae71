"""The room's side of a hookup: handles, lamps and covers as they are, and nothing of how it is joined."""

import re
from xml.etree import ElementTree as ET

import pytest

from setday.drawing import LETTER, PHONE, house_front
from setday.switching import Look, Seen, try_hookup
from tests.switching.circuits import STANDARD, standard

SVG = "{http://www.w3.org/2000/svg}"
HALL = standard("three-way-light-between")


def words(svg):
    return ["".join(text.itertext()) for text in ET.fromstring(svg).iter(f"{SVG}text")]


def handles_down(hookup):
    return (0,) * len(hookup.switches)


@pytest.mark.parametrize("name", STANDARD)
@pytest.mark.parametrize("paper", [LETTER, PHONE], ids=["letter", "phone"])
def test_every_box_switch_and_lamp_stands_in_it_and_it_fits(name, paper):
    hookup = standard(name)
    svg = house_front(hookup, position=handles_down(hookup), paper=paper)
    said = " ".join(words(svg))
    for part in (*hookup.boxes, *hookup.switches):
        assert part.name in said
    assert all(load in said for load in hookup.loads)
    width = float(re.search(r'viewBox="0 0 ([\d.]+)', svg)[1])
    assert width <= paper.width


@pytest.mark.parametrize("name", STANDARD)
def test_it_does_not_tell_how_the_house_is_joined(name):
    hookup = standard(name)
    bare = hookup.with_joins(())
    position = handles_down(hookup)
    assert house_front(hookup, position=position) == house_front(bare, position=position)


@pytest.mark.parametrize(("position", "said"), [((0, 0), "DOWN"), ((1, 1), "UP")])
def test_handles_are_drawn_as_they_stand(position, said):
    assert words(house_front(HALL, position=position)).count(said) == 2


@pytest.mark.parametrize("look", list(Look))
def test_a_lamp_is_drawn_and_said_as_it_was_seen(look):
    seen = Seen(position=(0, 0), looks=(("L1", look),))
    drawn = {each: house_front(HALL, position=(0, 0), seen=seen) for each in [look]}
    assert look.upper() in words(drawn[look])
    assert f"L1 {look}" in drawn[look]


def test_full_dim_off_and_not_looked_at_are_four_pictures():
    pictures = [house_front(HALL, position=(0, 0))]
    pictures += [
        house_front(HALL, position=(0, 0), seen=Seen(position=(0, 0), looks=(("L1", x),))) for x in Look
    ]
    plain = [re.sub(r"<text.*?</text>|<desc.*?</desc>", "", each) for each in pictures]
    assert len(set(plain)) == 4


def test_the_breaker_is_off_until_somebody_looks_and_says_when_it_opened():
    assert "breaker locked off" in words(house_front(HALL, position=(0, 0)))
    opened = house_front(HALL, position=(0, 0), seen=Seen(position=(0, 0), breaker_opens=True))
    assert "breaker opened" in words(opened)


def test_an_open_box_is_said_to_be_open():
    assert words(house_front(HALL, position=(0, 0), opened=("near",))).count("cover off") == 1


def test_what_the_trial_shows_is_what_is_drawn():
    for tried in try_hookup(HALL).positions:
        seen = Seen(position=tried.position, looks=tuple((load.load, load.look) for load in tried.loads))
        said = words(house_front(HALL, position=tried.position, seen=seen))
        assert [load.look.upper() for load in tried.loads] == [w for w in said if w.lower() in set(Look)]


def test_its_words_can_be_said_in_another_language():
    said = words(house_front(HALL, position=(0, 0), say=lambda word: f"<{word}>"))
    assert "<DOWN>" in said
    assert "<breaker locked off>" in said
