"""The searching processes and their jobs: who searches which group next, how long, and who learns what.

Every process holds all groups and is given two jobs ahead, so that it never waits.  A group is given
time by its share of the money not proven yet.  Better layouts are passed on now and then.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import count

from setday.boards.layout.engine import Engine
from setday.boards.layout.searching import Answer, Job, Searcher
from setday.boards.layout.starting import Starting

__all__ = ["Team"]

AHEAD = 2
JOB = 0.3
"""How long all groups' jobs take together, about [s]."""
LEAST_SHARE = 0.1
FIRST_ROUNDS, MOST_ROUNDS = 100, 200_000
WAIT = 0.05
PASSED_ON = 12
"""After so many turns of a process it goes on from the best layout of all, where its own is dearer."""


@dataclass(slots=True)
class _Hand:
    """One process: how fast it is, and what it was last told of every group."""

    starting: Starting[Searcher]
    next: int = 0
    since: float = 0.0
    speed: dict[int, float] = field(default_factory=dict)
    learned: dict[int, int] = field(default_factory=dict)
    finishing: set[int] = field(default_factory=set)
    turns: dict[int, int] = field(default_factory=dict)


class Team:
    """Processes that search for cheaper layouts of some groups.

    Parameters
    ----------
    engines : sequence of Engine
    clock : callable
        Seconds from any fixed start.
    """

    def __init__(self, engines: Sequence[Engine], clock: Callable[[], float]) -> None:
        self.engines = engines
        self.clock = clock
        self.hands: list[_Hand] = []
        self._seeds = count(1)

    def add(self) -> None:
        """Start one more process, where the system allows it."""
        seed = next(self._seeds)
        parts = [e.search_part(seed) for e in self.engines]
        self.hands.append(_Hand(Starting(lambda: Searcher(parts))))

    @property
    def answering(self) -> bool:
        """Whether some process has begun to answer."""
        return any(searcher.answered for _, searcher in self._started())

    def work(self, heat: float) -> bool:
        """Hand out jobs and listen for a moment; True when a better layout has come in."""
        better = False
        wait = WAIT / max(len(self.hands), 1) if self.answering else 0.0
        for hand, searcher in self._started():
            self._hand_out(hand, searcher, heat)
            for answer in searcher.answers(wait):
                better |= self._hear(hand, answer)
                self._hand_out(hand, searcher, heat)
        return better

    def _started(self) -> list[tuple[_Hand, Searcher]]:
        return [(h, s) for h in self.hands if (s := h.starting.ready) is not None]

    def close(self) -> None:
        """End all processes."""
        for hand in self.hands:
            hand.starting.close()

    def _hand_out(self, hand: _Hand, searcher: Searcher, heat: float) -> None:
        open_ = [g for g, e in enumerate(self.engines) if not e.finished]
        while open_ and searcher.waiting < AHEAD:
            hand.next += 1
            group = open_[hand.next % len(open_)]
            searcher.give(self._job(hand, group, heat))

    def _job(self, hand: _Hand, group: int, heat: float) -> Job:
        engine = self.engines[group]
        engine.mind()
        values = None
        if hand.learned.get(group, 0) != engine.learned:
            hand.learned[group] = engine.learned
            values = engine.improver.values
        start = None
        hand.turns[group] = hand.turns.get(group, 0) + 1
        turning = engine.improver.finishing and group not in hand.finishing
        if turning or (len(self.hands) > 1 and hand.turns[group] % PASSED_ON == 0):
            start = engine.improver.best
            hand.finishing |= {group} if turning else set()
        rounds = hand.speed.get(group, FIRST_ROUNDS / JOB) * JOB * self._share(group)
        return Job(
            group=group,
            rounds=max(1, min(int(rounds), MOST_ROUNDS)),
            heat=heat,
            joint_price=engine.improver.hanging.joint_price,
            finishing=engine.improver.finishing,
            values=values,
            start=start,
        )

    def _share(self, group: int) -> float:
        missing = [max(e.score.cents - e.lower, 1.0) for e in self.engines]
        return max(LEAST_SHARE, missing[group] / sum(missing))

    def _hear(self, hand: _Hand, answer: Answer) -> bool:
        now = self.clock()
        spent = now - hand.since
        hand.since = now
        if spent > 0:
            old = hand.speed.get(answer.group, FIRST_ROUNDS / JOB)
            hand.speed[answer.group] = min(answer.rounds / spent, 4 * old)
        engine = self.engines[answer.group]
        return engine.take(answer.best, answer.rounds)
