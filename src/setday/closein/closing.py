"""Closing a surface, and opening it again."""

from datetime import datetime

from setday.closein.gate import Gate, GateState
from setday.closein.grounds import LONGEST, closed_already, only_instructor, reason, still_to_come
from setday.closein.marks import Mark, MarkKind, Signer
from setday.closein.refusal import GateRefusal

__all__ = ["close", "reopen"]


def close(gate: Gate, *, entry: str, by: Signer, at: datetime, now: datetime, words: str = "") -> Mark:
    """Say that a surface is covered.

    Parameters
    ----------
    gate : Gate
        Ready to close, or overruled.
    entry : str
    by : Signer
        The instructor.
    at, now : datetime
    words : str

    Raises
    ------
    GateRefusal
    """
    only_instructor(by, "closes a surface")
    if gate.state is GateState.CLOSED:
        raise closed_already(gate)
    if not gate.state.may_close:
        names = "; ".join(f"'{each.item.label}' ({each.state.value})" for each in gate.open_items[:3])
        more = len(gate.open_items) - 3
        raise GateRefusal(
            f"{gate.label} is {gate.state.value}: {names}{f' and {more} more' if more > 0 else ''}.",
            do="Have it done and confirmed, or overrule it with a reason.",
        )
    if at > now:
        raise still_to_come()
    if gate.newest is not None and at < gate.newest:
        raise GateRefusal(
            f"{gate.label} cannot have been closed before what is inside was last done or seen.",
            do="Give a later time.",
        )
    return Mark(
        entry=entry, surface=gate.surface, item="", label=gate.label, kind=MarkKind.CLOSED, by=by, at=at,
        words=words.strip()[:LONGEST],
    )  # fmt: skip


def reopen(gate: Gate, *, entry: str, by: Signer, at: datetime, now: datetime, words: str) -> Mark:
    """Say that the boards came off again; the record of the closing stays.

    Parameters
    ----------
    gate : Gate
    entry : str
    by : Signer
        The instructor.
    at, now : datetime
    words : str
        Why.

    Raises
    ------
    GateRefusal
    """
    only_instructor(by, "opens a surface again")
    if gate.closing is None:
        raise GateRefusal(f"{gate.label} is not closed.", do="Nothing is to be opened.")
    if at > now:
        raise still_to_come()
    if at < gate.closing.at:
        raise GateRefusal(f"{gate.label} cannot be opened before it was closed.", do="Give a later time.")
    said = reason(words, "why the boards come off again")
    return Mark(
        entry=entry, surface=gate.surface, item="", label=gate.label, kind=MarkKind.REOPENED, by=by, at=at,
        words=said,
    )  # fmt: skip
