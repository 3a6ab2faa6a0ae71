"""What a crew hands in: read from its form, refused with sentences, kept once and only once."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from django.db import IntegrityError
from django.http import HttpRequest
from django.utils.translation import gettext as _

from setday.errors import MeasureError, SetdayError
from setday.web.entries import entered_at, entry_of
from setday.web.keeping.models import Member, SealedEntry, SealedOffer
from setday.web.keeping.turns import in_turn
from setday.web.people.who import members_present

if TYPE_CHECKING:
    from setday.learning import Figure, MatchedLine

__all__ = ["MOST_LINES", "Handed", "hand_in", "matched_lines", "read_form", "sealed_for"]

MOST_LINES = 24
_LONGEST = {"label": 100, "worked": 200, "result": 60}


class _NotTaken(SetdayError):
    """An entry that is not taken; said in the reader's language."""


@dataclass(slots=True, kw_only=True)
class Handed:
    """A form as typed, and what is wrong with it."""

    lines: list[dict[str, str]] = field(default_factory=list)
    answer: str = ""
    worked: str = ""
    offer: str = ""
    boards: list[Any] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)

    @property
    def filled(self) -> list[dict[str, str]]:
        """The lines on which something came out."""
        return [line for line in self.lines if line["result"]]

    @property
    def rows(self) -> list[dict[str, Any]]:
        """The rows of the form, numbered, empty ones at the end."""
        empty = {"label": "", "worked": "", "result": ""}
        padded = [*self.lines, *[empty] * (MOST_LINES - len(self.lines))]
        return [{"n": n, **row} for n, row in enumerate(padded[:MOST_LINES], start=1)]


def sealed_for(member: Member) -> "Any":
    """Return what was offered to a member: to the whole class, or to them."""
    from django.db.models import Q

    every = SealedOffer.objects.of(member.school).filter(school_class=member.school_class)
    mine = every.filter(Q(members__isnull=True) | Q(members=member)).distinct()
    return mine.select_related("version", "school_class").order_by("-pk")


def read_form(form: Mapping[str, str], figure: "Figure") -> Handed:
    """Return what a form says, with every sentence that stands against it."""
    handed = Handed(answer=form.get("answer", "").strip()[:60], worked=form.get("worked", "").strip()[:200])
    for n in range(1, MOST_LINES + 1):
        row = {key: form.get(f"{key}-{n}", "").strip()[:most] for key, most in _LONGEST.items()}
        if any(row.values()):
            handed.lines.append(row)
    for n, row in enumerate(handed.lines, start=1):
        _refuse_line(handed, n, row)
    _refuse_answer(handed, figure)
    return handed


def _refuse_line(handed: Handed, n: int, row: dict[str, str]) -> None:
    from setday.learning import read_number

    if not row["result"]:
        handed.refused.append(
            _("Line %(n)d: nothing comes out. Write its result, or empty the line.") % {"n": n}
        )
        return
    try:
        read_number(row["result"])
    except MeasureError as error:
        handed.refused.append(_("Line %(n)d: %(why)s") % {"n": n, "why": str(error)})


def _refuse_answer(handed: Handed, figure: "Figure") -> None:
    from setday.learning import WrongUnit, read_answer

    try:
        read_answer(handed.answer, unit=figure.unit)
    except WrongUnit as error:
        handed.offer = error.offer
        handed.refused.append(_("Your answer: %(why)s") % {"why": str(error)})
    except MeasureError as error:
        handed.refused.append(_("Your answer: %(why)s") % {"why": str(error)})


def matched_lines(figure: "Figure", entry: "SealedEntry") -> "tuple[MatchedLine, ...]":
    """Return what the lines of an entry say of the lines of the figure, the answer last."""
    from setday.learning import StudentLine, read_lines

    lines = [StudentLine(**line) for line in entry.lines]
    return read_lines(figure, lines, entry.answer, worked=entry.worked)


def hand_in(request: HttpRequest, offer: SealedOffer, handed: Handed) -> SealedEntry:
    """Keep what was handed in; what is kept already under this sign is returned as it is.

    Raises
    ------
    SetdayError
        When the sign is damaged, or no answer is taken any more.
    """
    entry = entry_of(request)
    known = SealedEntry.objects.filter(entry=entry, member__school=request.school).first()
    if known is not None:
        return known
    here = members_present(request)
    try:
        with in_turn():
            locked = SealedOffer.objects.select_for_update().get(pk=offer.pk)
            _still_taken(locked, here[0])
            return SealedEntry.objects.create(
                offer=locked,
                member=here[0],
                entry=entry,
                beside=[each.shown_as for each in here[1:]],
                lines=handed.filled,
                answer=handed.answer,
                worked=handed.worked,
                boards=handed.boards,
                at=entered_at(request),
            )
    except IntegrityError:
        return SealedEntry.objects.get(entry=entry)


def _still_taken(offer: SealedOffer, member: Member) -> None:
    if offer.opened:
        raise _NotTaken(_("The figure was opened; no answer is taken any more."))
    if SealedEntry.objects.filter(offer=offer, member=member).count() >= offer.tries:
        raise _NotTaken(_("You handed in as often as is allowed."))
