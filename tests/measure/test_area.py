"""Areas from lengths."""

from hypothesis import given
from hypothesis import strategies as st

from setday.measure import Area, Length, parse_length

lengths = st.integers(1, 64 * 12 * 60).map(Length)


def test_square_inches_become_square_feet_by_144() -> None:
    # Ledger row A4: 576 in2 is 4 ft2, not 48.
    assert Area.rectangle(parse_length('24"'), parse_length('24"')).sqft == 4.0


def test_a_room_net_of_its_openings() -> None:
    # Ledger row A3: 12 x 14 x 8 ft, a 3-0 x 6-8 door, a 3 x 4 window.
    wide, deep, high = (parse_length(t) for t in ("12'", "14'", "8'"))
    walls = Area.rectangle(wide * 2 + deep * 2, high)
    door = Area.rectangle(parse_length("3'"), parse_length("6'-8\""))
    window = Area.rectangle(parse_length("3'"), parse_length("4'"))
    assert (walls.sqft, door.sqft, window.sqft) == (416.0, 20.0, 12.0)
    assert (walls - door - window).sqft == 384.0
    assert Area.rectangle(wide, deep).sqft == 168.0


@given(lengths, lengths)
def test_a_rectangle_measures_the_same_as_a_polygon(width: Length, height: Length) -> None:
    zero = Length(0)
    corners = ((zero, zero), (width, zero), (width, height), (zero, height))
    assert Area.polygon(corners) == Area.rectangle(width, height)
    assert Area.polygon(corners[::-1]) == Area.rectangle(width, height)
