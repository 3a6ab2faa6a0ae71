"""Crews by period as a CP-SAT model: nobody has a name yet, and whatever stays as planned is worth most.

For every task and period there is a crew, none or from its least to its most, and whether the task has begun
and has ended by then.  That enough students who may do each task are there is asked of every set of
sign-offs (Hall's condition), so that a solution can be filled with names; students who are kept apart are
left to the naming.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from ortools.sat.python import cp_model

from setday.solving import Answer, Limits, run_cpsat
from setday.timetable.classwork.arrays import ATTENTION, LEAST, PLACE
from setday.timetable.repair.crews import Crews
from setday.timetable.repair.prices import Prices

__all__ = ["nearer"]

Ints = NDArray[np.int32]
Cell = tuple[int, int]
"""A task and a period."""

OPTIONS: dict[str, object] = {
    "symmetry_level": 0,
    "linearization_level": 0,
    "cp_model_probing_level": 0,
    "use_lns_only": True,
}
"""Nothing is proven here: all workers search near what is known.  On three classes of ninety tasks, one run
of 12 s each, 13, 27 and 29 tasks moved so, and 11, 69 and 42 with a worker that also looks for a proof."""
_SOONER, _LATER = 4, 6
"""Periods before and after its planned and its present ones in which a task may run."""
_EARLIER = 6
"""Periods by which an earlier finish is worth something."""


def nearer(
    of: Crews,
    hint: Ints,
    finish: int,
    *,
    prices: Prices,
    limits: Limits,
    on_better: Callable[[Ints], bool | None],
) -> Ints:
    """Return crews by period and task that cost less than those of `hint`, or those.

    Parameters
    ----------
    of : Crews
    hint : (p, t) crews to begin from, which keep every rule
    finish : int
        Theirs; no later one is looked at, unless a later one is allowed.
    prices : Prices
    limits : Limits
    on_better : callable
        Told the best crews so far, again and again; answers False to stop.
    """
    deadline = limits.start()
    model = _Model(of, hint, finish, prices)

    def follow(answer: Answer) -> bool | None:
        return on_better(model.crews(answer) if answer.values else hint)

    left = replace(limits, seconds=deadline.left)
    answer = run_cpsat(model.model, limits=left, on_progress=follow, options=OPTIONS)
    return model.crews(answer) if answer.values else hint


class _Model:
    def __init__(self, of: Crews, hint: Ints, finish: int, prices: Prices) -> None:
        self.of, self.hint, self.finish, self.prices = of, hint, finish, prices
        self.model = cp_model.CpModel()
        self.horizon = max(finish, min(prices.allowed, len(hint)))
        self.last = of.windows.latest(self.horizon)
        self.cells: dict[int, list[int]] = {}
        self.crew: dict[Cell, cp_model.IntVar] = {}
        self.runs: dict[Cell, cp_model.IntVar] = {}
        self.begun: dict[Cell, cp_model.IntVar] = {}
        self.ended: dict[Cell, cp_model.IntVar] = {}
        for task in of.tasks:
            self._task(task)
        for task in of.marks:
            self._mark(task)
        self._waits()
        for period in range(self.horizon):
            self._period(period)
        self._aim()

    def crews(self, answer: Answer) -> Ints:
        """Return the crews by period and task."""
        found = np.zeros_like(self.hint)
        for (task, period), crew in self.crew.items():
            found[period, task] = round(answer.values[crew.index])
        return found

    def _bool(self, hint: bool) -> cp_model.IntVar:  # noqa: FBT001
        made = self.model.new_bool_var("")
        self.model.add_hint(made, int(hint))
        return made

    def _task(self, task: int) -> None:
        of, model = self.of, self.model
        least = int(of.a.tasks[task, LEAST])
        cells = self.cells[task] = self._cells(task)
        earlier = None
        for period in cells:
            self._cell((task, period), least)
            self._step(task, earlier, period)
            earlier = period
        model.add(self.ended[task, cells[-1]] == 1)
        minutes = [int(of.a.minutes[p]) for p in cells]
        total = cp_model.LinearExpr.weighted_sum([self.crew[task, p] for p in cells], minutes)
        work = int(of.work[task])
        model.add(total >= work)
        model.add(total <= work + least * max(minutes) - 1)

    def _cell(self, cell: Cell, least: int) -> None:
        """A crew, none or from the least to the most, and whether the task runs, has begun, has ended."""
        task, period = cell
        ran = np.flatnonzero(self.hint[:, task])
        many, most = int(self.hint[period, task]), int(self.of.most[cell])
        runs = self.runs[cell] = self._bool(many > 0)
        crew = self.crew[cell] = self.model.new_int_var(0, most, "")
        self.model.add_hint(crew, many)
        self.model.add(crew >= least * runs)
        self.model.add(crew <= most * runs)
        begun = self.begun[cell] = self._bool(bool(ran[0] <= period))
        ended = self.ended[cell] = self._bool(bool(ran[-1] <= period))
        self.model.add_implication(runs, begun)
        self.model.add_implication(ended, begun)

    def _step(self, task: int, earlier: int | None, period: int) -> None:
        """What has begun and what has ended stays so; either comes about only where the task runs."""
        model, runs = self.model, self.runs[task, period]
        begun, ended = self.begun[task, period], self.ended[task, period]
        if earlier is None:
            model.add_implication(begun, runs)
            model.add_implication(ended, runs)
            return
        was_begun, was_ended = self.begun[task, earlier], self.ended[task, earlier]
        model.add_implication(was_begun, begun)
        model.add_implication(was_ended, ended)
        model.add(begun - was_begun <= runs)
        model.add(ended - was_ended <= runs)
        model.add_implication(was_ended, ~runs)

    def _cells(self, task: int) -> list[int]:
        """Return the periods in which a task may run: about those it was planned for and those it runs in."""
        of = self.of
        ran = [*np.flatnonzero(self.hint[:, task]), *np.flatnonzero(of.k.planned[:, task])]
        first = max(int(of.windows.first[task]), min(ran) - _SOONER)
        last = min(int(self.last[task]), max(ran) + _LATER)
        last = max([last, *np.flatnonzero(of.k.called[: self.horizon, task])])
        least = int(of.a.tasks[task, LEAST])
        return [p for p in range(first, last + 1) if of.most[task, p] >= least]

    def _mark(self, task: int) -> None:
        """A mark is over in the first open period after its waits."""
        earlier = None
        for period in range(int(self.of.windows.first[task]), self.horizon):
            ended = self.ended[task, period] = self.model.new_bool_var("")
            if not self.of.a.open_in[task, period]:
                self.model.add(ended == (0 if earlier is None else self.ended[task, earlier]))
            earlier = period

    def _waits(self) -> None:
        a = self.of.a
        for before in (*self.of.tasks, *self.of.marks):
            for link in range(a.waiting_at[before], a.waiting_at[before + 1]):
                after, kind = int(a.waiting[link]), int(a.waiting_kind[link])
                self._wait(before, after, a.ready_from[kind])

    def _wait(self, before: int, after: int, ready: Ints) -> None:
        """What waits has not begun in a period unless what it waits for ended early enough for it."""
        steps = self.begun if after in self.of.tasks else self.ended
        for period in range(self.horizon):
            if (after, period) in steps:
                over = int(np.searchsorted(ready, period, side="right")) - 1
                done = self._by(before, over)
                mark = steps is self.ended and (after, period - 1) in steps
                if mark and not self.of.a.open_in[after, period]:
                    continue
                if done is None:
                    self.model.add(steps[after, period] == 0)
                else:
                    self.model.add_implication(steps[after, period], done)

    def _by(self, task: int, period: int) -> cp_model.IntVar | None:
        """Return whether a task has ended by a period, None where it cannot have."""
        for earlier in range(min(period, self.horizon - 1), -1, -1):
            if (task, earlier) in self.ended:
                return self.ended[task, earlier]
        return None

    def _period(self, period: int) -> None:
        of, a, model = self.of, self.of.a, self.model
        here = [t for t in of.tasks if (t, period) in self.runs]
        watched = [t for t in here if a.tasks[t, ATTENTION]]
        model.add(
            cp_model.LinearExpr.weighted_sum(
                [self.runs[t, period] for t in watched], [int(a.tasks[t, ATTENTION]) for t in watched]
            )
            <= int(a.attended[period])
        )
        for place, holds in enumerate(a.holds):
            inside = [t for t in here if a.tasks[t, PLACE] == place]
            if sum(int(of.most[t, period]) for t in inside) > holds:
                model.add(sum(self.crew[t, period] for t in inside) <= int(holds))
        for task in here:
            for other in a.apart[task]:
                if other > task and (int(other), period) in self.runs:
                    model.add_at_most_one([self.runs[task, period], self.runs[int(other), period]])
        self._people(period, here)
        self._pins(period)

    def _people(self, period: int, here: list[int]) -> None:
        k = self.of.k
        free = (k.present[period] > 0) & (k.pinned[period] < 0)
        for able, tasks in self.of.sets:
            inside = [t for t in tasks if t in set(here)]
            pinned = sum(int((k.pinned[period] == t).sum()) for t in inside)
            many = int((free & able).sum()) + pinned
            if sum(int(self.of.most[t, period]) for t in inside) > many:
                self.model.add(sum(self.crew[t, period] for t in inside) <= many)

    def _pins(self, period: int) -> None:
        k = self.of.k
        for task in np.flatnonzero(k.called[period]):
            if (int(task), period) in self.runs:
                self.model.add(self.crew[int(task), period] >= max(1, int((k.pinned[period] == task).sum())))

    def _aim(self) -> None:
        """Minimise the finish, tasks moved, tasks left waiting, near places changed."""
        parts = (self._later(), self._moved(), self._waiting(), self._places())
        self.model.minimize(cp_model.LinearExpr.sum([one for part in parts for one in part]))

    def _later(self) -> Iterator[cp_model.LinearExprT]:
        """Each period of finish, the latest ones; that all is done before it comes free."""
        for finish in range(self.horizon - 1, max(0, self.horizon - _EARLIER) - 1, -1):
            later = self._bool(self.finish > finish)
            for task in (*self.of.tasks, *self.of.marks):
                if self.last[task] >= finish:
                    over = self._by(task, finish - 1)
                    if over is None:
                        self.model.add(later == 1)
                    else:
                        self.model.add_implication(~over, later)
            yield self.prices.of_finish(finish) * later

    def _moved(self) -> Iterator[cp_model.LinearExprT]:
        for task in self.of.tasks:
            was = int(self.of.k.begins[task])
            if self.of.k.runs[task] or (task, was) not in self.begun:
                continue
            price = self.prices.of_move(was, self.of.near)
            begins = self.begun[task, was]
            earlier = next((p for p in range(was - 1, -1, -1) if (task, p) in self.begun), None)
            before = 0 if earlier is None else self.begun[task, earlier]
            yield price * (1 - begins + before)
            yield self.prices.paused * self._left_alone(task, was, begins, before)

    def _left_alone(
        self, task: int, was: int, begins: cp_model.IntVar, before: cp_model.IntVar | int
    ) -> cp_model.LinearExprT:
        """Return 1 for a task that begins when planned and does not go on: begun for the sake of the date."""
        onward = next((p for p in range(was + 1, self.horizon) if (task, p) in self.runs), None)
        if onward is None:
            return 0
        ran = np.flatnonzero(self.hint[:, task])
        alone = self._bool(bool(ran[0] == was and len(ran) > 1 and not self.hint[onward, task]))
        self.model.add(alone >= begins - before - self.ended[task, was] - self.runs[task, onward])
        return alone

    def _waiting(self) -> Iterator[cp_model.LinearExprT]:
        """Each period in which a task that has begun could go on and does not."""
        for task in self.of.tasks:
            for earlier, period in pairwise(self.cells[task]):
                over = self.ended[task, earlier]
                yield self.prices.waiting * (self.begun[task, period] - over - self.runs[task, period])

    def _places(self) -> Iterator[cp_model.LinearExprT]:
        """Those on a task or a bench in a near period beyond those who were planned for it and are there."""
        of, model = self.of, self.model
        for period in range(min(of.near, self.horizon)):
            present = int(of.k.present[period].sum())
            here = [t for t in of.tasks if (t, period) in self.crew]
            for task in here:
                was = int(of.was[period, task])
                if was < of.most[task, period]:
                    more = model.new_int_var(0, int(of.most[task, period]) - was, "")
                    model.add_hint(more, max(0, int(self.hint[period, task]) - was))
                    model.add(more >= self.crew[task, period] - was)
                    yield self.prices.place * more
            bench = int(sum(of.was[period, t] for t in of.fillers))
            idle = present - int(self.hint[period, of.tasks].sum())
            more = model.new_int_var(0, present, "")
            model.add_hint(more, max(0, idle - bench))
            model.add(more >= present - bench - sum(self.crew[t, period] for t in here))
            yield self.prices.place * more
