"""Recutting: take a few sticks of a plan, cut their pieces anew, keep what is no dearer."""

import random
from collections.abc import Callable, Sequence
from dataclasses import replace

from setday.materials.sticks import Dual, Pattern, Sticks

__all__ = ["recut", "trimmed"]

_AT_A_TIME = (5, 8, 12)
_FEWEST = 2

Solver = Callable[[Sticks, int], Sequence[Pattern]]


def recut(
    sticks: Sticks,
    plan: Sequence[Pattern],
    *,
    dual: Dual,
    solve: Solver,
    rounds: int,
    done: Callable[[int], bool],
    seed: int,
) -> list[Pattern]:
    """Improve a plan a few sticks at a time.

    Sticks are drawn at random, those oftener whose pieces are worth least against their cost.  A new cut
    of the same total is taken too: it moves the offal about until some can be saved.

    Parameters
    ----------
    sticks : Sticks
    plan : sequence of Pattern
        Covers everything.
    dual : Dual
        Worths of the pieces.
    solve : callable
        Cuts some pieces anew, if it can for no more than a total; returns its best plan.
    rounds : int
        End after so many draws in a row without a saving.
    done : callable
        Told the total so far; True when it is good enough or time is up.
    seed : int

    Returns
    -------
    list of Pattern
        Covers everything exactly; its total is not above the given plan's.
    """
    draw = random.Random(seed)
    current, idle, turn = trimmed(plan, sticks.counts), 0, 0
    total = sticks.weigh(current)
    while idle < rounds and len(current) > _FEWEST and not done(total):
        number = min(_AT_A_TIME[turn % len(_AT_A_TIME)], len(current) - 1)
        some = _drawn(current, _excess(sticks, current, dual), number, draw)
        turn += 1
        chosen = [pattern for i, pattern in enumerate(current) if i in some]
        rest = [pattern for i, pattern in enumerate(current) if i not in some]
        kinds, part = _part(sticks, chosen, rest)
        found = [_widened(p, kinds, len(sticks.sizes)) for p in solve(part, sticks.weigh(chosen) - 1)]
        new = trimmed(found, _sum(chosen))
        saved = sticks.weigh(chosen) - sticks.weigh(new)
        idle = 0 if saved > 0 else idle + 1
        if saved >= 0:
            current, total = rest + new, total - saved
    return current


def trimmed(plan: Sequence[Pattern], counts: Sequence[int]) -> list[Pattern]:
    """Return a plan without pieces nobody asked for, and without sticks that then hold nothing."""
    left = list(counts)
    result = []
    for pattern in plan:
        kept = tuple(min(count, rest) for count, rest in zip(pattern.counts, left, strict=True))
        if any(kept):
            left = [rest - count for rest, count in zip(left, kept, strict=True)]
            result.append(Pattern(pattern.stock, kept))
    return result


def _excess(sticks: Sticks, plan: Sequence[Pattern], dual: Dual) -> list[float]:
    """Return what each stick costs above the worth of its pieces, against the dearest stick."""
    dearest = max(1, *sticks.weights) * dual.scale
    result = []
    for pattern in plan:
        worth = sum(count * each for count, each in zip(pattern.counts, dual.worth, strict=True))
        over = sticks.weights[pattern.stock] * dual.scale - worth
        result.append(max(over, 0) / dearest + 0.01)
    return result


def _drawn(plan: Sequence[Pattern], excess: Sequence[float], number: int, draw: random.Random) -> set[int]:
    some: set[int] = set()
    while len(some) < number:
        some.update(draw.choices(range(len(plan)), weights=excess))
    return some


def _part(sticks: Sticks, chosen: Sequence[Pattern], rest: Sequence[Pattern]) -> tuple[list[int], Sticks]:
    """Return the kinds of piece on some sticks, and the problem of cutting only those anew."""
    counts = _sum(chosen)
    kinds = [kind for kind, count in enumerate(counts) if count]
    available = list(sticks.available)
    for pattern in rest:
        number = available[pattern.stock]
        if number is not None:
            available[pattern.stock] = number - 1
    part = replace(
        sticks,
        sizes=tuple(sticks.sizes[kind] for kind in kinds),
        counts=tuple(counts[kind] for kind in kinds),
        available=tuple(available),
    )
    return kinds, part


def _sum(plan: Sequence[Pattern]) -> list[int]:
    return [sum(counts) for counts in zip(*(pattern.counts for pattern in plan), strict=True)]


def _widened(pattern: Pattern, kinds: Sequence[int], number: int) -> Pattern:
    counts = [0] * number
    for kind, count in zip(kinds, pattern.counts, strict=True):
        counts[kind] = count
    return Pattern(pattern.stock, tuple(counts))
