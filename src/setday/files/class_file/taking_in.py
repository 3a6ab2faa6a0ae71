"""Proposals of a school's calendar that the instructor said yes to, written into the class file."""

from collections.abc import Iterable

from setday.errors import FileProblem
from setday.files.calendars import Proposal, ProposalKind
from setday.files.class_file.reading import read_class
from setday.files.written.lines import Plain
from setday.files.written.writing import Change, write_changes
from setday.roster import Guest, Stretch, plain

__all__ = ["take_in_proposals"]


def take_in_proposals(text: str, accepted: Iterable[Proposal]) -> str:
    """Return the text of a class file with days off, early dismissals and guests put in.

    Parameters
    ----------
    text : str
        The class file as it is; notes, order and layout stay.
    accepted : iterable of Proposal
        Those the instructor said yes to; what means nothing is passed over.

    Raises
    ------
    FileProblem
        When the file cannot be read, or an early dismissal does not say when the day ends.
    """
    for proposal in accepted:
        text = write_changes(text, _changes(text, proposal))
    return text


def _changes(text: str, proposal: Proposal) -> list[Change]:
    if proposal.kind is ProposalKind.DAY_OFF:
        return [
            Change(path=("calendar", "days off", _said(off.days)), value=off.why)
            for off in proposal.days_off()
        ]
    if proposal.kind is ProposalKind.EARLY:
        return _early(proposal)
    return [_guest(text, proposal.guest())] if proposal.kind is ProposalKind.GUEST else []


def _early(proposal: Proposal) -> list[Change]:
    listed = proposal.early()
    if not listed:
        raise FileProblem(
            f"'{proposal.summary}' does not say when the day ends.", do="Say when, or leave it out."
        )
    return [
        Change(
            path=("calendar", "early dismissal", each.day.isoformat()),
            value=(f"ends at {each.ends:%H:%M}" if each.ends else f"{each.minutes} minutes each")
            + (f" ({each.why})" if each.why else ""),
        )
        for each in listed
    ]


def _guest(text: str, guest: Guest) -> Change:
    """Return a guest with the days that are there already; another time of day makes another guest."""
    read = read_class(text, name="").readable
    there = read.calendar.guests if read else ()
    same = next((each for each in there if plain(each.who) == plain(guest.who)), None)
    who, days = guest.who, set(guest.days)
    if same is not None and same.at == guest.at:
        who, days = same.who, days | set(same.days)
    elif same is not None:
        who = f"{guest.who} at {guest.at:%H:%M}" if guest.at else f"{guest.who}, all day"
    value: dict[str, Plain] = {"days": [day.isoformat() for day in sorted(days)]}
    if guest.at:
        value["at"] = f"{guest.at:%H:%M}"
    why = guest.why or (same.why if same else "")
    if why:
        value["why"] = why
    return Change(path=("calendar", "guests", who), value=value)


def _said(days: Stretch) -> str:
    first, last = days.first.isoformat(), days.last.isoformat()
    return first if first == last else f"{first} to {last}"
