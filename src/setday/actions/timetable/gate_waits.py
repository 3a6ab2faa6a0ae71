"""Which gates hold which boards until when: the records of the gates beside the days of a timetable."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from setday.actions.timetable.gates import GateRecords, boards_of
from setday.actions.timetable.solving import Timetable, spans
from setday.closein import GateStanding, GateState
from setday.house import House
from setday.timetable.tasks import Work

__all__ = ["HeldBoards", "gate_waits"]

_NAMED = 3
"""So many of the things that hold the boards of a place are named; our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldBoards:
    """Boards of one place that are not on yet, and the gates before them.

    Parameters
    ----------
    task, label : str
        Key and words of the hanging.
    surfaces, open : int
        How many surfaces it covers; how many of their gates stand open, or are closed already.
    things, to_see : int
        What must be in and seen behind them; how many of these nobody has confirmed or overruled.
    refused : int
        How many of them were refused.
    held_by : tuple of str
        The first things that hold the boards by the records, in words.
    waits : tuple of str
        Labels of the tasks still to be done before the gates open, in the order of their ends.
    until : date or None
        The day on which the last of them ends by the timetable; None where nothing is waited for, or one
        of them has no day.
    begins : date or None
        The day on which the boards begin by the timetable.
    too_early : bool
        True where the timetable hangs boards before what opens their gates has ended: it is older than
        the records, and wants a repair.
    """

    task: str
    label: str
    surfaces: int
    open: int
    things: int
    to_see: int
    refused: int
    held_by: tuple[str, ...]
    waits: tuple[str, ...]
    until: date | None
    begins: date | None
    too_early: bool


def gate_waits(timetable: Timetable, house: House) -> tuple[HeldBoards, ...]:
    """Return for every place whose boards are not all on what their gates wait for, and until when.

    Parameters
    ----------
    timetable : Timetable
        Of a class day that was given the records of the gates.
    house : House
    """
    return tuple(_held(timetable, house))


def _held(timetable: Timetable, house: House) -> Iterator[HeldBoards]:
    day, since = timetable.day, timetable.since
    ran = {work.key: periods for work, periods in spans(timetable)}
    to_come = {key: [n for n in periods if n >= since] for key, periods in ran.items()}
    for work in day.work.works:
        covers = boards_of(work, house)
        if not covers or work.done >= 1:
            continue
        before = _before(work, day.works, day.gates, to_come)
        ends = {each.key: max(to_come[each.key]) for each in before if to_come[each.key]}
        listed = sorted(before, key=lambda each: (ends.get(each.key, len(day.meetings)), each.label))
        begins = to_come[work.key][0] if to_come[work.key] else None
        last = max(ends.values()) if ends and len(ends) == len(before) else None
        stands = _stands(covers, day.gates)
        yield HeldBoards(
            task=work.key,
            label=work.label,
            surfaces=len(covers),
            open=sum(each.open for each in stands),
            things=sum(each.things for each in stands),
            to_see=sum(each.things - each.seen for each in stands if not each.open),
            refused=sum(each.refused for each in stands if not each.open),
            held_by=_named(stands),
            waits=tuple(each.label for each in listed),
            until=day.date_of(last) if last is not None else None,
            begins=day.date_of(begins) if begins is not None else None,
            too_early=begins is not None and bool(before) and (last is None or last >= begins),
        )


def _stands(covers: tuple[str, ...], gates: GateRecords) -> tuple[GateStanding, ...]:
    return tuple(each for each in gates.standings if each.surface in covers)


def _named(stands: tuple[GateStanding, ...]) -> tuple[str, ...]:
    held = (
        f"{each.label}: boards came off again" if each.reopened else f"{each.label}: {each.held_by[0]}"
        for each in sorted(stands, key=lambda each: (not each.reopened, not each.refused))
        if each.reopened or (each.held_by and each.state is not GateState.CLOSED)
    )
    return tuple(held)[:_NAMED]


def _before(
    work: Work, works: Mapping[str, Work], gates: GateRecords, to_come: dict[str, list[int]]
) -> list[Work]:
    """Return what has to end before the gates of a work open, near and far: looking, inspections, typed."""
    found: dict[str, Work] = {}
    left = [after.key for after in work.after]
    while left:
        earlier = works[left.pop()]
        if earlier.key in found or earlier.kind.startswith("hang-"):
            left += [after.key for after in earlier.after if earlier.kind.startswith("hang-")]
            continue
        if _stands_open(earlier, gates, to_come):
            found[earlier.key] = earlier
        if earlier.kind == "look":
            left += [after.key for after in earlier.after]
    return list(found.values())


def _stands_open(work: Work, gates: GateRecords, to_come: dict[str, list[int]]) -> bool:
    """Tell whether a work is still to be done: by the records, else by the timetable."""
    if work.done >= 1:
        return False
    return work.key in gates.done or bool(to_come[work.key])
