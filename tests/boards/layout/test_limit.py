"""The time limit is kept and progress is told, also while there is no layout and while a step runs."""

from setday.boards.layout import solve
from setday.boards.layout.bound import Bounder
from setday.boards.layout.groups import network_of, stages, surfaces_hung
from setday.boards.outcome import Limits, Progress, Status
from tests.boards.layout.cases import Ticks, board, problem, wall

BOARDS = (board(48, 8, 1180), board(48, 12, 1725))
HOUSE = problem(*(wall(f"w{n}", 150.25 + 3.5 * n, 96) for n in range(6)), boards=BOARDS, least_piece=16)


def bounder():
    group = stages(HOUSE)[0][0]
    return Bounder(network_of(surfaces_hung(group, HOUSE, {})[0]), group.boards, 0)


def test_progress_is_told_before_there_is_a_layout():
    told: list[Progress] = []
    limits = Limits(seconds=9.0, clock=Ticks(0.3), workers=1)
    solve(HOUSE, limits=limits, on_progress=lambda p: told.append(p) or True)
    assert told[0].cost_cents is None
    assert told[0].layout is None
    assert next(p for p in told if p.cost_cents is not None).layout is not None


def test_stopped_before_there_is_a_layout_it_still_hands_out_one():
    outcome = solve(
        HOUSE, limits=Limits(seconds=1e9, clock=Ticks(0.3), workers=1), on_progress=lambda _: False
    )
    assert outcome.status is Status.STOPPED
    assert outcome.layout is not None


def test_progress_is_told_while_the_bound_is_proven_in_turns():
    told: list[Progress] = []
    limits = Limits(seconds=20.0, clock=Ticks(0.1), workers=1)
    solve(HOUSE, limits=limits, on_progress=lambda p: told.append(p) or True)
    assert "proving" in {p.stage for p in told}


def test_a_halted_step_keeps_what_was_proven_and_the_next_goes_on():
    halted, whole = bounder(), bounder()
    while not whole.done:
        whole.step(10.0)
    first = halted.lower
    halted.step(10.0, halt=lambda: True)
    assert first <= halted.lower <= whole.lower + 1e-6
    while not halted.done:
        halted.step(10.0)
    assert abs(halted.lower - whole.lower) <= 1e-3 * whole.lower
