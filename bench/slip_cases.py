"""Wrong answers of invented students: chances are noted on a first walk, drawn, and walked through again."""

import random
from dataclasses import dataclass

from slip_students import UNKNOWN, Said, Student

__all__ = ["Case", "Student", "cases"]


@dataclass
class Case:
    """One wrong answer: the figure, what went wrong, and what is on the paper."""

    figure: str
    kind: str
    truth: tuple
    lines: list
    answer: Said
    rounded: bool

    @property
    def known(self):
        """Whether every slip is of a kind."""
        return all(kind != UNKNOWN for kind, _, _ in self.truth)


def cases(figures, *, each, seed, sums=True):
    """Yield wrong answers: `figures` are (key, kind, walk, measures); with `sums` some write their sums."""
    draw = random.Random(seed)
    for key, kind, walk, data in figures:
        made, tries = 0, 0
        while made < each and tries < 60 * each:
            tries += 1
            case = one(draw, key, kind, walk, data, sums)
            if case is not None:
                made += 1
                yield case


def one(draw, key, kind, walk, data, sums):
    """Return one wrong answer, or None where the slip left the answer right."""
    style = {
        "decimals": draw.choice((1, 2, 2)),
        "keeps_rounded": draw.random() < 0.7,
        "writes_sums": sums and draw.random() < 0.3,
    }
    scout = Student(**style)
    walk(scout, data)
    right = scout.lines[-1]
    unknown = draw.random() < 0.2
    chances = [c for c in scout.chances if (c[0] == UNKNOWN) == unknown]
    slips = drawn(draw, chances, 1 if unknown or draw.random() < 0.8 else 2)
    pupil = Student(slips=slips, draw=draw, **style)
    walk(pupil, data)
    answer = pupil.lines[-1]
    if abs(answer.value - right.value) <= max(2 * 10**-answer.decimals, 0.004 * right.value) * (
        answer.decimals > 0
    ):
        return None
    if answer.value == right.value or answer.value <= 0:
        return None
    lines = [s for s in pupil.lines[:-1] if draw.random() < (0.8 if s.measured else 0.92)]
    return Case(key, kind, slips, lines, answer, style["keeps_rounded"])


def drawn(draw, chances, count):
    """Draw slips, kinds first, so that no kind is drawn more often for having many places."""
    found = []
    while len(found) < count:
        kind = draw.choice(sorted({c[0] for c in chances}))
        chance = draw.choice([c for c in chances if c[0] == kind])
        if chance not in found:
            found.append(chance)
    return tuple(found)
