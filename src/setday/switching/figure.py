"""The hookups of a house, figured: each looked over, tried in every position and judged."""

from collections.abc import Iterable
from dataclasses import dataclass

from setday.findings import Finding, Severity, in_order
from setday.rules import RuleBook
from setday.switching.hookup import Hookup
from setday.switching.judging import Judgment, judge
from setday.switching.sense import check

__all__ = ["HookupFigured", "SwitchingFigure", "figure"]


@dataclass(frozen=True, kw_only=True, eq=False)
class HookupFigured:
    """A hookup and what became of it.

    Parameters
    ----------
    hookup : Hookup
    findings : tuple of Finding
        What in it does not fit together.
    judgment : Judgment or None
        None where it does not fit together, so that nothing can be tried.
    """

    hookup: Hookup
    findings: tuple[Finding, ...]
    judgment: Judgment | None

    @property
    def clean(self) -> bool:
        """True when it does what is wanted and no code rule in force speaks against it."""
        return self.judgment is not None and self.judgment.clean


@dataclass(frozen=True, kw_only=True, eq=False)
class SwitchingFigure:
    """Every hookup of a house, figured."""

    hookups: tuple[HookupFigured, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything found on all of them."""
        found = [f for each in self.hookups for f in each.findings]
        found += [f for each in self.hookups if each.judgment for f in each.judgment.findings]
        return in_order(found)


def figure(hookups: Iterable[Hookup], *, rules: RuleBook | None = None) -> SwitchingFigure:
    """Look hookups over, try them in every position and judge them.

    Parameters
    ----------
    hookups : iterable of Hookup
    rules : RuleBook or None
        None takes the published rules with each hookup's own local ones.
    """
    return SwitchingFigure(hookups=tuple(_figured(hookup, rules) for hookup in hookups))


def _figured(hookup: Hookup, rules: RuleBook | None) -> HookupFigured:
    findings = check(hookup)
    if any(finding.severity is Severity.PROBLEM for finding in findings):
        return HookupFigured(hookup=hookup, findings=findings, judgment=None)
    return HookupFigured(hookup=hookup, findings=findings, judgment=judge(hookup, rules, mend=False))
