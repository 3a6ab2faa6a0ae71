"""A class problem seen from its end: the calendar turned round, and every wait with it.

A list played backward from the best finish, in the order in which its tasks ended, says how late each task
can be; the list in that order is often shorter when it is played forward again (justification: V. Valls,
F. Ballestin and S. Quintanilla, 2005, on projects with scarce resources).
"""

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork.arrays import ClassArrays, GivenArrays

__all__ = ["turned"]

Ints = NDArray[np.int32]


def turned(a: ClassArrays, g: GivenArrays, finish: int) -> tuple[ClassArrays, GivenArrays]:
    """Return the arrays of the calendar turned round, so that its first period is the last before `finish`.

    Nothing that is given besides is turned: neither periods that are over nor pins.
    """
    last = finish - 1
    waits_at, waits, kinds = _waited_for(a)
    round_about = a._replace(
        waits_at=a.waiting_at,
        waiting_at=waits_at,
        waiting=waits,
        waiting_kind=kinds,
        ready_from=_ready_from(a.ready_from, last),
        open_in=_backward(a.open_in.T, last).T.copy(),
        minutes=_backward(a.minutes, last),
        attended=_backward(a.attended, last),
    )
    nothing = np.full((finish, g.present.shape[1]), -1, dtype=np.int32)
    none = np.zeros((finish, len(a.tasks)), dtype=np.int32)
    given = GivenArrays(
        since=0,
        bound=0,
        present=_backward(g.present, last),
        asked=nothing,
        called=none,
        held=none,
        near=nothing,
        change=np.zeros(finish, dtype=np.int64),
        good=0,
    )
    return round_about, given


def _backward(values: Ints, last: int) -> Ints:
    return np.ascontiguousarray(values[last::-1])


def _ready_from(ready: Ints, last: int) -> Ints:
    """Return for each kind of wait and turned period the first turned period allowed after it."""
    never = last + 1
    table = np.full((len(ready), never), never, dtype=np.int32)
    for kind, row in enumerate(ready[:, :never]):
        for begin in range(never):
            ends = int(np.searchsorted(row, begin, side="right"))  # so many periods may be waited from
            if ends:
                table[kind, last - begin] = never - ends
    return table


def _waited_for(a: ClassArrays) -> tuple[Ints, Ints, Ints]:
    """Return where each task's own waits begin, the tasks waited for, and for how long."""
    count = len(a.tasks)
    before = np.repeat(np.arange(count, dtype=np.int32), np.diff(a.waiting_at))
    order = np.argsort(a.waiting, kind="stable")
    starts = np.zeros(count + 1, dtype=np.int32)
    np.cumsum(np.bincount(a.waiting, minlength=count), out=starts[1:])
    return starts, before[order], a.waiting_kind[order]
