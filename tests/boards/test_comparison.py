"""The count by area beside the layout."""

from setday.boards import BoardChoices, LaidOut, board_rules, count_by_area, totals
from setday.boards.comparison import side_by_side
from setday.house import build_house
from tests.boards.laid_by_hand import LAYOUT, PROBLEM
from tests.house.sketches import two_rooms


def test_counts_are_told_with_the_area_bought():
    """The layout by hand buys five boards of 8 ft, two of 10 ft, four of 12 ft and a wet one of 8 ft."""
    house = build_house(two_rooms()).house
    count = count_by_area(house, choices=BoardChoices(), rules=board_rules())
    laid = LaidOut(problem=PROBLEM, layout=LAYOUT)
    compared = side_by_side(count, laid, totals(PROBLEM, LAYOUT))
    square_feet = 6 * 32 + 2 * 40 + 4 * 48
    assert compared.counts == (
        f"By area: {count.sheets} sheets of 4 x 8 ft, {count.sheets * 32:,} ft2; "
        f"by layout: 12 boards, {square_feet} ft2."
    )
