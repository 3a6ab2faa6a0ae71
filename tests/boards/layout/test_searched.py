"""The compiled search: what goes in comes out again, and every layout it finds keeps the rules."""

import time
from dataclasses import replace

import pytest

from setday.boards import Limits, verify, verify_outcome
from setday.boards.layout import solve
from setday.boards.layout.emit import Done, layout
from setday.boards.layout.engine import Engine
from setday.boards.layout.groups import stages, surfaces_hung
from setday.boards.layout.searched import Searched
from setday.boards.layout.searching import Job
from tests.boards.layout.test_solve import ALL, HOUSE, SHAPES, problem, wall

JOB = Job(group=0, rounds=400, heat=0.5, joint_price=0.0003, finishing=False)
WALLS = [s.values[0] for s in SHAPES]
ROOMS = [
    pytest.param(HOUSE, id="house"),
    pytest.param(problem(*WALLS, boards=ALL, clear=4, least_piece=12, least_row=8), id="all shapes"),
    pytest.param(
        problem(wall("a", 130, 96), wall("b", 90, 30), boards=ALL, least_piece=16, trim=8), id="loss of a cut"
    ),
    pytest.param(
        problem(wall("u", 260, 96), wall("o", 260, 96, over="u"), boards=ALL, least_piece=16), id="layers"
    ),
]


def engine_of(given, seed: int = 1) -> Engine:
    ((group,),) = stages(given)
    hung, _ = surfaces_hung(group, given, {})
    return Engine(group, hung, trim=given.rules.trim_cut, seed=seed, free=hung)


def laid(engine: Engine, found):
    done = Done(engine.network, engine.group.boards, found.taken, found.cuts, found.fillings)
    return layout([done], relaxed=())


@pytest.mark.parametrize("given", ROOMS)
def test_what_goes_in_comes_out_again(given):
    engine = engine_of(given)
    again = Searched(engine.search_part(1)).flat.best()
    before = engine.score
    engine.improver.reset(again)
    assert engine.improver.hanging.cost() == before.cents
    assert engine.improver.hanging.joints == before.joints
    assert verify(given, laid(engine, again)) == ()


@pytest.mark.parametrize("given", ROOMS)
def test_every_layout_found_keeps_the_rules_and_is_no_dearer(given):
    engine = engine_of(given)
    searched = Searched(engine.search_part(1))
    for heat in (1.0, 0.5, 0.0):
        before = engine.score
        found = searched.run(replace(JOB, heat=heat))
        if found is not None:
            assert verify(given, laid(engine, found)) == ()
            engine.take(found, JOB.rounds)
            assert engine.score < before


def test_the_same_seed_finds_the_same():
    first, second = (Searched(engine_of(HOUSE).search_part(3)).run(JOB) for _ in range(2))
    assert first.cuts == second.cuts
    assert [f.owners for f in first.fillings] == [f.owners for f in second.fillings]


def test_finishing_never_raises_the_money():
    engine = engine_of(HOUSE)
    searched = Searched(engine.search_part(1))
    engine.take(searched.run(replace(JOB, rounds=3000)), 0)
    cents = engine.score.cents
    found = searched.run(
        replace(JOB, finishing=True, joint_price=0.02, start=engine.improver.best, rounds=2000)
    )
    assert found is not None
    engine.take(found, 0)
    assert engine.score.cents <= cents


def test_processes_search_and_prove_side_by_side():
    limits = Limits(seconds=9.0, clock=time.monotonic, workers=2)
    outcome = solve(HOUSE, limits=limits)
    assert verify_outcome(HOUSE, outcome) == ()
