"""Pieces counted as cells: they lie where the piece lay, and what is proven for them holds."""

import numpy as np
import pytest

from setday.boards.cutting import cut_straight_through
from setday.boards.layout.bound import Bounder
from setday.boards.layout.cells import in_cells
from setday.boards.layout.groups import network_of, stages, surfaces_hung
from setday.boards.layout.patterns import Pattern, Slot
from setday.boards.layout.pricing import Pricer
from tests.boards.layout.cases import board, cheapest_by_trying_all, problem, wall

BOARDS = (board(48, 8, 1180), board(48, 10, 1465), board(48, 12, 1725))
LONG = (189.25, 177.5, 201, 165.75)


def room(*lengths, trim=0):
    walls = [wall(f"w{i}", n, 96, studs=studs(n)) for i, n in enumerate(lengths)]
    return problem(*walls, boards=BOARDS, least_piece=16, trim=trim)


def studs(length):
    return tuple(4.25 + 16 * k for k in range(1, int((length - 4.25) // 16) + 1))


def network(given):
    group = stages(given)[0][0]
    return network_of(surfaces_hung(group, given, {})[0])


@pytest.mark.parametrize("trim", [0, 8])
def test_a_piece_and_its_cells_take_the_same_length_of_board(trim):
    net = network(room(*LONG, trim=trim))
    cells = in_cells(net, trim=trim)
    assert len(cells.items) < len(net.items) / 3
    for i, (height, edges, length) in enumerate(net.items):
        slots = cells.pattern(Pattern(0, (Slot(i, 5, 7),))).slots
        ends = [5 - trim]
        for s in slots:
            assert cells.items[s.item][:2] == (height, edges)
            assert (s.x, s.y) == (ends[-1] + trim, 7)
            ends.append(s.x + cells.items[s.item][2])
        assert ends[-1] == 5 + length


def test_a_board_cut_into_pieces_can_be_cut_into_their_cells():
    given = room(*LONG)
    net = network(given)
    cells = in_cells(net, trim=0)
    pricer = Pricer(net.items, BOARDS)
    worth = np.array([float(h * n) for h, _, n in net.items])
    for p in pricer.best(worth):
        boxes = []
        for s in cells.pattern(p.pattern).slots:
            height, _, length = cells.items[s.item]
            boxes.append((s.x, s.y, s.x + length, s.y + height))
        assert cut_straight_through(boxes)
        assert max(b[2] for b in boxes) <= BOARDS[p.pattern.board].length


def test_a_piece_is_worth_its_cells():
    net = network(room(*LONG))
    cells = in_cells(net, trim=0)
    rng = np.random.default_rng(3)
    worth = rng.uniform(1, 9, len(cells.items))
    for i, value in enumerate(cells.values(worth)):
        slots = cells.pattern(Pattern(0, (Slot(i, 0, 0),))).slots
        assert value == pytest.approx(sum(worth[s.item] for s in slots))


def test_leaner_values_leave_the_cheapest_way_as_dear():
    net = network(room(*LONG))
    cells = in_cells(net, trim=0)
    rng = np.random.default_rng(5)
    for _ in range(20):
        worth = rng.uniform(1, 9, len(cells.items))
        costs = cells.values(worth)[net.arc_item]
        lean = cells.lean(worth, net.slack(costs), net.arc_item)
        assert (lean <= worth).all()
        before, after = (net.cheapest(cells.values(w)[net.arc_item])[0].sum() for w in (worth, lean))
        assert after == pytest.approx(before)


@pytest.mark.parametrize("lengths", [(100.5,), (116.25,), (84, 68), (68.5, 68.5), (128.75,)])
def test_the_bound_in_cells_never_passes_the_cheapest_layout(lengths, monkeypatch):
    monkeypatch.setattr("setday.boards.layout.cells.FEW", 1.0)
    given = room(*lengths)
    best = cheapest_by_trying_all(given)
    bounder = Bounder(network(given), BOARDS, 0)
    assert bounder.cells.times.max() > 1
    while not bounder.done:
        bounder.step(10.0)
    assert 0.85 * best < bounder.lower <= best + 1e-6


def test_few_pieces_are_their_own_cells():
    net = network(problem(wall("w", 90, 48, studs=()), boards=BOARDS))
    cells = in_cells(net, trim=0)
    assert cells.items == net.items
    assert cells.times.tolist() == [1] * len(net.items)
    assert not cells.once.any()
