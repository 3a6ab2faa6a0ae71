"""The cut list in words, by room, day and crew."""

from dataclasses import replace

import pytest

from setday.boards import BoardChoices, HangDay, LaidOut, share_among_crews, work_items
from setday.boards.cutlist import cut_list
from tests.boards.laid_by_hand import LAYOUT, PROBLEM
from tests.boards.solving import figured
from tests.house.sketches import two_rooms

LISTED = cut_list(LaidOut(problem=PROBLEM, layout=LAYOUT))


@pytest.mark.parametrize(
    ("number", "sentence"),
    [
        (
            1,
            (
                "board 1, 4 x 8 ft: 1a, 4'-0\" x 1'-0\", to row 2 of 2, closet, ceiling; "
                "from the rest 1b, 4'-0\" x 4'-0\", to row 1 of 2, closet, ceiling"
            ),
        ),
        (
            2,
            (
                "board 2, 4 x 12 ft: 12'-0\" x 4'-0\", to upper row, bedroom, north "
                "(W1 cut out 1'-0\" from the left, 3'-4\" wide, 2'-8\" high from the lower edge)"
            ),
        ),
        (
            3,
            (
                "board 3, 4 x 8 ft: 3a, 4'-0\" x 4'-0\", to upper row, bedroom, north; "
                "from the rest 3b, 4'-0\" x 4'-0\", to lower row, bedroom, north"
            ),
        ),
        (
            6,
            "board 6, 4 x 8 ft: 6'-8\" x 4'-0\", to upper row, bedroom, north:2; 1'-4\" left over",
        ),
        (
            9,
            (
                "board 9, 4 x 10 ft: 9'-2\" x 4'-0\", "
                'to upright board 1 of 2 from the left, hall, east; 10" left over'
            ),
        ),
        (
            11,
            (
                "board 11, 4 x 8 ft: 11a, 4'-0\" x 3'-4\", to loft, gable "
                "(slope from 2'-0\" up to 3'-4\" over 4'-0\"); "
                "from the rest 11b, 4'-0\" x 3'-4\", to loft, gable "
                "(slope from 3'-4\" down to 2'-0\" over 4'-0\")"
            ),
        ),
        (
            12,
            (
                "board 12, 4 x 8 ft: 12a, 3'-4\" x 4'-0\", to bath, south; "
                "from the rest 12b, 1'-8\" x 4'-0\", to bath, south; 3'-0\" left over"
            ),
        ),
    ],
)
def test_a_board_is_called_out_in_one_sentence(number, sentence):
    assert LISTED.boards[number - 1].sentence == sentence


def test_every_piece_is_on_the_list_once():
    pieces = [cut.piece for board in LISTED.boards for cut in board.cuts]
    assert sorted(pieces) == list(range(len(LAYOUT.pieces)))


def test_the_list_of_a_room_holds_every_board_that_serves_it():
    assert [board.number for board in LISTED.for_room("bedroom")] == [2, 3, 4, 5, 6, 7, 8]
    assert LISTED.rooms == ("closet", "bedroom", "hall", "loft", "bath")


def test_the_list_of_a_day_holds_every_board_that_serves_it():
    later = replace(PROBLEM, surfaces=tuple(replace(s, day=1 + (s.room == "bath")) for s in PROBLEM.surfaces))
    listed = cut_list(LaidOut(problem=later, layout=LAYOUT))
    assert listed.days == (1, 2)
    assert [board.number for board in listed.for_day(2)] == [12]


@pytest.mark.parametrize("crews", [1, 2, 3, 9])
def test_crews_share_the_rooms_and_every_board_once(crews):
    shares = share_among_crews(LISTED, crews=crews)
    rooms = [room for share in shares for room in share.rooms]
    boards = [board.number for share in shares for board in share.boards]
    assert sorted(rooms) == sorted(LISTED.rooms)
    assert sorted(boards) == [board.number for board in LISTED.boards]
    assert len(shares) == min(crews, len(LISTED.rooms))


def test_there_is_no_sharing_among_no_crews():
    with pytest.raises(ValueError, match="at least one crew"):
        share_among_crews(LISTED, crews=0)


def test_the_class_factor_multiplies_the_hours():
    trained = figured(two_rooms())
    novices = figured(two_rooms(), choices=BoardChoices(class_factor=3.0))
    for plain, slow in zip(work_items(trained), work_items(novices), strict=True):
        trained_hours = plain.quantity * 33 / 1000  # the rate printed in NAVEDTRA 14045, chapter 2
        assert plain.student_hours == pytest.approx(trained_hours, abs=0.051)
        assert slow.student_hours == pytest.approx(3 * trained_hours, abs=0.06)


def test_hours_of_the_rooms_add_up_as_they_are_shown():
    work = work_items(figured(two_rooms(), choices=BoardChoices(class_factor=3.0)))
    shown = sum(float(item.working.result.removesuffix(" h")) for item in work)
    assert shown == pytest.approx(sum(item.student_hours for item in work))


def test_work_is_by_room_ceilings_before_walls():
    of = figured(two_rooms(), choices=BoardChoices(days=(HangDay(rooms=("small",)), HangDay(rooms=("big",)))))
    work = {item.key: item for item in work_items(of)}
    assert list(work) == [
        "boards/hang/small/ceilings", "boards/hang/small/walls",
        "boards/hang/big/ceilings", "boards/hang/big/walls",
    ]  # fmt: skip
    assert work["boards/hang/big/walls"].after == ("boards/hang/big/ceilings",)
    total = sum(item.quantity for item in work.values())
    assert total == pytest.approx(of.hardware.area_sqft)
