"""The layout of a competent hanger without a plan: one surface after the other, each for itself.

Every surface is divided into rows, and every row into pieces, so that the boards opened for it cost
the least, row after row; the longest piece of a row is cut first.  A piece comes from what is left of
a board opened on the same surface where that serves, else from the cheapest board that gives it.
Nothing is carried to another surface.
"""

from random import Random

from setday.boards.layout.emit import Done, layout
from setday.boards.layout.giving import Hung
from setday.boards.layout.groups import stages, surfaces_hung
from setday.boards.layout.hanging import Hanging
from setday.boards.layout.network import Network
from setday.boards.layout.pricing import Pricer
from setday.boards.layout.worth import area_values, worth
from setday.boards.outcome import Layout
from setday.boards.problem import Board, BoardProblem

__all__ = ["greedy"]


def greedy(problem: BoardProblem) -> Layout | None:
    """Lay every surface out by hand rules, off-cuts reused within the surface only.

    Parameters
    ----------
    problem : BoardProblem

    Returns
    -------
    Layout or None
        None when some surface cannot be covered.
    """
    done: list[Done] = []
    relaxed: list[str] = []
    for group in (g for stage in stages(problem) for g in stage):
        hung, none = surfaces_hung(group, problem, {})
        if none:
            return None
        relaxed += [h.relaxed for h in hung if h.relaxed]
        done += [_surface(h, group.boards, problem.rules.trim_cut) for h in hung]
    return layout(done, relaxed=tuple(relaxed))


def _surface(hung: Hung, boards: tuple[Board, ...], trim: int) -> Done:
    network = Network([hung.face])
    pricer = Pricer(network.items, boards, trim=trim)
    hanging = Hanging(network, pricer, worth(pricer, area_values(pricer), 0.0))
    if not hanging.hang_face(0, Random(1)):
        way = hung.way
        for r in way.rows:
            hanging.hang_arcs(r, tuple(a for a in way.arcs if int(network.arc_row[a]) == r))
        hanging.taken[0] = way.rows
    return Done(network, boards, tuple(hanging.taken), hanging.cuts, tuple(hanging.fillings))
