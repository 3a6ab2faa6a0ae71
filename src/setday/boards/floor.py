"""The gap between the boards of a wall and the subfloor."""

from setday.findings import Finding, Severity
from setday.house import Surface
from setday.measure import Length, write_inches
from setday.rules import RuleBook

__all__ = ["floor_gap"]


def floor_gap(
    surface: Surface, top: int, widths: tuple[int, ...], rules: RuleBook
) -> tuple[int, tuple[Finding, ...]]:
    """Choose the gap at the floor so that full rows fit where they can.

    Parameters
    ----------
    surface : Surface
    top : int
        Upper end of the boards above the subfloor [1/64 in].
    widths : tuple of int
        Widths of the boards of the kind it takes [1/64 in].
    rules : RuleBook

    Returns
    -------
    gap : int
        Between the rules' least and most; the usual gap where no full rows fit [1/64 in].
    findings : tuple of Finding
        A note where the gap is wider than the usual one.
    """
    least = rules.length("boards.floor_gap_least").sixtyfourths
    usual = rules.length("boards.floor_gap_usual").sixtyfourths
    most = rules.length("boards.floor_gap_most").sixtyfourths
    fitting = [top - rows for rows in _full_rows(top, widths) if least <= top - rows <= most]
    gap = min(fitting, key=lambda g: (abs(g - usual), g), default=max(least, min(usual, most)))
    if gap <= usual:
        return gap, ()
    return gap, (
        Finding(
            rule="boards.wide-floor-gap",
            about=surface.label,
            found=f"full rows of board leave a gap of {write_inches(Length(gap))} at the floor.",
            expected=f"{write_inches(Length(usual))} as usual, {write_inches(Length(most))} at most.",
            do="See that the base trim covers it, or set boards.floor_gap_most lower.",
            severity=Severity.NOTE,
            source=rules["boards.floor_gap_usual"].source,
        ),
    )


def _full_rows(top: int, widths: tuple[int, ...]) -> set[int]:
    """Every height that whole rows of these widths come to, up to `top`."""
    reached, fresh = set[int](), {0}
    while fresh:
        fresh = {h + w for h in fresh for w in widths if 0 < h + w <= top} - reached
        reached |= fresh
    return reached
