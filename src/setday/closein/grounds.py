"""On what grounds something at a gate is refused, whatever it is."""

from setday.closein.gate import Gate
from setday.closein.marks import Role, Signer
from setday.closein.refusal import GateRefusal

__all__ = ["LONGEST", "closed_already", "only_instructor", "reason", "still_to_come"]

LEAST, LONGEST = 3, 1000
"""Letters a reason has at the least and at the most; ours."""


def closed_already(gate: Gate) -> GateRefusal:
    """Return why nothing is marked on a closed surface."""
    mark = gate.closing
    who = f", says {mark.by.name}" if mark else ""
    return GateRefusal(
        f"{gate.label} is closed{who}; what is inside it is on record.",
        do="If the boards come off again, the instructor opens it first.",
    )


def only_instructor(by: Signer, does: str) -> None:
    """Refuse what the instructor alone does."""
    if by.role is not Role.INSTRUCTOR:
        raise GateRefusal(f"Only the instructor {does}.", do="Ask the instructor.")


def still_to_come() -> GateRefusal:
    """Return why a time is refused that lies ahead."""
    return GateRefusal("The time you gave is still to come.", do="Give the time at which it was done.")


def reason(words: str, what: str) -> str:
    """Return a reason in one line; refuse none."""
    said = " ".join(words.split())
    if len(said) < LEAST:
        raise GateRefusal(f"A reason is missing: {what}.", do="Write it in a few words.")
    return said[:LONGEST]
