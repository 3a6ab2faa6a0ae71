"""The boards of a house, figured: prepared, laid out, verified, and everything that follows."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Protocol

from setday.boards.area import AreaCount, count_by_area
from setday.boards.choices import BoardChoices
from setday.boards.comparison import Comparison, side_by_side
from setday.boards.cutlist import CutList, cut_list
from setday.boards.hardware import Hardware, figure_hardware
from setday.boards.hours import hanging_work
from setday.boards.laidout import LaidOut
from setday.boards.outcome import Bound, Limits, Outcome, Progress, Status
from setday.boards.problem import Board, BoardProblem
from setday.boards.surfaces import Prepared, board_problem
from setday.boards.verify import Totals, totals, verify, verify_outcome
from setday.boards.weight import stack_findings
from setday.findings import Finding, Severity, in_order
from setday.house import House
from setday.needs import WorkItem
from setday.rules import Rule, RuleBook
from setday.working import Working

__all__ = ["BoardFigure", "Solve", "figure"]

OnProgress = Callable[[Progress], bool]
"""Told how a search gets on; what it returns is handed to the search unchanged."""


class Solve(Protocol):
    """The layout optimiser, as it is called."""

    def __call__(
        self, problem: BoardProblem, *, limits: Limits, on_progress: OnProgress | None = None
    ) -> Outcome:
        """Lay a problem out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardFigure:
    """Everything about the boards of one house.

    Parameters
    ----------
    prepared : Prepared
    outcome : Outcome
        Its layout, where there is one, passed the verifier.
    findings : tuple of Finding
        Of the house's boards and of the verifier.
    by_area : AreaCount
    totals : Totals or None
        Counted afresh from the layout; None without one, as are the following.
    hardware : Hardware or None
    cut_list : CutList or None
    comparison : Comparison or None
    work : tuple of WorkItem
    settings : tuple of Rule
    """

    prepared: Prepared
    outcome: Outcome
    findings: tuple[Finding, ...]
    by_area: AreaCount
    totals: Totals | None
    hardware: Hardware | None
    cut_list: CutList | None
    comparison: Comparison | None
    work: tuple[WorkItem, ...]
    settings: tuple[Rule, ...]

    @property
    def laid_out(self) -> LaidOut | None:
        """The layout read with its problem."""
        if self.outcome.layout is None:
            return None
        return LaidOut(problem=self.prepared.problem, layout=self.outcome.layout)

    @property
    def workings(self) -> tuple[Working, ...]:
        """Every working behind the figures."""
        hardware = self.hardware.workings if self.hardware else ()
        hours = tuple(item.working for item in self.work if item.working)
        return (self.by_area.working, *hardware, *hours)


def figure(
    house: House,
    *,
    choices: BoardChoices,
    rules: RuleBook,
    boards: tuple[Board, ...],
    limits: Limits,
    on_progress: OnProgress | None = None,
    solve: Solve | None = None,
) -> BoardFigure:
    """Lay the boards of a house out and figure everything that follows from the layout.

    Parameters
    ----------
    house : House
    choices : BoardChoices
    rules : RuleBook
        From `setday.boards.board_rules`, local rules put in.
    boards : tuple of Board
        The boards of the price list.
    limits : Limits
        How long the search may run, its seed, its workers.
    on_progress : callable or None
        Told how the search gets on; a layout it is shown has passed the verifier.
    solve : callable or None
        The optimiser; None takes `setday.boards.layout.solve`.

    Returns
    -------
    BoardFigure
        A layout that fails the verifier is never in it: the outcome then has status "none" and the
        findings say what failed.
    """
    prepared = board_problem(house, choices=choices, rules=rules, boards=boards)
    by_area = count_by_area(house, choices=choices, rules=rules)
    outcome, verified = _solved(prepared, limits, on_progress, solve)
    plain = BoardFigure(
        prepared=prepared,
        outcome=outcome,
        findings=in_order((*prepared.findings, *verified)),
        by_area=by_area,
        totals=None,
        hardware=None,
        cut_list=None,
        comparison=None,
        work=(),
        settings=tuple(rules),
    )
    return _with_layout(plain, house, choices, rules)


def _solved(
    prepared: Prepared, limits: Limits, on_progress: OnProgress | None, solve: Solve | None
) -> tuple[Outcome, tuple[Finding, ...]]:
    if prepared.stands_in_the_way:
        return _none(tuple(str(finding) for finding in prepared.stands_in_the_way)), ()
    if not prepared.problem.surfaces:
        return _none(("The house has no surface that takes boards.",)), ()
    run = solve or _optimiser()
    outcome = run(prepared.problem, limits=limits, on_progress=_checked(prepared.problem, on_progress))
    findings = verify_outcome(prepared.problem, outcome)
    if any(finding.severity is Severity.PROBLEM for finding in findings):
        failed = ("The layout found does not pass its check and is not shown.",)
        return replace(_none(failed), bound=outcome.bound, seconds=outcome.seconds), findings
    return outcome, findings


def _optimiser() -> Solve:
    from setday.boards.layout import solve

    return solve


def _checked(problem: BoardProblem, on_progress: OnProgress | None) -> OnProgress | None:
    """Return the listener, shown only layouts that pass the verifier."""
    if on_progress is None:
        return None

    def tell(progress: Progress) -> bool:
        layout = progress.layout
        if layout is not None and any(f.severity is Severity.PROBLEM for f in verify(problem, layout)):
            progress = replace(progress, layout=None)
        return on_progress(progress)

    return tell


def _none(why: tuple[str, ...]) -> Outcome:
    return Outcome(
        status=Status.NONE,
        layout=None,
        cost_cents=0,
        butt_joint=0,
        pieces=0,
        bound=Bound(cost_cents=0.0, area_cost_cents=0.0, method="none"),
        seconds=0.0,
        why_none=why,
    )


def _with_layout(plain: BoardFigure, house: House, choices: BoardChoices, rules: RuleBook) -> BoardFigure:
    laid = plain.laid_out
    if laid is None:
        return plain
    counted = totals(laid.problem, laid.layout)
    return replace(
        plain,
        findings=in_order((*plain.findings, *stack_findings(laid, rules))),
        totals=counted,
        hardware=figure_hardware(laid, plain.prepared, house, rules),
        cut_list=cut_list(laid),
        comparison=side_by_side(plain.by_area, laid, counted),
        work=hanging_work(laid.problem, class_factor=choices.class_factor, rules=rules),
    )
