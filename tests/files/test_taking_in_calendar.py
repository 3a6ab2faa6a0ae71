"""What the instructor said yes to of a school's calendar is in the class file from then on."""

from dataclasses import replace
from datetime import date, time

import pytest

from setday.errors import FileProblem
from setday.files import Proposal, ProposalKind, take_in_proposals
from setday.roster import DayOff, EarlyDismissal, Guest, Stretch
from tests.files.typed_class import WORKSHOP, read


def on(*days):
    """Days of October 2026."""
    return tuple(Stretch(first=date(2026, 10, day), last=date(2026, 10, day)) for day in days)


OFF = Proposal(kind=ProposalKind.DAY_OFF, summary="No school: teachers' day #2, all of us", days=on(12))
BREAK = Proposal(
    kind=ProposalKind.DAY_OFF,
    summary="Fall break",
    days=(Stretch(first=date(2026, 10, 14), last=date(2026, 10, 15)),),
)
EARLY = Proposal(kind=ProposalKind.EARLY, summary="Early release (game)", days=on(1), at=time(9))
SHORT = Proposal(kind=ProposalKind.EARLY, summary="Periods of 45 minutes", days=on(6), minutes=45)
GUEST = Proposal(kind=ProposalKind.GUEST, summary="Visit: inspector (rough)", days=on(7, 13), at=time(9))
NOTHING = Proposal(kind=ProposalKind.OTHER, summary="Choir", days=on(7))


def calendar(text):
    """The calendar of a class file without problems."""
    assert read(text).findings == ()
    return read(text).plan.calendar


def test_all_kinds_come_out_as_they_were_proposed():
    made = calendar(take_in_proposals(WORKSHOP, [OFF, BREAK, EARLY, SHORT, GUEST, NOTHING]))
    assert made.days_off == (*OFF.days_off(), *BREAK.days_off())
    assert made.days_off[0] == DayOff(days=OFF.days[0], why="teachers' day #2, all of us")
    assert made.early == (
        EarlyDismissal(day=date(2026, 10, 1), ends=time(9), why="Early release (game)"),
        EarlyDismissal(day=date(2026, 10, 6), minutes=45, why="Periods of 45 minutes"),
    )
    days = (date(2026, 10, 7), date(2026, 10, 13))
    assert made.guests == (Guest(who="inspector", days=days, at=time(9), why="rough"),)


def test_the_rest_of_the_file_stays_as_it_was_typed():
    text = take_in_proposals(WORKSHOP, [OFF, GUEST])
    assert [line for line in WORKSHOP.splitlines() if line not in text.splitlines()] == []
    assert "# moved in last year" in text


def test_saying_yes_twice_changes_nothing():
    once = take_in_proposals(WORKSHOP, [OFF, BREAK, EARLY, GUEST])
    assert calendar(take_in_proposals(once, [OFF, BREAK, EARLY, GUEST])) == calendar(once)


def test_more_days_of_a_guest_are_added_and_another_time_is_another_visit():
    text = take_in_proposals(WORKSHOP, [GUEST, replace(GUEST, days=on(20)), replace(GUEST, at=time(8, 30))])
    made = calendar(text)
    assert [(each.who, len(each.days), each.at) for each in made.guests] == [
        ("inspector", 3, time(9)),
        ("inspector at 08:30", 2, time(8, 30)),
    ]


def test_an_early_day_without_an_end_is_refused():
    with pytest.raises(FileProblem, match="does not say when the day ends"):
        take_in_proposals(WORKSHOP, [replace(EARLY, at=None)])
