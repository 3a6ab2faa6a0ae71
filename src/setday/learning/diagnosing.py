"""Which slip explains a wrong figure: known slips, alone and in pairs, against "no known slip".

Every slip, and every likely pair, is done to the correct working; what comes out is compared with what the
student wrote, line by line, each line going on from the student's own numbers.  What a slip is worth is
how often its kind happens times how well it agrees (Bayes' rule); "no known slip" stands against them with
its own share and numbers spread by chance.
"""

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import combinations
from math import prod

from setday.learning.agreement import Written, agreement, by_chance, means_the_same
from setday.learning.kinds import SlipKind
from setday.learning.odds import UNKNOWN, Odds
from setday.learning.slips import Slip, slips_of
from setday.learning.tree import Figure, Line, Up
from setday.learning.working_out import Change, close_up, work_out

__all__ = ["Candidate", "Diagnoser", "Diagnosis", "diagnose"]

_PAIRS = 0.15
"""Of answers with known slips so many have two; our own starting point."""
_FURTHER = 0.1
"""How likely a line is wrong in a way nobody knows when another line is wrong already."""
_PAIRED_ANSWERS, _PAIRED_LINES = 110, 30
"""So many of the likeliest slips are tried in pairs: when only the answer is given, when lines are."""
_CERTAIN, _SET_DOWN = 0.3, 0.004
"""Arithmetic that does not come to its result speaks so loudly where what is set down is right."""
_MOST_UNKNOWN = 0.5
_MOST_UNKNOWN_ALONE = 0.1
_MOST_UNKNOWN_COUNT = 0.06
"""A slip is told where "no known slip" is no likelier than this: with lines, by the answer alone, and where
the answer alone is a count of pieces, which many slips come to by chance."""
_KEPT = 10
_ROUNDED_BEFORE = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """Slips that would explain what was written.

    Parameters
    ----------
    slips : tuple of Slip
        One or two.
    share : float
        How likely, of all that was considered.
    alike : tuple of tuple of Slip
        Slips of the same kinds at other places that come to the same numbers; nothing tells them apart.
    unexplained : tuple of str
        Keys of lines that are wrong even so.
    """

    slips: tuple[Slip, ...]
    share: float
    alike: tuple[tuple[Slip, ...], ...] = ()
    unexplained: tuple[str, ...] = ()

    @property
    def kinds(self) -> tuple[SlipKind, ...]:
        """The kinds of its slips."""
        return tuple(slip.kind for slip in self.slips)


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosis:
    """What was found about one student's figure.

    Parameters
    ----------
    right : bool
        True where the answer is right.
    wrong_lines : tuple of str
        Keys of the lines that do not follow from the lines before them.
    candidates : tuple of Candidate
        The likeliest first.
    unknown : float
        How likely it is that no known slip explains it.
    limit : float
        A known slip is told where `unknown` is less.
    """

    right: bool
    wrong_lines: tuple[str, ...] = ()
    candidates: tuple[Candidate, ...] = ()
    unknown: float = 0.0
    limit: float = _MOST_UNKNOWN

    @property
    def explained(self) -> bool:
        """Whether a known slip explains it better than none."""
        return bool(self.candidates) and self.unknown < self.limit

    @property
    def likely(self) -> tuple[Candidate, ...]:
        """What to tell a teacher: the candidates, or none where no known slip explains it."""
        return self.candidates if self.explained else ()


Hypothesis = tuple[Slip, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Weighed:
    slips: Hypothesis
    weight: float
    effect: tuple[float, ...]
    unexplained: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """What one student wrote; `own` is their numbers, `follows` what should have followed from them."""

    written: tuple[Written, ...]
    own: Mapping[str, float]
    follows: Mapping[str, float]


@dataclass(frozen=True, kw_only=True)
class Diagnoser:
    """Finds the slips in figures of one kind of working; made once for a figure, asked for every student.

    Parameters
    ----------
    figure : Figure
    odds : Odds
        Of the class.
    """

    figure: Figure
    odds: Odds = field(default_factory=Odds)

    @cached_property
    def slips(self) -> tuple[Slip, ...]:
        """Every single slip."""
        return slips_of(self.figure)

    @cached_property
    def _priors(self) -> dict[Slip, float]:
        """The share of every slip: its kind's, divided among its places, then among its numbers."""
        places: dict[SlipKind, set[tuple[str, str]]] = {}
        numbers: dict[tuple[SlipKind, str, str], int] = {}
        for slip in self.slips:
            places.setdefault(slip.kind, set()).add((slip.line, slip.about))
            numbers[slip.place] = numbers.get(slip.place, 0) + 1
        known = sum(self.odds.share(kind) for kind in places) or 1.0
        return {
            slip: self.odds.share(slip.kind) / known / len(places[slip.kind]) / numbers[slip.place]
            for slip in self.slips
        }

    @cached_property
    def right(self) -> dict[str, float]:
        """The correct value of every line."""
        return work_out(self.figure)

    @cached_property
    def _answers(self) -> tuple[tuple[Hypothesis, float], ...]:
        """The answer each slip and each likely pair comes to, for those who write the answer only."""
        key, right = self.figure.last.key, self.right[self.figure.last.key]
        singles = [(slip,) for slip in self.slips]
        likely = sorted(self.slips, key=lambda slip: -self._priors[slip])[:_PAIRED_ANSWERS]
        found = []
        for slips in (*singles, *pairs(likely)):
            value = work_out(self.figure, changes_of(slips))[key]
            if abs(value - right) > 1e-9:
                found.append((slips, value))
        return tuple(found)

    def diagnose(self, written: Sequence[Written]) -> Diagnosis:
        """Return the slips that would explain what was written, the likeliest first.

        Parameters
        ----------
        written : sequence of Written
            In any order; the figure's last line is the answer.
        """
        own = {each.line: each.value for each in written}
        expected = work_out(self.figure, own=own)
        wrong = tuple(each.line for each in written if not self._holds(each, expected[each.line]))
        right = self._is_right(written)
        if not wrong:
            return Diagnosis(right=right)
        sheet = _Sheet(written=tuple(written), own=own, follows=expected)
        none = self._weigh((), self.odds.share(UNKNOWN), sheet)
        known = [each for each in self._weighed(sheet, none) if len(each.unexplained) < len(wrong)]
        total = none.weight + sum(each.weight for each in known)
        if total <= 0:
            return Diagnosis(right=right, wrong_lines=wrong, unknown=1.0)
        return Diagnosis(
            right=right,
            wrong_lines=wrong,
            candidates=_merged(known, total),
            unknown=none.weight / total,
            limit=self._limit(sheet),
        )

    def _holds(self, written: Written, expected: float) -> bool:
        line = self.figure.by_key[written.line]
        return _done_right(written, line) and means_the_same(written, expected, line)

    def _is_right(self, written: Iterable[Written]) -> bool:
        last = self.figure.last
        return any(w.line == last.key and self._holds(w, self.right[last.key]) for w in written)

    def _weighed(self, sheet: _Sheet, none: _Weighed) -> Iterator[_Weighed]:
        if self._answer_alone(sheet):
            yield from self._by_answer(sheet.written[0])
            return
        singles = [(slip, self._weigh((slip,), self._prior((slip,)), sheet)) for slip in self.slips]
        yield from (weighed for _, weighed in singles)
        share = self._known_share * (1 - _PAIRS)
        base = none.weight / self.odds.share(UNKNOWN)
        helping = [
            (weighed.weight / (share * self._priors[slip]) / base, slip)
            for slip, weighed in singles
            if weighed.weight > 2 * base * share * self._priors[slip]
        ]
        likely = [slip for _, slip in sorted(helping, key=lambda each: -each[0])[:_PAIRED_LINES]]
        for slips in pairs(likely):
            yield self._weigh(slips, self._prior(slips), sheet)

    def _limit(self, sheet: _Sheet) -> float:
        if not self._answer_alone(sheet):
            return _MOST_UNKNOWN
        return _MOST_UNKNOWN_COUNT if self.figure.last.decimals == 0 else _MOST_UNKNOWN_ALONE

    def _answer_alone(self, sheet: _Sheet) -> bool:
        return [each.line for each in sheet.written] == [self.figure.last.key]

    def _by_answer(self, written: Written) -> Iterator[_Weighed]:
        line = self.figure.last
        for slips, value in self._answers:
            fit = agreement(written.value, step=written.step, right=value, line=line, loose=_ROUNDED_BEFORE)
            if fit > 1e-7:
                weight = self._prior(slips) * fit
                yield _Weighed(slips=slips, weight=weight, effect=(round(value, 6),), unexplained=())

    @property
    def _known_share(self) -> float:
        return 1 - self.odds.share(UNKNOWN)

    def _prior(self, slips: Hypothesis) -> float:
        share = self._known_share * (_PAIRS * 2 if len(slips) > 1 else 1 - _PAIRS)
        return share * prod(self._priors[slip] for slip in slips)

    def _weigh(self, slips: Hypothesis, prior: float, sheet: _Sheet) -> _Weighed:
        """Return the weight of a hypothesis: its prior times the agreement of every written line."""
        expected = work_out(self.figure, changes_of(slips), own=sheet.own) if slips else sheet.follows
        weight = prior
        unexplained: list[str] = []
        slipped = {(slip.line, slip.kind) for slip in slips}
        for each in sheet.written:
            line, right = self.figure.by_key[each.line], expected[each.line]
            fit = self._fit(each, right, line)
            if fit == 0.0 and self._set_down_right(each, sheet.follows[each.line], line):
                fit = self._of_result(each, right, line, slipped)
            chance = by_chance(each.value, step=each.step, right=self.right[each.line])
            first = not slips and not unexplained
            chance *= 1.0 if first else _FURTHER
            if fit < chance * _FURTHER or (fit < chance and not means_the_same(each, right, line)):
                unexplained.append(each.line)
                fit = chance
            weight *= fit
        effect = tuple(round(expected[each.line], 6) for each in sheet.written)
        return _Weighed(slips=slips, weight=weight, effect=effect, unexplained=tuple(unexplained))

    @staticmethod
    def _fit(written: Written, right: float, line: Line) -> float:
        """Return how well a number agrees; not at all where the arithmetic beside it comes to another."""
        if written.worked is not None and not _done_right(written, line):
            return 0.0
        return agreement(written.value, step=written.step, right=right, line=line)

    @staticmethod
    def _of_result(written: Written, right: float, line: Line, slipped: set[tuple[str, SlipKind]]) -> float:
        """Return how well a slip of the result agrees, where the right sum is set down beside it."""
        if (line.key, SlipKind.ARITHMETIC) in slipped:
            return _CERTAIN
        if (line.key, SlipKind.DIGITS_SWAPPED) in slipped:
            return agreement(written.value, step=written.step, right=right, line=line)
        return 0.0

    @staticmethod
    def _set_down_right(written: Written, right: float, line: Line) -> bool:
        """Tell whether the right sum is set down, and its result is not its own."""
        if written.worked is None or _done_right(written, line):
            return False
        return abs(written.worked - right) <= _SET_DOWN * abs(right)


def _done_right(written: Written, line: Line) -> bool:
    if written.worked is None or means_the_same(written, written.worked, line):
        return True
    return isinstance(line.node, Up) and means_the_same(written, close_up(written.worked), line)


def diagnose(figure: Figure, written: Sequence[Written], *, odds: Odds | None = None) -> Diagnosis:
    """Find the slips in what a student wrote for a figure.

    Parameters
    ----------
    figure : Figure
    written : sequence of Written
    odds : Odds or None
        Of the class; None for the start.
    """
    return Diagnoser(figure=figure, odds=odds or Odds()).diagnose(written)


def changes_of(slips: Hypothesis) -> dict[str, Change]:
    """Return the changes of slips together, by path.

    Parameters
    ----------
    slips : tuple of Slip
    """
    return {path: change for slip in slips for path, change in slip.changes}


def pairs(slips: Iterable[Slip]) -> Iterator[Hypothesis]:
    """Yield two slips at a time that can both happen.

    Parameters
    ----------
    slips : iterable of Slip
    """
    for one, other in combinations(slips, 2):
        if one.place != other.place and not {path for path, _ in one.changes} & {p for p, _ in other.changes}:
            yield one, other


def _merged(known: Iterable[_Weighed], total: float) -> tuple[Candidate, ...]:
    """Return the candidates, what nothing tells apart as one, the likeliest first.

    Slips at the same place that come to several numbers are one; so are slips of the same kinds at other
    places that come to the same numbers.
    """
    placed = _together(known, lambda each: tuple(sorted(slip.place for slip in each.slips)))
    alike = _together(
        (replace(group[0], weight=sum(each.weight for each in group)) for group in placed),
        lambda each: (tuple(sorted(slip.kind for slip in each.slips)), each.effect),
    )
    found = [
        Candidate(
            slips=group[0].slips,
            share=sum(each.weight for each in group) / total,
            alike=tuple(each.slips for each in group[1:]),
            unexplained=group[0].unexplained,
        )
        for group in alike
    ]
    return tuple(sorted(found, key=lambda each: -each.share)[:_KEPT])


def _together(known: Iterable[_Weighed], key: Callable[[_Weighed], Hashable]) -> list[list[_Weighed]]:
    """Return what has the same key together, the weightiest first."""
    groups: dict[Hashable, list[_Weighed]] = {}
    for each in known:
        groups.setdefault(key(each), []).append(each)
    return [sorted(group, key=lambda each: -each.weight) for group in groups.values()]
