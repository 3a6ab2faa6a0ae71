"""The optimiser on cases small enough to argue by hand or to try out completely."""

import pytest

from setday.boards import Limits, OffcutUse, Rows, Status, SurfaceKind, verify, verify_outcome
from setday.boards.layout import greedy, solve
from setday.boards.outcome import Outcome, Progress
from setday.boards.problem import BoardProblem
from setday.findings import Severity
from tests.boards.layout.cases import INCH, Ticks, board, cheapest_by_trying_all, problem, wall

EIGHT, TEN, TWELVE, SIXTEEN = (
    board(48, ft, cents) for ft, cents in ((8, 1180), (10, 1465), (12, 1725), (16, 2310))
)
WIDE = tuple(board(54, ft, cents) for ft, cents in ((8, 1395), (12, 2025), (16, 2695)))
ALL = (EIGHT, TEN, TWELVE, SIXTEEN, *WIDE)


def run(given: BoardProblem, *, seconds: float = 1.0, seed: int = 1) -> Outcome:
    return solve(given, limits=Limits(seconds=seconds, clock=Ticks(0.015), seed=seed, workers=1))


# ---------------------------------------------------------------- argued by hand

BY_HAND = [
    # 96 x 96: two rows of 48, each one 8 ft board; the area is that of two boards, so nothing is cheaper.
    pytest.param(problem(wall("w", 96, 96), boards=(EIGHT,)), 2360, id="two whole boards"),
    # 144 x 96: two 12 ft boards, 3450, waste nothing, and 12 ft costs least per foot of all lengths.
    pytest.param(problem(wall("w", 144, 96), boards=ALL), 3450, id="two boards of the best rate"),
    # Two closets 48 long and 48 high: one 8 ft board gives both when off-cuts travel.
    pytest.param(
        problem(wall("a", 48, 48), wall("b", 48, 48, room="other"), boards=(EIGHT,)),
        1180,
        id="off-cut used next door",
    ),
    # The same with off-cuts kept in the room: a board for each.
    pytest.param(
        problem(wall("a", 48, 48), wall("b", 48, 48, room="other"), boards=(EIGHT,), offcuts=OffcutUse.ROOM),
        2360,
        id="off-cut kept in the room",
    ),
    # Four soffits 10 in high and 96 long: four lanes of one board.
    pytest.param(
        problem(*(wall(f"s{i}", 96, 10) for i in range(4)), boards=(EIGHT,)),
        1180,
        id="four lanes of one board",
    ),
    # A wall 10 ft long of one row and only 8 ft boards: its area is more than one board's.
    pytest.param(problem(wall("w", 120, 48), boards=(EIGHT,)), 2360, id="a joint and two boards"),
    # Ceiling 96 x 60: one 12 ft board gives the row of 48 and, ripped, two pieces 12 x 48 with a factory
    # edge each; of the cheaper boards none has the area of the ceiling.
    pytest.param(
        problem(wall("c", 96, 60, surface=SurfaceKind.CEILING), boards=ALL, least_row=8),
        1725,
        id="a ripped row",
    ),
    # The same with 8 ft boards only: one has too little area.
    pytest.param(
        problem(wall("c", 96, 60, surface=SurfaceKind.CEILING), boards=(EIGHT,), least_row=8),
        2360,
        id="two of 8 ft",
    ),
    # Two kinds never mix: a board for each.
    pytest.param(
        problem(
            wall("a", 48, 48), wall("b", 48, 48, kind="wet"), boards=(EIGHT, board(48, 8, 1500, kind="wet"))
        ),
        2680,
        id="kinds never mix",
    ),
]


@pytest.mark.parametrize(("given", "cents"), BY_HAND)
def test_the_least_money_that_can_be_argued_by_hand_is_found_and_proven(given, cents):
    outcome = run(given)
    assert outcome.cost_cents == cents
    assert outcome.status is Status.OPTIMAL
    assert outcome.bound.cost_cents == pytest.approx(cents, abs=1)
    assert verify_outcome(given, outcome) == ()


# ---------------------------------------------------------------- tried out completely

TRIED = [
    pytest.param((wall("a", 150, 48), wall("b", 75, 48)), (EIGHT, TWELVE), 16, id="one row each"),
    pytest.param((wall("a", 130, 96),), (EIGHT, TEN), 12, id="two rows staggered"),
    pytest.param(
        (wall("a", 70, 48), wall("b", 53, 48), wall("c", 45, 48)), (EIGHT, TWELVE, SIXTEEN), 16, id="three"
    ),
    pytest.param((wall("a", 200, 48), wall("b", 60, 48)), (TEN, SIXTEEN), 24, id="longer than a board"),
    pytest.param((wall("a", 117, 96, spacing=24),), (EIGHT, TWELVE), 20, id="studs at 24"),
]


@pytest.mark.parametrize(("walls", "boards", "least"), TRIED)
def test_no_layout_costs_less_than_trying_everything_and_the_bound_holds(walls, boards, least):
    given = problem(*walls, boards=boards, least_piece=least)
    best = cheapest_by_trying_all(given)
    outcome = run(given)
    assert outcome.bound.cost_cents <= best + 1e-6
    assert outcome.cost_cents == best
    assert verify_outcome(given, outcome) == ()


# ---------------------------------------------------------------- every kind of surface

GABLE = ((0, 0), (168, 0), (168, 60), (84, 102), (0, 60))
SHAPES = [
    pytest.param(wall("gable", 168, 102, outline=GABLE), id="gable"),
    pytest.param(wall("triangle", 120, 60, outline=((0, 0), (120, 0), (60, 60))), id="triangle"),
    pytest.param(
        wall(
            "ell", 192, 144,
            outline=((0, 0), (192, 0), (192, 100), (100, 100), (100, 144), (0, 144)),
            surface=SurfaceKind.CEILING,
        ),
        id="L-shaped ceiling",
    ),
    pytest.param(wall("door", 150, 96, voids=((40, 0, 34, 82), (90, 36, 40, 46))), id="door and window"),
    pytest.param(wall("through", 300, 96, voids=((60, 0, 30, 96), (200, 40, 60, 60))), id="void over rows"),
    pytest.param(wall("strip", 300, 96, voids=((60, 56, 180, 24),)), id="strip window within a row"),
    pytest.param(wall("corner", 120, 96, voids=((-6, -4, 40, 60),)), id="void leaving through the corner"),
    pytest.param(wall("upright", 150, 96, rows=(Rows.ACROSS,), voids=((40, 0, 34, 82),)), id="rows across"),
    pytest.param(wall("tall", 100, 220, rows=(Rows.ACROSS,)), id="rows across, higher than any board"),
    pytest.param(wall("either", 150, 96, rows=(Rows.ALONG, Rows.ACROSS)), id="either direction"),
    pytest.param(wall("tiny", 9, 7), id="smaller than the least piece and row"),
    pytest.param(wall("sixteenths", 100.0625, 95.9375, studs=(16.0625, 31.9375, 63.5)), id="odd sixteenths"),
]  # fmt: skip


@pytest.mark.parametrize("surface", SHAPES)
def test_every_kind_of_surface_is_laid_out_without_a_fault(surface):
    given = problem(surface, boards=ALL, clear=4, least_piece=12, least_row=8)
    outcome = run(given, seconds=0.3)
    assert outcome.layout is not None
    assert outcome.layout.relaxed == ()
    assert verify_outcome(given, outcome) == ()


def test_a_second_layer_keeps_its_joints_off_those_below():
    given = problem(
        wall("under", 260, 96), wall("upper", 260, 96, over="under"), boards=(EIGHT, TWELVE), least_piece=16
    )
    assert verify_outcome(given, run(given, seconds=0.3)) == ()


def test_a_second_layer_of_another_kind_keeps_its_joints_off_those_below():
    given = problem(
        wall("under", 260, 96),
        wall("upper", 260, 96, over="under", kind="x"),
        boards=(EIGHT, TWELVE, board(48, 12, 1800, kind="x")),
        least_piece=16,
    )
    assert verify_outcome(given, run(given, seconds=0.3)) == ()


def test_the_loss_of_a_cut_is_kept_between_pieces():
    given = problem(wall("a", 130, 96), wall("b", 90, 30), boards=ALL, least_piece=16, trim=8)
    assert verify_outcome(given, run(given, seconds=0.3)) == ()


def test_no_piece_is_longer_than_can_be_carried_in():
    given = problem(wall("a", 150, 48, longest=100), boards=ALL, least_piece=16)
    outcome = run(given, seconds=0.3)
    assert max(p.w for p in outcome.layout.pieces) <= 100 * INCH


@pytest.mark.parametrize("use", list(OffcutUse))
def test_off_cuts_travel_no_farther_than_allowed(use):
    given = problem(
        wall("a", 130, 96),
        wall("b", 150, 96),
        wall("c", 50, 96, room="other"),
        boards=ALL,
        least_piece=16,
        offcuts=use,
    )
    assert verify_outcome(given, run(given, seconds=0.3)) == ()


# ---------------------------------------------------------------- rules that give way, and no answer

GIVING = [
    # Studs at 100 only: nothing else can carry a joint of a wall 33 ft long.
    pytest.param(
        problem(wall("w", 400, 96, studs=(100,)), boards=ALL, least_piece=16), "member", id="member"
    ),
    # Studs at 60 and 68 of 128 and 8 ft boards: both rows must break, 8 in apart at most.
    pytest.param(problem(wall("w", 128, 96, studs=(60, 68)), boards=(EIGHT,)), "stagger", id="stagger"),
    # One stud at 90 of 101: the end piece is 11 while 24 is asked; 8 ft boards must break once.
    pytest.param(
        problem(wall("w", 101, 48, studs=(90,)), boards=(EIGHT,), least_piece=24),
        "pieces shorter",
        id="least piece",
    ),
    # The only stud stands 2 in from the door.
    pytest.param(
        problem(wall("w", 120, 48, studs=(60,), voids=((62, 0, 20, 40),)), boards=(EIGHT,), clear=4),
        "opening",
        id="opening",
    ),
]


@pytest.mark.parametrize(("given", "word"), GIVING)
def test_the_rule_that_gives_way_is_named_with_its_surface(given, word):
    outcome = run(given, seconds=0.3)
    (sentence,) = outcome.layout.relaxed
    assert sentence.startswith("room, w: ")
    assert word in sentence
    assert ";" not in sentence.split("put blocking")[0]
    assert {f.severity for f in verify(given, outcome.layout)} <= {Severity.ASK}


@pytest.mark.parametrize(
    ("given", "word"),
    [
        (problem(wall("w", 96, 96, kind="wet"), boards=ALL), "no board of the kind wet"),
        (problem(wall("w", 96, 96, longest=0), boards=ALL), "no board can be carried"),
    ],
)
def test_no_answer_says_why(given, word):
    outcome = run(given, seconds=0.3)
    assert outcome.status is Status.NONE
    assert outcome.layout is None
    assert word in outcome.why_none[0]


def test_every_surface_without_an_answer_is_named_at_once():
    given = problem(wall("a", 96, 96, kind="wet"), wall("b", 96, 96, kind="fire"), boards=ALL)
    assert len(run(given, seconds=0.3).why_none) == 2


# ---------------------------------------------------------------- how a run behaves

HOUSE = problem(
    wall("north", 170, 96, voids=((40, 0, 34, 82),)),
    wall("east", 131, 96, voids=((50, 36, 36, 46),)),
    wall("ceiling", 170, 131, surface=SurfaceKind.CEILING, spacing=24),
    boards=ALL,
    clear=4,
    least_piece=16,
    least_row=8,
)


def test_the_same_seed_gives_the_same_layout():
    first, second = run(HOUSE, seconds=0.5), run(HOUSE, seconds=0.5)
    assert first.layout == second.layout
    assert first.bound == second.bound


def test_progress_tells_a_layout_first_and_then_no_worse_ones():
    told: list[Progress] = []
    solve(
        HOUSE,
        limits=Limits(seconds=1.0, clock=Ticks(0.05), workers=1),
        on_progress=lambda p: told.append(p) or True,
    )
    assert told[0].layout is not None
    costs = [p.cost_cents for p in told]
    assert costs == sorted(costs, reverse=True)
    assert all(p.bound_cents <= p.cost_cents for p in told)
    assert all(verify(HOUSE, p.layout) == () for p in told if p.layout is not None)


def test_saying_no_stops_and_keeps_the_best():
    outcome = solve(
        HOUSE, limits=Limits(seconds=1e9, clock=Ticks(0.05), workers=1), on_progress=lambda _: False
    )
    assert outcome.status in {Status.STOPPED, Status.OPTIMAL}
    assert verify_outcome(HOUSE, outcome) == ()


def test_two_workers_agree_with_the_verifier():
    outcome = solve(HOUSE, limits=Limits(seconds=0.5, clock=Ticks(0.01), workers=2))
    assert verify_outcome(HOUSE, outcome) == ()


def test_the_greedy_keeps_every_rule_and_is_not_cheaper_than_the_bound():
    layout = greedy(HOUSE)
    assert verify(HOUSE, layout) == ()
    prices = {b.key: b.price_cents for b in ALL}
    assert sum(prices[b.key] for b in layout.boards) >= run(HOUSE, seconds=0.5).bound.cost_cents


def test_the_greedy_carries_nothing_to_another_surface():
    layout = greedy(HOUSE)
    homes: dict[int, set[str]] = {}
    for p in layout.pieces:
        homes.setdefault(p.board, set()).add(p.surface)
    assert all(len(h) == 1 for h in homes.values())


def test_a_surface_no_board_covers_leaves_the_greedy_without_an_answer():
    assert greedy(problem(wall("w", 96, 96, kind="wet"), boards=ALL)) is None
