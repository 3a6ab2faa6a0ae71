"""The members of a wall stand side by side."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from setday.house import MemberKind, Point
from setday.house.framing import frame_wall
from setday.house.openings import place_openings
from setday.house.placing import place_walls
from setday.measure import Length
from tests.house import sketches
from tests.house.sketches import at, ceiling, door, ft, house, ring, room, wall
from tests.house.test_build import built, stands
from tests.house.uprights import LYING, in_each_other


@settings(max_examples=60, deadline=None)
@given(
    across=st.integers(60 * 8, 220 * 8),
    more=st.integers(60 * 8, 220 * 8),
    doors=st.lists(st.integers(0, 250 * 8), min_size=1, max_size=3),
    jacks=st.integers(0, 3),
    depth=st.sampled_from(['1 1/2"', '3 1/2"', '5 1/2"']),
)
def test_no_two_uprights_of_a_wall_stand_in_each_other(
    across: int, more: int, doors: list[int], jacks: int, depth: str
) -> None:
    eighth = 8
    kind = replace(sketches.PARTITION, depth=ft(depth))
    inside = tuple(
        wall(
            name,
            Point(x=Length(x * eighth), y=ft(low)),
            Point(x=Length(x * eighth), y=ft(high)),
            kind="partition",
        )
        for name, x, low, high in (
            ("a", across, '5 1/2"', "11'-6 1/2\""),
            ("b", more, '5 1/2"', "11'-6 1/2\""),
        )
    )
    openings = tuple(
        door(f"d{n}", "south", str(Length(at_ * eighth)), "west", jacks=jacks) for n, at_ in enumerate(doors)
    )
    sketch = replace(
        house((*ring("24'", "12'"), *inside[: 1 if abs(across - more) < 64 else 2]), openings=openings),
        kinds=(sketches.OUTSIDE, kind),
    )
    placed, _ = place_walls(sketch)
    holes, _ = place_openings(sketch, placed)
    by_name = {w.name: w for w in placed}
    typed = {o.name: o for o in sketch.openings}
    for each in placed:
        members, _ = frame_wall(each, holes[each.name], typed, by_name)
        upright = [m for m in members if m.kind not in LYING | {MemberKind.CRIPPLE}]
        clashes = [
            (a, b)
            for n, a in enumerate(upright)
            for b in upright[n + 1 :]
            if a.left < b.right and b.left < a.right
        ]
        assert clashes == []


def test_a_king_backs_the_partition_it_stands_at() -> None:
    # The partition's west face is at 166 in; its backer would stand from 165 to 166.5, in the king.
    walls = (
        *ring("24'", "12'"),
        wall("across", at("14'", '5.5"'), at("14'", "11'-6 1/2\""), kind="partition"),
    )
    king = door("d", "south", str(ft('164 1/2"') - ft('38"') - ft('1 1/2"')), "west")
    built_ = built(
        house(
            walls,
            openings=(king, door("e", "across", "3'", "south")),
            rooms=(room("a", "6'", "6'"), room("b", "20'", "6'")),
            ceilings=(ceiling("a"), ceiling("b")),
        )
    )
    assert max(stands(built_, "south", MemberKind.KING)) == 165.25
    assert stands(built_, "south", MemberKind.PARTITION) == [170.0]
    assert in_each_other(built_) == []
