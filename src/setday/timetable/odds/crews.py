"""Placing students on tasks in a simulation: sets of students are bits, so that nobody is looked for.

Compiled.  Whoever was on the task stays, then whoever may do the fewest tasks; when nobody is free,
somebody on another task makes room if a free student can take over there.
"""

import numpy as np

from setday.solving import compiled_bare
from setday.timetable.odds.arrays import FILLER, WORD, Ints

__all__ = ["FREE", "HERE", "KEPT", "LAST", "MAY", "NOBODY", "NOW", "ON", "add", "idle_of", "staff"]

NOBODY = -1
MAY, ON, KEPT = range(3)
"""Sets of students by task: who may do it, who is on it now, who was on it last."""
HERE, FREE = range(2)
"""Sets of students: who is there, and who has no task yet."""
NOW, LAST = range(2)
"""Tasks by student: now, and the last before."""

_PLACES = np.zeros(64, dtype=np.int64)
_SEQUENCE = 0x03F79D71B4CB0A89
for _bit in range(64):
    _PLACES[((_SEQUENCE << _bit) % (1 << 64)) >> 58] = _bit


@compiled_bare
def idle_of(folk: Ints) -> int:
    """Return how many are there and have no task."""
    many = 0
    for word in range(folk.shape[1]):
        bits = folk[FREE, word]
        while bits:
            bits &= bits - 1
            many += 1
    return many


@compiled_bare
def staff(task: int, many: int, tasks: Ints, foes: Ints, sets: Ints, folk: Ints, at: Ints) -> bool:
    """Place `many` students on `task`, or none."""
    for _ in range(many):
        if not add(task, tasks, foes, sets, folk, at):
            for word in range(folk.shape[1]):
                bits = sets[ON, task, word]
                while bits:
                    at[NOW, _lowest(bits) + WORD * word] = NOBODY
                    bits &= bits - 1
                folk[FREE, word] |= sets[ON, task, word]
                sets[ON, task, word] = 0
            return False
    return True


@compiled_bare
def _lowest(bits: int) -> int:
    """Return the place of the lowest bit, by a sequence in which every six bits differ."""
    return int(_PLACES[(((bits & -bits) * _SEQUENCE) >> 58) & 63])


@compiled_bare
def _free_one(task: int, but: int, tasks: Ints, foes: Ints, sets: Ints, folk: Ints) -> int:
    """Return the free student who fits `task` best, or NOBODY; as if student `but` were not on it."""
    for kept in range(2):
        for word in range(folk.shape[1]):
            bits = folk[FREE, word] & sets[MAY, task, word]
            if kept == 0:
                bits &= sets[KEPT, task, word]
            while bits:
                student = WORD * word + _lowest(bits)
                if _bears(task, student, but, tasks, foes, sets):
                    return student
                bits &= bits - 1
    return NOBODY


@compiled_bare
def _bears(task: int, student: int, but: int, tasks: Ints, foes: Ints, sets: Ints) -> bool:
    """Return whether nobody the student is kept apart from is on the task's crew; benches are none."""
    if tasks[task, FILLER]:
        return True
    for word in range(foes.shape[1]):
        beside = foes[student, word] & sets[ON, task, word]
        if but // WORD == word and but >= 0:
            beside &= ~(1 << (but % WORD))
        if beside:
            return False
    return True


@compiled_bare
def add(task: int, tasks: Ints, foes: Ints, sets: Ints, folk: Ints, at: Ints) -> bool:
    """Place one more student on `task`; somebody else may have to move over."""
    student = _free_one(task, NOBODY, tasks, foes, sets, folk)
    if student != NOBODY:
        _put(student, task, sets, folk, at)
        return True
    if idle_of(folk) == 0:
        return False
    for word in range(folk.shape[1]):
        bits = folk[HERE, word] & ~folk[FREE, word] & sets[MAY, task, word] & ~sets[ON, task, word]
        while bits:
            busy = WORD * word + _lowest(bits)
            bits &= bits - 1
            beside = at[NOW, busy]
            if not _bears(task, busy, NOBODY, tasks, foes, sets):
                continue
            instead = _free_one(beside, busy, tasks, foes, sets, folk)
            if instead != NOBODY:
                sets[ON, beside, word] &= ~(1 << (busy % WORD))
                _put(instead, beside, sets, folk, at)
                _put(busy, task, sets, folk, at)
                return True
    return False


@compiled_bare
def _put(student: int, task: int, sets: Ints, folk: Ints, at: Ints) -> None:
    word, bit = student // WORD, 1 << (student % WORD)
    at[NOW, student] = task
    sets[ON, task, word] |= bit
    folk[FREE, word] &= ~bit
