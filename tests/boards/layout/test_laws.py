"""Laws every proven layout obeys, on generated walls."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from setday.boards import Limits, Status, verify_outcome
from setday.boards.layout import solve
from setday.boards.outcome import Outcome
from setday.boards.problem import BoardProblem, Surface
from tests.boards.layout.cases import INCH, Ticks, board, cheapest_by_trying_all, problem, wall

BOARDS = (board(48, 8, 1180), board(48, 12, 1725))
LONGER = board(48, 16, 2200)
LAW = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)


def run(given_: BoardProblem) -> Outcome:
    return solve(given_, limits=Limits(seconds=0.5, clock=Ticks(0.015), workers=1))


@st.composite
def walls(draw: st.DrawFn) -> tuple[Surface, ...]:
    """One or two walls 4 ft high, perhaps with a window, studs from an odd first place."""
    out = []
    for n in range(draw(st.integers(1, 2))):
        length = draw(st.integers(40, 170))
        first = draw(st.integers(4, 16))
        studs = tuple(float(x) for x in range(first, length, 16))
        voids = ((20.0, 12.0, 12.0, 20.0),) if draw(st.booleans()) and length > 60 else ()
        out.append(wall(f"w{n}", length, 48, studs=studs, voids=voids))
    return tuple(out)


def mirrored(surface: Surface) -> Surface:
    return replace(
        surface,
        outline=tuple((surface.width - x, y) for x, y in reversed(surface.outline)),
        members=tuple(reversed([replace(m, x=surface.width - m.x) for m in surface.members])),
        voids=tuple(replace(v, x=surface.width - v.x - v.w) for v in surface.voids),
    )


@LAW
@given(walls())
def test_every_layout_passes_the_verifier_and_costs_no_less_than_its_bound(some):
    asked = problem(*some, boards=BOARDS, clear=3, least_piece=10)
    outcome = run(asked)
    assert verify_outcome(asked, outcome) == ()
    assert outcome.bound.cost_cents <= outcome.cost_cents


@LAW
@given(walls())
def test_the_bound_is_no_higher_than_the_best_of_all_layouts(some):
    plain = tuple(replace(s, voids=()) for s in some)
    asked = problem(*plain, boards=BOARDS, least_piece=16)
    assume(all(len(s.members) <= 9 for s in plain))
    outcome = run(asked)
    assume(outcome.layout.relaxed == ())
    assert outcome.bound.cost_cents <= cheapest_by_trying_all(asked) + 1e-6 <= outcome.cost_cents + 1e-6


@LAW
@given(walls())
def test_a_mirrored_house_costs_the_same_when_both_are_proven(some):
    one = run(problem(*some, boards=BOARDS, clear=3))
    other = run(problem(*map(mirrored, some), boards=BOARDS, clear=3))
    assume(one.status is Status.OPTIMAL and other.status is Status.OPTIMAL)
    assert one.cost_cents == other.cost_cents


@LAW
@given(walls(), st.integers(1, 400))
def test_a_cheaper_price_never_costs_more_when_proven(some, less):
    cheaper = (replace(BOARDS[0], price_cents=BOARDS[0].price_cents - less), BOARDS[1])
    before, after = run(problem(*some, boards=BOARDS)), run(problem(*some, boards=cheaper))
    assume(after.status is Status.OPTIMAL)
    assert after.cost_cents <= before.cost_cents


@LAW
@given(walls())
def test_one_more_board_length_never_costs_more_when_proven(some):
    before, after = run(problem(*some, boards=BOARDS)), run(problem(*some, boards=(*BOARDS, LONGER)))
    assume(after.status is Status.OPTIMAL)
    assert after.cost_cents <= before.cost_cents


@LAW
@given(walls())
def test_lengths_off_every_grid_are_still_exact(some):
    shifted = tuple(
        replace(
            s,
            outline=((0, 0), (s.width + 5, 0), (s.width + 5, s.height), (0, s.height)),
            members=tuple(replace(m, x=m.x + 3) for m in s.members if m.x + 3 < s.width),
        )
        for s in some
    )
    asked = problem(*shifted, boards=BOARDS, least_piece=10)
    outcome = run(asked)
    assert verify_outcome(asked, outcome) == ()
    assert sum(p.w for p in outcome.layout.pieces) == sum(s.width for s in shifted)
    assert all(p.w <= BOARDS[1].length for p in outcome.layout.pieces)
    assert min(p.w for p in outcome.layout.pieces) > 3 * INCH // 64
