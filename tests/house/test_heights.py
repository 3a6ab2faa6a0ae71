"""Walls that stop short of their ceiling are asked about, with what to write."""

from dataclasses import replace

import pytest

from setday.house import Axis, CeilingShape, HouseDescription, Side, TypedWall, build_house
from setday.measure import Length
from tests.house.sketches import at, ceiling, ft, shed, wall


def vaulted(*, end_peak: str = "", runs: Axis = Axis.EAST_WEST) -> HouseDescription:
    """The shed under a vault of 4 in per foot, its ridge east-west; 66.5 in from wall to ridge."""
    vault = ceiling(
        "shop",
        shape=CeilingShape.VAULT,
        rise=ft('4"'),
        ridge_runs=runs,
        ridge_at=ft("6'") if runs is Axis.EAST_WEST else ft("8'"),
    )
    ends = ("east", "west") if runs is Axis.EAST_WEST else ("south", "north")
    low = ft("8'-1 1/8\"")
    walls = tuple(
        replace(w, gable=((ft("0'"), low), (half(w), ft(end_peak)), (half(w) + half(w), low)))
        if end_peak and w.name in ends
        else w
        for w in shed().walls
    )
    return replace(shed(), walls=walls, ceilings=(vault,))


def half(each: TypedWall) -> Length:
    """Return half the length of a wall of the shed."""
    return ft("6'") if each.name in ("east", "west") else ft("8'")


def below(description: HouseDescription) -> dict[str, str]:
    """Return what is asked about walls below their ceiling, by wall."""
    findings = build_house(description).findings
    return {f.about: str(f) for f in findings if f.rule == "house.wall-below-ceiling"}


def test_a_gable_without_its_peak_is_asked_about() -> None:
    # 66.5 in of run at 4 in per foot: the ridge is 22.17 in above the walls, at 9'-11 3/8" (to the next 1/8).
    asked = below(vaulted())
    assert set(asked) == {"wall 'east'", "wall 'west'"}
    assert "by 1'-10 3/16\" at most, 6'-0\" from its start" in asked["wall 'west'"]
    assert "write for this wall: peak: 9'-11 3/8\" in the middle." in asked["wall 'west'"]


def test_a_peak_under_the_ridge_is_asked_about() -> None:
    asked = below(vaulted(end_peak="9'-6\""))
    assert set(asked) == {"wall 'east'", "wall 'west'"}
    assert "peak: 9'-11 3/8\" in the middle" in asked["wall 'east'"]


@pytest.mark.parametrize("runs", Axis)
def test_a_gable_whose_peak_is_written_as_advised_passes(runs: Axis) -> None:
    peak = {Axis.EAST_WEST: "9'-11 3/8\"", Axis.NORTH_SOUTH: "10'-7 3/8\""}[runs]
    assert below(vaulted(end_peak=peak, runs=runs)) == {}


def test_walls_under_a_slope_are_told_their_tops() -> None:
    slope = ceiling("shop", shape=CeilingShape.SLOPE, rise=ft('3"'), low_side=Side.SOUTH)
    asked = below(replace(shed(), ceilings=(slope,)))
    # 133 in of run at 3 in per foot: 33.25 in; carried on over 5.5 in of wall on both sides: 1.375 in.
    assert "height: 10'-10 3/8\"" in asked["wall 'north'"]
    assert "top: [7'-11 3/4\" at start, 10'-11 3/4\" at end]" in asked["wall 'east'"]
    assert "top: [10'-11 3/4\" at start, 7'-11 3/4\" at end]" in asked["wall 'west'"]
    assert "wall 'south'" not in asked


@pytest.mark.parametrize(
    "changes",
    [
        {"height": ft("3'-6\"")},
        {"height": ft("7'")},
        {"gable": ((ft("0'"), ft("8'")), (ft("3'"), ft("8'")))},
    ],
    ids=["half wall", "lower than the others", "level top written out"],
)
def test_a_low_wall_under_a_vault_is_not_asked_about(changes: dict[str, object]) -> None:
    free = wall("free", at("8'", '5.5"'), at("8'", "3'-5.5\""), kind="partition", **changes)
    description = vaulted(end_peak="9'-11 3/8\"")
    assert below(replace(description, walls=(*description.walls, free))) == {}
    plain = wall("free", at("8'", '5.5"'), at("8'", "3'-5.5\""), kind="partition")
    assert set(below(replace(description, walls=(*description.walls, plain)))) == {"wall 'free'"}
