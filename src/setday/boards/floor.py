"""The gap between the boards of a wall and the subfloor."""

from collections.abc import Mapping

from setday.findings import Finding, Severity
from setday.measure import Length, write_inches
from setday.rules import RuleBook

__all__ = ["floor_gap", "wide_gap_findings"]


def floor_gap(top: int, widths: tuple[int, ...], rules: RuleBook) -> int:
    """Choose the gap at the floor so that full rows fit where they can.

    Parameters
    ----------
    top : int
        Upper end of the boards above the subfloor [1/64 in].
    widths : tuple of int
        Widths of the boards of the kind it takes [1/64 in].
    rules : RuleBook

    Returns
    -------
    int
        Between the rules' least and most; the usual gap where no full rows fit [1/64 in].
    """
    least = rules.length("boards.floor_gap_least").sixtyfourths
    usual = rules.length("boards.floor_gap_usual").sixtyfourths
    most = rules.length("boards.floor_gap_most").sixtyfourths
    fitting = [top - rows for rows in _full_rows(top, widths) if least <= top - rows <= most]
    return min(fitting, key=lambda g: (abs(g - usual), g), default=max(least, min(usual, most)))


def wide_gap_findings(gaps: Mapping[str, int], rules: RuleBook) -> tuple[Finding, ...]:
    """Return one note for each gap wider than the usual one; `gaps` by the label of the surface."""
    usual = rules.length("boards.floor_gap_usual")
    most = rules.length("boards.floor_gap_most")
    by_gap: dict[str, list[str]] = {}
    for label, gap in gaps.items():
        if gap > usual.sixtyfourths:
            by_gap.setdefault(write_inches(Length(gap)), []).append(label)
    findings = []
    for written, labels in sorted(by_gap.items()):
        findings.append(
            Finding(
                rule="boards.wide-floor-gap",
                about=labels[0] if len(labels) == 1 else f"{len(labels)} walls, from {labels[0]} on",
                found=f"full rows of board leave a gap of {written} at the floor.",
                expected=f"{write_inches(usual)} as usual, {write_inches(most)} at most.",
                do="See that the base trim covers it, or set boards.floor_gap_most lower.",
                severity=Severity.NOTE,
                source=rules["boards.floor_gap_usual"].source,
            )
        )
    return tuple(findings)


def _full_rows(top: int, widths: tuple[int, ...]) -> set[int]:
    """Every height that whole rows of these widths come to, up to `top`."""
    reached, fresh = set[int](), {0}
    while fresh:
        fresh = {h + w for h in fresh for w in widths if 0 < h + w <= top} - reached
        reached |= fresh
    return reached
