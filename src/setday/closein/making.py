"""Marks on the things of a gate: what may be said of them, by whom and when, and what is refused."""

from datetime import datetime

from setday.closein.gate import Gate, GateState, ItemState, Stand
from setday.closein.grounds import LONGEST, closed_already, only_instructor, reason, still_to_come
from setday.closein.item import WHOLE_HOUSE, ItemKind
from setday.closein.marks import Mark, MarkKind, Role, Signer
from setday.closein.refusal import GateRefusal

__all__ = ["check_off", "confirm", "overrule", "refuse", "take_back", "withdraw"]

_DOERS = {Role.STUDENT, Role.HELPER, Role.INSTRUCTOR}


def check_off(
    gate: Gate,
    key: str,
    *,
    entry: str,
    by: Signer,
    at: datetime,
    now: datetime,
    words: str = "",
    photo: str = "",
) -> Mark:
    """Say that a thing is in.

    Parameters
    ----------
    gate : Gate
    key : str
        Of the item.
    entry : str
        Number of this entry.
    by : Signer
        Who did it.
    at : datetime
        When it was done.
    now : datetime
        When this is said.
    words, photo : str
        What there is to say; key of a photo.

    Raises
    ------
    GateRefusal
    """
    stand = _open_stand(gate, key)
    if by.role not in _DOERS:
        raise GateRefusal("A reader looks and checks nothing off.", do="Ask a student of the crew.")
    if by.role is Role.STUDENT and stand.item.kind is ItemKind.INSPECTION:
        raise GateRefusal(
            f"'{stand.item.label}' is not a student's to check off.",
            do="The instructor asks for inspections and enters what came of them.",
        )
    if stand.state is ItemState.CONFIRMED:
        raise GateRefusal(f"'{stand.item.label}' is confirmed already.", do="Nothing more is to be done.")
    done = stand.done
    if done is not None:
        raise GateRefusal(
            f"'{stand.item.label}' was checked off already{_by(done.by, by)}.",
            do="The instructor looks at it next.",
        )
    _possible(stand, at=at, now=now)
    return _mark(gate, stand, MarkKind.DONE, entry=entry, by=by, at=at, words=words, photo=photo)


def confirm(
    gate: Gate,
    key: str,
    *,
    entry: str,
    by: Signer,
    at: datetime,
    now: datetime,
    helper_confirms: bool = False,
    whole_house: bool = False,
    words: str = "",
    photo: str = "",
) -> Mark:
    """Say that a thing was seen and is right; the instructor may do so before anybody checked it off.

    Parameters
    ----------
    gate : Gate
    key : str
    entry : str
    by : Signer
    at, now : datetime
        When it was seen, and when this is said.
    helper_confirms : bool
        Whether the instructor lets helpers confirm.
    whole_house : bool
        For an inspection: it passed on every surface that asks for it.
    words, photo : str

    Raises
    ------
    GateRefusal
    """
    stand = _open_stand(gate, key)
    _may_confirm(stand, by, helper_confirms=helper_confirms)
    if stand.state is ItemState.CONFIRMED:
        raise GateRefusal(f"'{stand.item.label}' is confirmed already.", do="Nothing more is to be done.")
    _in_order(gate, stand)
    _possible(stand, at=at, now=now)
    everywhere = whole_house and stand.item.kind is ItemKind.INSPECTION
    return _mark(
        gate,
        stand,
        MarkKind.CONFIRMED,
        entry=entry,
        by=by,
        at=at,
        words=words,
        photo=photo,
        surface=WHOLE_HOUSE if everywhere else None,
    )


def refuse(
    gate: Gate,
    key: str,
    *,
    entry: str,
    by: Signer,
    at: datetime,
    now: datetime,
    words: str,
    helper_confirms: bool = False,
) -> Mark:
    """Say that a thing must be done again, and why.

    Parameters
    ----------
    gate : Gate
    key : str
    entry : str
    by : Signer
    at, now : datetime
    words : str
        Why.
    helper_confirms : bool
        Whether the instructor lets helpers confirm, and so refuse.

    Raises
    ------
    GateRefusal
    """
    stand = _open_stand(gate, key)
    _may_confirm(stand, by, helper_confirms=helper_confirms, refusing=True)
    if stand.state in {ItemState.OPEN, ItemState.REFUSED}:
        raise GateRefusal(
            f"'{stand.item.label}' is not checked off, so there is nothing to refuse.",
            do="Wait until somebody checks it off.",
        )
    _possible(stand, at=at, now=now)
    said = reason(words, "what must be done again")
    return _mark(gate, stand, MarkKind.REFUSED, entry=entry, by=by, at=at, words=said)


def overrule(
    gate: Gate, key: str, *, entry: str, by: Signer, at: datetime, now: datetime, words: str
) -> Mark:
    """Let a surface be closed without a thing; the reason stays on record.

    Parameters
    ----------
    gate : Gate
    key : str
        Of the item; one of the other side of the wall goes on being asked for there.
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
    stand = _open_stand(gate, key)
    only_instructor(by, "overrules a gate")
    if stand.settled:
        raise GateRefusal(
            f"'{stand.item.label}' does not stand in the way.", do="Nothing is to be overruled."
        )
    _possible(stand, at=at, now=now)
    said = reason(words, "why the surface may be closed without it")
    return _mark(gate, stand, MarkKind.OVERRULED, entry=entry, by=by, at=at, words=said)


def withdraw(gate: Gate, key: str, *, entry: str, by: Signer, at: datetime, now: datetime) -> Mark:
    """Take an overruling back.

    Parameters
    ----------
    gate : Gate
    key : str
    entry : str
    by : Signer
    at, now : datetime

    Raises
    ------
    GateRefusal
    """
    stand = _open_stand(gate, key)
    only_instructor(by, "takes an overruling back")
    if stand.state is not ItemState.OVERRULED:
        raise GateRefusal(f"'{stand.item.label}' is not overruled.", do="Nothing is to be taken back.")
    _possible(stand, at=at, now=now)
    return _mark(gate, stand, MarkKind.WITHDRAWN, entry=entry, by=by, at=at)


def take_back(gate: Gate, key: str, *, entry: str, by: Signer, at: datetime, now: datetime) -> Mark:
    """Take a check-off back: it is not in after all.

    Parameters
    ----------
    gate : Gate
    key : str
    entry : str
    by : Signer
        Whoever checked it off, or the instructor.
    at, now : datetime

    Raises
    ------
    GateRefusal
    """
    stand = _open_stand(gate, key)
    if stand.state is not ItemState.DONE or stand.done is None:
        raise GateRefusal(
            f"'{stand.item.label}' is {stand.state.value}; only a check-off that waits can be taken back.",
            do="The instructor refuses what is confirmed and wrong.",
        )
    if by.role is not Role.INSTRUCTOR and by.key != stand.done.by.key:
        raise GateRefusal(
            "Somebody else checked this off.", do="Ask them, or the instructor, to take it back."
        )
    _possible(stand, at=at, now=now)
    return _mark(gate, stand, MarkKind.TAKEN_BACK, entry=entry, by=by, at=at)


def _mark(
    gate: Gate,
    stand: Stand,
    kind: MarkKind,
    *,
    entry: str,
    by: Signer,
    at: datetime,
    words: str = "",
    photo: str = "",
    surface: str | None = None,
) -> Mark:
    """Write a mark of an item: on its own surface, an overruling on the one that is to be closed."""
    own = gate.surface if kind in {MarkKind.OVERRULED, MarkKind.WITHDRAWN} else stand.item.surface
    return Mark(
        entry=entry,
        surface=own if surface is None else surface,
        item=stand.item.key,
        label=stand.item.label,
        kind=kind,
        by=by,
        at=at,
        words=words.strip()[:LONGEST],
        photo=photo,
    )


def _open_stand(gate: Gate, key: str) -> Stand:
    if gate.state is GateState.CLOSED:
        raise closed_already(gate)
    stand = gate.stand(key)
    if stand is None:
        raise GateRefusal(
            f"{gate.label} does not ask for this any more: the house file was changed.",
            do="Look at the sheet again.",
        )
    return stand


def _may_confirm(stand: Stand, by: Signer, *, helper_confirms: bool, refusing: bool = False) -> None:
    if by.role is Role.INSTRUCTOR:
        return
    if by.role is not Role.HELPER or not helper_confirms:
        raise GateRefusal("Only the instructor confirms and refuses.", do="Ask the instructor to look at it.")
    done = stand.done
    if done is None and not refusing:
        raise GateRefusal(
            f"'{stand.item.label}' is not checked off.", do="Whoever did it checks it off first."
        )
    if done is not None and done.by.key == by.key and not refusing:
        raise GateRefusal("You checked this off yourself.", do="Somebody else must look at it.")


def _in_order(gate: Gate, stand: Stand) -> None:
    """Refuse an inspection that comes after another which is not passed."""
    for key in stand.item.after:
        before = gate.stand(key)
        if before is not None and not before.settled:
            raise GateRefusal(
                f"'{before.item.label}' comes before '{stand.item.label}' and is {before.state.value}.",
                do="Enter that one first.",
            )


def _by(who: Signer, told: Signer) -> str:
    """Return who it was, for whoever may know: a student is told no other student's name."""
    return f" by {who.name}" if told.role is not Role.STUDENT or told.key == who.key else ""


def _possible(stand: Stand, *, at: datetime, now: datetime) -> None:
    if at.tzinfo is None or now.tzinfo is None:
        raise ValueError("a mark needs a time with its zone")
    if at > now:
        raise still_to_come()
    last = stand.last
    if last is not None and at < last.at:
        raise GateRefusal(
            f"'{stand.item.label}' was {last.kind.value} later than the time you gave.",
            do="Give a later time.",
        )
