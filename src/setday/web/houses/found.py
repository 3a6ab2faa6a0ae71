"""What was found in a file, for its page: beside its lines, counted, and whether it only asks."""

from collections.abc import Collection, Iterable
from typing import Any

from setday.findings import Finding, Severity
from setday.web.houses.listing import listed, unplaced

__all__ = ["counts", "found_in", "only_asks"]


def found_in(findings: Collection[Finding], text: str) -> dict[str, Any]:
    """Return the findings of a file for its page: beside their lines, and those that belong to none.

    Parameters
    ----------
    findings : collection of Finding
    text : str
        Of the file; empty where what was sent in is no text.
    """
    return {
        "findings": findings,
        "rows": listed(text, findings, whole=False) if text else (),
        "loose": unplaced(findings) if text else findings,
        "counts": counts(findings),
        "only_asks": only_asks(findings),
    }


def only_asks(findings: Iterable[Finding]) -> bool:
    """Return whether there are questions and no problems."""
    severities = {finding.severity for finding in findings}
    return Severity.ASK in severities and Severity.PROBLEM not in severities


def counts(findings: Iterable[Finding]) -> dict[str, int]:
    """Return how many findings there are of each severity."""
    found = {str(severity): 0 for severity in Severity}
    for finding in findings:
        found[str(finding.severity)] += 1
    return found
