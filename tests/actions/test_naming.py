"""Naming a fault: every fault has a name, and no name tells how the house is joined."""

import pytest

from setday.actions.switching.hookups import example_names, example_text, open_hookup
from setday.actions.switching.hunts import hunt_ground
from setday.actions.switching.naming import Named, faults_meant, nameable, named_fault
from setday.errors import NoAnswer
from setday.switching import ChangeKind

HALL = open_hookup(example_text("three-way-light-between"), name="hall").sound()
RECEPTACLE = open_hookup(example_text("half-switched-receptacle"), name="half").sound()


@pytest.fixture(scope="module")
def ground():
    return hunt_ground(HALL)


def words_meant(ground, named):
    return {
        ground.changes[place].words for row in faults_meant(ground, named) for place in ground.causes[row]
    }


@pytest.mark.parametrize(
    ("kind", "first", "second", "words"),
    [
        ("burnt_lamp", "L1", "", "The lamp in L1 is burnt out, or not screwed in."),
        ("dead_switch", "S2", "", "Switch S2 is dead: it never closes."),
        ("broken", "N1 red", "", "The red of N1 is broken between 'near' and 'light'."),
        (
            "swapped_terminals", "near: S1 common", "near: S1 traveler 1",
            "Box 'near': what belongs on S1 common and on S1 traveler 1 is swapped.",
        ),
        (
            "swapped_ends", "light: N1 black", "light: N2 white",
            "Box 'light': N1 black and N2 white are swapped.",
        ),
        ("missing", "light: L1 brass", "", "Box 'light': L1 brass is not joined to N2 black."),
        (
            "moved", "light: N2 black", "light: L1 silver",
            "Box 'light': N2 black is joined to N1 white + L1 silver instead of L1 brass.",
        ),
        (
            "extra", "near: S1 traveler 2", "near: feed white",
            "Box 'near': feed white + N1 white touches N1 red + S1 traveler 2.",
        ),
    ],
)  # fmt: skip
def test_a_fault_is_known_by_its_kind_and_place(ground, kind, first, second, words):
    assert words in words_meant(ground, named_fault(HALL, kind=kind, first=first, second=second))


def test_two_points_can_be_named_in_either_order(ground):
    pair = ("near: S1 common", "near: S1 traveler 1")
    both = [Named(kind=ChangeKind.SWAPPED_TERMINALS, first=a, second=b) for a, b in (pair, pair[::-1])]
    assert faults_meant(ground, both[0]) == faults_meant(ground, both[1]) != ()


@pytest.mark.parametrize("name", example_names()[:8])
def test_every_fault_of_a_standard_circuit_has_a_name(name):
    hookup = open_hookup(example_text(name), name=name).sound()
    ground = hunt_ground(hookup)
    reached = set()
    for kind in ChangeKind:
        choices = nameable(hookup, kind)
        pairs = (
            [(a, b) for _, group in choices.groups for a in group for b in group if a != b]
            if choices.two
            else [(a, "") for a in choices.all]
        )
        for first, second in pairs:
            reached |= set(faults_meant(ground, Named(kind=kind, first=first, second=second)))
    assert reached == set(range(len(ground.variants)))


def test_what_can_be_named_does_not_tell_how_the_house_is_joined():
    bare = HALL.with_joins(())
    assert [nameable(HALL, kind) for kind in ChangeKind] == [nameable(bare, kind) for kind in ChangeKind]


def test_a_house_without_receptacles_has_no_tab_to_name():
    assert nameable(HALL, ChangeKind.TAB).groups == ()
    assert nameable(RECEPTACLE, ChangeKind.TAB).all == ("R1", "R2")


@pytest.mark.parametrize(
    ("kind", "first", "second", "said"),
    [
        ("gremlins", "L1", "", "no kind"),
        ("burnt_lamp", "L9", "", "not in this house"),
        ("moved", "light: L1 brass", "", "not in this house"),
        ("extra", "light: L1 brass", "light: L1 brass", "same"),
    ],
)
def test_what_is_not_there_cannot_be_named(kind, first, second, said):
    with pytest.raises(NoAnswer, match=said):
        named_fault(HALL, kind=kind, first=first, second=second)


def test_a_name_that_changes_nothing_means_no_fault(ground):
    joined = Named(kind=ChangeKind.EXTRA, first="near: feed white", second="near: N1 white")
    assert faults_meant(ground, joined) == ()
