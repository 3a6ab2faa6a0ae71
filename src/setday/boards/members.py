"""What a joint may land on behind a surface: members, with the plates and headers in line with them."""

from setday.boards.outline import Ring, bounds
from setday.boards.problem import Joist
from setday.findings import Finding, Severity
from setday.house import House, MemberKind, Span, Surface
from setday.measure import Length

__all__ = ["edge_findings", "joists"]

_LYING = (MemberKind.HEADER, MemberKind.SILL, MemberKind.BOTTOM_PLATE, MemberKind.TOP_PLATE)
_TOUCH = 8
"""Members end to end with a gap smaller than this back a joint together [1/64 in] (our own, 1/8 in)."""

Stretch = tuple[int, int]


def joists(surface: Surface, house: House, outline: Ring, dx: int, dy: int) -> tuple[Joist, ...]:
    """Return the members behind `outline`, which is the surface's own moved by (dx, dy).

    Plates, headers and rough sills lengthen the member they touch: they too take the screws of a joint.
    """
    left, bottom, right, top = bounds(outline)
    lines: dict[int, list[Stretch]] = {}
    for backing in surface.backing:
        lines.setdefault(backing.x.sixtyfourths, []).append(
            (backing.y_low.sixtyfourths, backing.y_high.sixtyfourths)
        )
    lying = _lying(surface, house)
    found = []
    for x, stretches in lines.items():
        if not left < x + dx < right:
            continue
        across = [(low, high) for a, b, low, high in lying if a <= x <= b]
        for low, high in _joined(stretches, across):
            y_low, y_high = max(low + dy, bottom), min(high + dy, top)
            if y_low < y_high:
                found.append(Joist(x=x + dx, y_low=y_low, y_high=y_high))
    return tuple(sorted(found, key=lambda j: (j.x, j.y_low)))


def edge_findings(surface: Surface) -> tuple[Finding, ...]:
    """Ask for backing at the upright edges of wet areas that have no member behind them."""
    findings = []
    for patch in surface.wet:
        for name, at in (("left", patch.x), ("right", patch.x + patch.w)):
            free = not Length(0) < at < surface.width
            if free or any(abs(b.x - at) <= b.width // 2 for b in surface.backing):
                continue
            findings.append(
                Finding(
                    rule="boards.wet-edge-without-backing",
                    about=f"{patch.name} on {surface.label}",
                    found=f"no member stands behind its {name} edge, {at} from the left of the wall.",
                    expected="a stud or a backer behind every edge of board that runs with the framing.",
                    do="Add a backer there, or move the edge to a stud.",
                    severity=Severity.ASK,
                )
            )
    return tuple(findings)


def _joined(stretches: list[Stretch], lying: list[Stretch]) -> list[Stretch]:
    """Join stretches that touch; lying members alone are kept out unless they touch an upright one."""
    merged: list[tuple[int, int, bool]] = []
    marked = sorted([(a, b, True) for a, b in stretches] + [(a, b, False) for a, b in lying])
    for low, high, upright in marked:
        if merged and low <= merged[-1][1] + _TOUCH:
            first, last, had = merged[-1]
            merged[-1] = (first, max(last, high), had or upright)
        else:
            merged.append((low, high, upright))
    return [(low, high) for low, high, upright in merged if upright]


def _lying(surface: Surface, house: House) -> list[tuple[int, int, int, int]]:
    walls = {wall.name: wall for wall in house.walls}
    found = []
    for span in surface.spans:
        if span.wall not in walls or span.side not in ("left", "right"):
            continue
        for member in walls[span.wall].members:
            if member.kind in _LYING:
                ends = sorted(
                    _on_surface(span, m) for m in (member.left.sixtyfourths, member.right.sixtyfourths)
                )
                top = max(member.top_left, member.top_right).sixtyfourths
                found.append((ends[0], ends[1], member.bottom.sixtyfourths, top))
    return found


def _on_surface(span: Span, along: int) -> int:
    ahead = along - span.along.sixtyfourths
    return span.x.sixtyfourths + (ahead if span.forward else -ahead)
