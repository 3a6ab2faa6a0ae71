"""Small work done together with its like: a crew does not go out for a quarter of a period."""

from collections.abc import Sequence
from dataclasses import replace

from setday.timetable.tasks.work import After, Work

__all__ = ["bundled"]

_NAMED = 3
"""So many works of a bundle are named in its label."""


def bundled(
    works: Sequence[Work], *, least_minutes: float, alone: frozenset[str] = frozenset()
) -> tuple[Work, ...]:
    """Return the works, those of one kind and place joined while they are small.

    Parameters
    ----------
    works : sequence of Work
        In the order in which they would be done.
    least_minutes : float
        Minutes of one member of the smallest crew below which a work is small [min].
    alone : frozenset of str
        Keys of works that stay by themselves, as those the instructor typed.

    Returns
    -------
    tuple of Work
        A bundle keeps the keys of its works in `parts`; who waited for one of them waits for the bundle.
    """
    groups: list[list[Work]] = []
    last_at: dict[tuple[object, ...], int] = {}
    for work in works:
        if work.key in alone or work.filler or not work.minutes:
            groups.append([work])
            continue
        alike = (work.kind, work.trade, work.place, work.signoffs, work.due, work.on, work.guest)
        least = least_minutes * work.crew_least
        at = last_at.get(alike)
        if at is not None and (work.minutes < least or _minutes(groups[at]) < least):
            groups[at].append(work)
        else:
            last_at[alike] = len(groups)
            groups.append([work])
    named = {work.key: _key(group) for group in groups for work in group}
    return tuple(_joined(group, named) for group in groups)


def _minutes(group: list[Work]) -> int:
    return sum(work.minutes for work in group)


def _key(group: list[Work]) -> str:
    return group[0].key if len(group) == 1 else f"{group[0].key} +{len(group) - 1}"


def _joined(group: list[Work], named: dict[str, str]) -> Work:
    key = _key(group)
    waits: dict[str, After] = {}
    for after in (after for work in group for after in work.after):
        target = named.get(after.key, after.key)
        if target != key and (target not in waits or waits[target].days < after.days):
            waits[target] = replace(after, key=target)
    first = group[0]
    if len(group) == 1:
        return replace(first, after=tuple(waits.values()), parts=first.parts or (first.key,))
    minutes = sum(work.minutes for work in group)
    return replace(
        first,
        key=key,
        label=_label(group),
        minutes=minutes,
        quantity=sum(work.quantity for work in group),
        after=tuple(waits.values()),
        parts=tuple(part for work in group for part in (work.parts or (work.key,))),
        done=sum(work.minutes * work.done for work in group) / minutes if minutes else 0.0,
        said_by="; ".join(dict.fromkeys(work.said_by for work in group if work.said_by)),
        working=None,
    )


def _label(group: list[Work]) -> str:
    """Return "Pull circuit 1: range; 2: dryer" for works whose labels begin alike."""
    labels = [work.label for work in group]
    head = labels[0]
    for label in labels[1:]:
        while not label.startswith(head):
            head = head[:-1]
    head = head[: head.rfind(" ") + 1]
    rest = [label[len(head) :].strip() for label in labels]
    listed = "; ".join(rest) if len(rest) <= _NAMED else f"{rest[0]} to {rest[-1]} ({len(rest)})"
    return f"{head} {listed}" if (head := head.strip()) else listed
