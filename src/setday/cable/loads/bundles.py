"""Cables that pass one hole together: what each may still carry, NEC 334.80."""

from collections.abc import Iterable, Mapping

from setday.cable.circuit import Circuit
from setday.cable.run import Cable, Hole
from setday.electric import bundled_ampacity
from setday.findings import Finding, Severity

__all__ = ["check_bundles"]

_FREE = 2
"""Up to so many cables in one sealed hole keep their ampacity, 334.80."""


def check_bundles(
    holes: Iterable[Hole], cables: Iterable[Cable], circuits: Mapping[str, Circuit]
) -> tuple[Finding, ...]:
    """Find holes through plates with so many cables that a breaker is too large for what is left.

    Parameters
    ----------
    holes : iterable of Hole
        Holes up and down are sealed against fire; only those count.
    cables : iterable of Cable
    circuits : mapping
        By name.
    """
    by_number = {cable.number: cable for cable in cables}
    findings = []
    for hole in holes:
        inside = [by_number[number] for number in hole.runs if number in by_number]
        if not hole.upright or len(inside) <= _FREE:
            continue
        kept = bundled_ampacity([cable.kind for cable in inside])
        most = max((circuits[c.circuit].breaker for c in inside if c.circuit in circuits), default=0)
        if most > kept.value:
            findings.append(_finding(hole, len(inside), kept.value, most))
    return tuple(findings)


def _finding(hole: Hole, count: int, kept: float, most: int) -> Finding:
    return Finding(
        rule="cable.bundle",
        about=f"the hole in {hole.wall or 'the floor'} at {hole.along}",
        found=f"{count} cables pass it; once it is sealed they carry {kept:g} A, and one is on {most} A.",
        expected=f"a breaker of {kept:g} A, or fewer cables.",
        do="Bore a second hole and divide them.",
        severity=Severity.ASK,
    )
