"""A roster held against a class: who on it is new, who is in the class already, and what would change."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from django.db import transaction
from django.utils.translation import gettext as _

from setday.roster import plain
from setday.web.keeping.members import keep_member
from setday.web.keeping.models import Member, MemberRole, SchoolClass

if TYPE_CHECKING:
    from setday.files import RosterEntry

__all__ = ["Coming", "held_against", "keep_roster"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Coming:
    """One line of a roster, and what keeping it would do.

    Parameters
    ----------
    name, number : str
    born : date or None
    classes : tuple of str
        Keys of the classes it stands in, as in the file.
    state : str
        What would happen, in words.
    to_keep : bool
        Whether keeping it changes anything.
    """

    name: str
    number: str
    born: date | None
    classes: tuple[str, ...]
    state: str
    to_keep: bool

    def record(self) -> dict[str, Any]:
        """Return it as it travels with the page."""
        born = self.born.isoformat() if self.born else ""
        return {"name": self.name, "number": self.number, "born": born, "classes": list(self.classes)}


def held_against(entries: "Iterable[RosterEntry]", *, school_class: SchoolClass) -> list[Coming]:
    """Return every line of a roster with what keeping it in a class would do."""
    here = _Here(school_class)
    return [_coming(entry, here) for entry in entries]


class _Here:
    """The students of a class, found by number, then by name."""

    def __init__(self, school_class: SchoolClass) -> None:
        found = Member.objects.filter(school_class=school_class, role=MemberRole.CREW).order_by(
            "-active", "pk"
        )
        members = list(found)
        self._by_number = {plain(each.number): each for each in reversed(members) if each.number}
        self._by_name = {plain(each.name): each for each in reversed(members)}

    def member(self, *, name: str, number: str) -> Member | None:
        """Return the student a line means; a number that differs means another of the same name."""
        if number and plain(number) in self._by_number:
            return self._by_number[plain(number)]
        found = self._by_name.get(plain(name))
        if found is not None and number and found.number and plain(found.number) != plain(number):
            return None
        return found


def _coming(entry: "RosterEntry", here: _Here) -> Coming:
    state, to_keep = _would_do(entry, here)
    return Coming(
        name=entry.name,
        number=entry.number,
        born=entry.born,
        classes=entry.classes,
        state=state,
        to_keep=to_keep,
    )


def _would_do(entry: "RosterEntry", here: _Here) -> tuple[str, bool]:
    """Return what keeping a line does, in words, and whether that is anything."""
    if entry.role != "student":
        words = _("no student in the file: make an account for them under Helpers, readers, instructors")
        return words, False
    if entry.double_of is not None:
        return _("stands on line %(line)d already") % {"line": entry.double_of.line}, False
    known = here.member(name=entry.name, number=entry.number)
    if known is None:
        return _("new"), True
    if not known.active:
        return _("was put away: comes back"), True
    changes = _changes(known, born=entry.born, number=entry.number)
    if changes:
        return _("in the class; changes: %(what)s") % {"what": ", ".join(changes)}, True
    return _("in the class: nothing changes"), False


def _changes(known: Member, *, born: date | None, number: str) -> list[str]:
    """Return what a line says otherwise than the records, in words."""
    found = []
    if born is not None and born != known.born:
        found.append(_("born %(day)s") % {"day": born.isoformat()})
    if number and number != known.number:
        found.append(_("number %(number)s") % {"number": number})
    return found


@transaction.atomic
def keep_roster(records: Iterable[dict[str, Any]], *, school_class: SchoolClass) -> tuple[int, int]:
    """Take students into a class; return how many are new, and how many were changed.

    Parameters
    ----------
    records : iterable of dict
        As `Coming.record` writes them.
    school_class : SchoolClass
    """
    new = changed = 0
    for record in records:
        born = date.fromisoformat(record["born"]) if record["born"] else None
        known = _Here(school_class).member(name=record["name"], number=record["number"])
        if known is None:
            facts = {"name": record["name"], "number": record["number"], "born": born}
            keep_member(school_class.school, school_class=school_class, **facts)
            new += 1
        else:
            known.born, known.number = born or known.born, record["number"] or known.number
            known.active = True
            known.save(update_fields=["born", "number", "active"])
            changed += 1
    return new, changed
