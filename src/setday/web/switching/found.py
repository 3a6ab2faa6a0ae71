"""What was found in a hookup file, beside its lines."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from setday.findings import Finding, Severity
from setday.web.houses.listing import listed, unplaced

if TYPE_CHECKING:
    from setday.files import HookupFile

__all__ = ["as_text", "counts", "found_in", "only_asks"]


def as_text(data: bytes | str) -> str:
    """Return what was sent in as text; nothing where it is none."""
    if isinstance(data, str):
        return data
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return ""
    return "" if "\0" in text else text.replace("\r\n", "\n").replace("\r", "\n")


def found_in(read: "HookupFile", text: str) -> dict[str, Any]:
    """Return the findings of a file for its page: beside their lines, and those that belong to none."""
    return {
        "findings": read.findings,
        "rows": listed(text, read.findings, whole=False) if text else (),
        "loose": unplaced(read.findings) if text else read.findings,
        "counts": counts(read.findings),
        "only_asks": only_asks(read.findings),
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
