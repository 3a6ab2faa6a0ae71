"""Making marks at the gates of a house: each entry counts once, however often it is sent."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from hashlib import sha256
from typing import Any

from setday.actions.gates.gathering import GateHouse
from setday.actions.gates.store import GateStore
from setday.closein import (
    WHOLE_HOUSE,
    Added,
    Asked,
    Gate,
    GateRefusal,
    ItemKind,
    Mark,
    MarkKind,
    Signer,
    add,
    check_off,
    confirm,
    gates_of,
    overrule,
    refuse,
    reopen,
    strike,
    take_back,
    withdraw,
)

__all__ = ["Said", "Wish", "add_to_gate", "gate_at", "make_marks", "reopen_surface", "strike_from_gate"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What was said with a form at a gate, by whom and when.

    Parameters
    ----------
    entry : str
        Its own number; the same number sent again is the same thing said.
    by : Signer
    at, now : datetime
        When it was done or seen, and when it is said.
    words, photo : str
    """

    entry: str
    by: Signer
    at: datetime
    now: datetime
    words: str = ""
    photo: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What came of marks that were wanted: those made, those made before by the same entry, those refused.

    Parameters
    ----------
    made : tuple of Mark
    again : tuple of Mark
        That this very entry had made already.
    refused : tuple of GateRefusal
    """

    made: tuple[Mark, ...] = ()
    again: tuple[Mark, ...] = ()
    refused: tuple[GateRefusal, ...] = ()


def gate_at(store: GateStore, asked: Asked, surface: str) -> Gate:
    """Return the gate of a surface as it stands.

    Parameters
    ----------
    store : GateStore
    asked : Asked
    surface : str
        Its id; the house must have it.
    """
    near = {surface, WHOLE_HOUSE, *asked.other_sides[surface]}
    return gates_of(asked, store.marks(near), only=surface)[surface]


def make_marks(
    store: GateStore,
    place: GateHouse,
    surface: str,
    keys: Sequence[str],
    *,
    kind: MarkKind,
    said: Said,
    whole_house: bool = False,
) -> Wish:
    """Make the same mark on several things of a gate; what is refused of one does not stop the others.

    Parameters
    ----------
    store : GateStore
    place : GateHouse
    surface : str
    keys : sequence of str
        Of the items.
    kind : MarkKind
        What is said of each; a closing is no mark on an item.
    said : Said
    whole_house : bool
        For inspections: they passed everywhere.
    """
    made: list[Mark] = []
    again: list[Mark] = []
    refused: list[GateRefusal] = []
    with store.together():
        store.hold()
        asked = place.asked(store.added())
        for key in dict.fromkeys(keys):
            entry = _own_entry(said.entry, surface, key)
            before = store.mark_of(entry)
            if before is not None:
                again.append(before)
                continue
            gate = gate_at(store, asked, surface)
            try:
                mark = _made(store, gate, key, kind, said, entry, whole_house=whole_house)
            except GateRefusal as error:
                refused.append(error)
                continue
            store.write(mark, version=place.version)
            made.append(mark)
    return Wish(made=tuple(made), again=tuple(again), refused=tuple(refused))


def _own_entry(entry: str, surface: str, key: str) -> str:
    """Return the number of one mark of a form, the same whenever the form is sent again."""
    return sha256(f"{entry}|{surface}|{key}".encode()).hexdigest()


def _made(
    store: GateStore,
    gate: Gate,
    key: str,
    kind: MarkKind,
    said: Said,
    entry: str,
    *,
    whole_house: bool,
) -> Mark:
    when: dict[str, Any] = {"entry": entry, "by": said.by, "at": said.at, "now": said.now}
    helper = store.helper_confirms
    if kind is MarkKind.DONE:
        return check_off(gate, key, **when, words=said.words, photo=said.photo)
    if kind is MarkKind.CONFIRMED:
        return confirm(
            gate,
            key,
            **when,
            words=said.words,
            photo=said.photo,
            helper_confirms=helper,
            whole_house=whole_house,
        )
    if kind is MarkKind.REFUSED:
        return refuse(gate, key, **when, words=said.words, helper_confirms=helper)
    if kind is MarkKind.OVERRULED:
        return overrule(gate, key, **when, words=said.words)
    if kind is MarkKind.WITHDRAWN:
        return withdraw(gate, key, **when)
    if kind is MarkKind.TAKEN_BACK:
        return take_back(gate, key, **when)
    raise ValueError(f"{kind} is no mark on an item")


def reopen_surface(store: GateStore, place: GateHouse, surface: str, *, said: Said) -> Mark:
    """Say that the boards of a surface came off again.

    Parameters
    ----------
    store : GateStore
    place : GateHouse
    surface : str
    said : Said

    Raises
    ------
    GateRefusal
    """
    with store.together():
        store.hold()
        before = store.mark_of(said.entry)
        if before is not None:
            return before
        gate = gate_at(store, place.asked(store.added()), surface)
        mark = reopen(gate, entry=said.entry, by=said.by, at=said.at, now=said.now, words=said.words)
        store.write(mark, version=place.version)
        return mark


def add_to_gate(store: GateStore, place: GateHouse, wanted: Added, *, everywhere: bool = False) -> Added:
    """Add something to the gate of a surface; an inspection, to every surface that is open.

    Parameters
    ----------
    store : GateStore
    place : GateHouse
    wanted : Added
        Its key is the number of the entry.
    everywhere : bool
        Ask for it on every surface, as an inspection of the whole house.

    Raises
    ------
    GateRefusal
    """
    with store.together():
        store.hold()
        known = {each.key: each for each in store.added()}
        if wanted.key in known:
            return known[wanted.key]
        asked = place.asked(known.values())
        added = add(gate_at(store, asked, wanted.surface), place.house.surface(wanted.surface), wanted)
        if everywhere and added.kind is not ItemKind.BLOCKING:
            added = replace(added, surface=WHOLE_HOUSE)
        store.add(added)
        return added


def strike_from_gate(
    store: GateStore, place: GateHouse, surface: str, key: str, *, by: Signer, words: str
) -> Added:
    """Ask for an added item no longer; the marks made of it are kept.

    Parameters
    ----------
    store : GateStore
    place : GateHouse
    surface : str
    key : str
        Of the added item.
    by : Signer
    words : str
        Why.

    Raises
    ------
    GateRefusal
    """
    with store.together():
        store.hold()
        every = {each.key: each for each in store.added()}
        if key not in every:
            raise GateRefusal("Nothing of that number was added.", do="Look at the sheet again.")
        gate = gate_at(store, place.asked(every.values()), surface)
        struck = strike(gate, every[key], by=by, words=words)
        store.strike(struck)
        return struck
