"""A cabin typed in short form by somebody who had only the docs: vault, closets, wet walls.

Areas by hand, between framing faces: the cabin is 30 by 24 ft outside, its outside walls 5-1/2 in deep and
its partitions 3-1/2 in, so it is 277 in from the south to the north wall inside and 349 in across.
"""

from pathlib import Path

import pytest

from setday.actions import open_house

CABIN = open_house((Path(__file__).parent / "cabin.yaml").read_bytes(), name="cabin.yaml")
EAST = 349 - 168 - 3.5
"""From the living wall to the east wall [in]."""
BEYOND_HALL = 277 - 14 * 12 - 6 - 3.5
"""From the hall's north wall to the north wall [in]."""


def test_it_reads_and_builds_clean():
    assert CABIN.findings == ()
    assert CABIN.house is not None


@pytest.mark.parametrize(
    ("room", "square_inches"),
    [
        ("living", 168 * 277),
        ("hall", EAST * (174 - 132 - 3.5)),
        ("bath", 60 * BEYOND_HALL),
        ("bedroom 2", (EAST - 60 - 3.5) * BEYOND_HALL),
        ("closet", 72 * 26),
        ("bedroom 1", EAST * 132 - (72 + 3.5) * (26 + 3.5)),
    ],
)
def test_a_room_is_as_large_as_worked_out_by_hand(room, square_inches):
    assert CABIN.house.room(room).area.sqft == pytest.approx(square_inches / 144, abs=0.01)
