"""How the verifier words what it finds."""

from setday.findings import Finding
from setday.measure import Length, write_feet_inches

__all__ = ["RELAXABLE", "at", "fault", "size"]

RELAXABLE = (
    "boards.verify.stagger",
    "boards.verify.opening-corner",
    "boards.verify.least-piece",
    "boards.verify.least-row",
    "boards.verify.on-member",
    "boards.verify.factory-edge",
)
"""Rules of the trade that may give way where a surface admits nothing else; all others hold always."""


def fault(rule: str, about: str, found: str, expected: str = "") -> Finding:
    """Return a finding of the verifier; `rule` without its prefix."""
    return Finding(
        rule=f"boards.verify.{rule}",
        about=about,
        found=found,
        expected=expected,
        do="This layout is not to be built from; run the layout again and keep this message.",
    )


def size(length: int) -> str:
    """Write a length of so many sixty-fourths exactly."""
    return write_feet_inches(Length(length), nearest=None)


def at(x: float, y: float) -> str:
    """Write a place on a surface."""
    return f"{size(round(x))} from the left, {size(round(y))} up"
