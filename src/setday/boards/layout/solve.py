"""Solve a board layout problem: first layout, proven bound, improvement, until the time is up.

Surfaces that may share off-cuts form a group; groups are independent but for layers over each other,
which come a stage later.  With two workers or more the bound is proven and the layout improved by
compiled code in processes of their own (in threads and plainly where little time is left); with one
they take turns.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from threading import Event, Thread

from setday.boards.layout.emit import Done, joint_length, layout, money
from setday.boards.layout.engine import Engine
from setday.boards.layout.groups import Group, joints_of, stages, surfaces_hung
from setday.boards.layout.proving import Prover
from setday.boards.layout.rows import Avoid
from setday.boards.layout.shape import net_area
from setday.boards.layout.starting import Starting
from setday.boards.layout.team import Team
from setday.boards.outcome import Bound, Layout, Limits, Outcome, Progress, Status
from setday.boards.problem import BoardProblem

__all__ = ["solve"]

METHOD = (
    "linear program over all divisions into rows, all ways to cut them and all straight-through cutting "
    "patterns, solved by column generation; proven by shortest paths and knapsacks at its prices (Farley)"
)
ROUNDS = 10
"""Rounds of improvement between two looks at the clock."""
TURN = 60
"""Rounds of improvement for each step of the bound when they take turns."""

GRACE = 1.0
"""A step of the bound in turns may take so long at least, so that a busy machine proves the same [s]."""
BEGUN = 0.5
"""Least time between two reports before there is a layout [s]."""
HEARD, SHOWN = 0.2, 1.0
"""Least time between two reports, and between two reports with a layout [s]."""
LATER = 0.08
"""As the search goes on a layout is shown more seldom, by this share of the time spent: each is verified."""
FOR_MONEY = 0.85
"""The part of the time in which money is lowered; the rest is for butt joints and pieces."""

WORTH_A_PROCESS = 4.0
"""With less time left than this the proof runs in a thread: a process takes a second to start [s]."""

OnProgress = Callable[[Progress], bool]


def solve(problem: BoardProblem, *, limits: Limits, on_progress: OnProgress | None = None) -> Outcome:
    """Lay a house out for the least money, then the least butt joints, then the fewest pieces.

    Parameters
    ----------
    problem : BoardProblem
    limits : Limits
        Time limit, clock, seed and workers.
    on_progress : callable, optional
        Told how far it is; answers False to end the search and keep the best layout.

    Returns
    -------
    Outcome
        Status NONE with reasons when some surface cannot be covered at all.
    """
    run = _Run(problem, limits, on_progress)
    return run.solve()


@dataclass(slots=True)
class _Run:
    """One call of `solve`."""

    problem: BoardProblem
    limits: Limits
    on_progress: OnProgress | None
    started: float = 0.0
    stopped: bool = False
    told: int | None = None
    begun: float = 0.0
    heard: float = -10.0
    shown: float = -10.0
    engines: list[Engine] = field(default_factory=list)
    relaxed: list[str] = field(default_factory=list)
    none: list[str] = field(default_factory=list)

    def seconds(self) -> float:
        """Return the time spent."""
        return self.limits.clock() - self.started

    def solve(self) -> Outcome:
        """Run all stages."""
        self.started = self.limits.clock()
        plan = stages(self.problem)
        for i, groups in enumerate(plan):
            if not self._begin(groups):
                return self._nothing()
            share = (i + 1) / len(plan)
            _Stage(self, self.engines[-len(groups) :], self.limits.seconds * share).run()
        return self._outcome()

    def _begin(self, groups: list[Group]) -> bool:
        """Hang the groups of one stage for the first time."""
        below: dict[str, tuple[Avoid, ...]] = {}
        for e in self.engines:
            below |= joints_of(e.done())
        for i, g in enumerate(groups):
            hung, none = surfaces_hung(g, self.problem, below, each=self._tell_begun)
            self.none += none
            if self.none:
                continue
            self.relaxed += [h.relaxed for h in hung if h.relaxed]
            over = any(s.over in below for s in g.surfaces)
            free = surfaces_hung(g, self.problem, {})[0] if over else hung
            trim = self.problem.rules.trim_cut
            seed = self.limits.seed * 1000 + len(self.engines) + i
            self.engines.append(Engine(g, hung, trim=trim, seed=seed, free=free))
        return not self.none

    def _tell_begun(self) -> None:
        """Report that it has begun, before there is any layout."""
        now = self.seconds()
        if self.on_progress is None or self.stopped or now < self.begun + BEGUN:
            return
        self.begun = now
        begun = Progress(cost_cents=None, bound_cents=0.0, seconds=now, stage="ways to cut the rows")
        self.stopped = self.on_progress(begun) is False

    def tell(self, stage: str) -> None:
        """Report how far it is, with the best layout when it is new."""
        now = self.seconds()
        if self.on_progress is None or self.stopped or now < self.heard + HEARD:
            return
        self.heard = now
        cost = sum(e.score.cents for e in self.engines)
        fresh = None
        if cost != self.told and now >= self.shown + max(SHOWN, now * LATER):
            fresh, self.told, self.shown = self.layout(), cost, now
        answer = self.on_progress(
            Progress(cost_cents=cost, bound_cents=self.lower(), seconds=now, stage=stage, layout=fresh)
        )
        self.stopped = answer is False

    def lower(self) -> float:
        """Return the proven bound so far."""
        return sum(e.lower for e in self.engines)

    def layout(self) -> Layout:
        """Return the best layout so far."""
        return layout([e.done() for e in self.engines], relaxed=tuple(self.relaxed))

    def _outcome(self) -> Outcome:
        done: list[Done] = [e.done() for e in self.engines]
        cost = sum(money(d) for d in done)
        proven = all(e.proven for e in self.engines)
        lower = min(self.lower(), float(cost))
        status = Status.OPTIMAL if proven else Status.STOPPED if self.stopped else Status.FEASIBLE
        return Outcome(
            status=status,
            layout=self.layout(),
            cost_cents=cost,
            butt_joint=sum(joint_length(d) for d in done),
            pieces=sum(len(arcs) for d in done for arcs in d.cuts.values()),
            bound=Bound(cost_cents=lower, area_cost_cents=_area_cost(self.problem), method=METHOD),
            seconds=self.seconds(),
        )

    def _nothing(self) -> Outcome:
        return Outcome(
            status=Status.NONE,
            layout=None,
            cost_cents=0,
            butt_joint=0,
            pieces=0,
            bound=Bound(cost_cents=0.0, area_cost_cents=_area_cost(self.problem), method=METHOD),
            seconds=self.seconds(),
            why_none=tuple(self.none),
        )


@dataclass(slots=True)
class _Stage:
    """The engines of one stage, run until a time."""

    run_: _Run
    engines: list[Engine]
    until: float
    begun: float = 0.0

    def run(self) -> None:
        """Improve and prove until the time is up, all is proven or a person stops it."""
        run = self.run_
        self.begun = run.seconds()
        run.tell("first layout")
        if run.limits.workers > 1:
            self._side_by_side()
        else:
            self._in_turns()

    def _over(self) -> bool:
        run = self.run_
        return run.stopped or run.seconds() >= self.until or all(e.finished for e in self.engines)

    def _heat(self) -> float:
        """Return 1 at the start of the stage, 0 when the last part begins, in which joints are lowered."""
        spent = (self.run_.seconds() - self.begun) / max(self.until - self.begun, 1e-9)
        if spent >= FOR_MONEY:
            for e in self.engines:
                e.finish()
        return max(0.0, 1.0 - spent / FOR_MONEY)

    def _late(self) -> bool:
        """Report while a step of the bound runs; True when it must end."""
        self.run_.tell("proving")
        return self.run_.stopped or self._left() <= -GRACE

    def _left(self) -> float:
        return self.until - self.run_.seconds()

    def _prove(self, halt: Event) -> None:
        """Raise the bounds of all groups, a step of each in turn."""
        while open_ := [e for e in self.engines if not e.settled]:
            for e in open_:
                if halt.is_set() or self._left() <= 0:
                    return
                e.prove(self._left(), halt=lambda: halt.is_set() or self._left() <= 0)

    def _side_by_side(self) -> None:
        """Prove and search in processes where there is time to start them, otherwise prove in a thread."""
        if self._left() < WORTH_A_PROCESS or not any(e.part[0].arcs for e in self.engines):
            self._beside_a_thread()
            return
        parts = [e.part for e in self.engines]
        prover = Starting(lambda: Prover(parts))
        team = Team(self.engines, self.run_.limits.clock)
        try:
            self._with_a_team(prover, team)
        finally:
            prover.close()
            team.close()

    def _with_a_team(self, prover: Starting[Prover], team: Team) -> None:
        """Search in processes, one more when the proof has ended; here until the first has begun."""
        for _ in range(max(1, self.run_.limits.workers - 1)):
            team.add()
        proving = True
        while not self._over():
            if prover.ready is not None:
                self._hear(prover.ready)
            team.work(self._heat())
            if not team.answering:
                for e in self.engines:
                    e.improve(ROUNDS, self._heat())
            self.run_.tell("improving")
            if proving and all(e.settled for e in self.engines):
                proving = False
                prover.close()
                team.add()

    def _beside_a_thread(self) -> None:
        halt = Event()
        proof = Thread(target=self._prove, args=(halt,), daemon=True)
        proof.start()
        try:
            self._improve()
        finally:
            halt.set()
            proof.join()

    def _improve(self) -> None:
        while not self._over():
            for e in self.engines:
                if e.improve(ROUNDS, self._heat()):
                    self.run_.tell("improving")
            self.run_.tell("improving")

    def _hear(self, prover: Prover) -> None:
        for i, proof in prover.news():
            engine = self.engines[i]
            engine.hear(proof)
            prover.offer(i, None if engine.settled else engine.good_patterns())
            self.run_.tell("proving")

    def _in_turns(self) -> None:
        while not self._over():
            for e in self.engines:
                if not e.settled:
                    e.prove(max(self._left(), GRACE), halt=self._late)
                e.improve(TURN, self._heat())
            self.run_.tell("improving")


def _area_cost(problem: BoardProblem) -> float:
    """Return the net area of all surfaces at the cheapest price per area of their kind [cents]."""
    total = 0.0
    for s in problem.surfaces:
        rates = [b.price_cents / (b.width * b.length) for b in problem.boards if b.kind == s.board_kind]
        total += net_area(s) * min(rates, default=0.0)
    return total
