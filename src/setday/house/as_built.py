"""What was really built, put in the place of what the layout gives."""

from dataclasses import replace

from setday.findings import Finding, Severity
from setday.house.description import FramingChange
from setday.house.lumber import THICK
from setday.house.model import FramingMember, MemberKind
from setday.house.placing import from_inches
from setday.house.uprights import Frame, clash, upright
from setday.measure import Length

__all__ = ["as_built"]


def as_built(members: list[FramingMember], frame: Frame) -> tuple[list[FramingMember], list[Finding]]:
    """Return the members with what was built otherwise, and what is to be asked about it."""
    findings = []
    for change in frame.wall.typed.changes:
        at = change.at.inches
        if change.do == "add":
            kind = MemberKind(change.member) if change.member in set(MemberKind) else MemberKind.STUD
            members = [*members, replace(upright(kind, at, frame), built=True)]
            continue
        index = _nearest(members, change.member, at)
        if index is None:
            findings.append(_nothing_there(change, frame))
            continue
        found = members[index]
        members = members[:index] + members[index + 1 :]
        if change.do == "move" and change.to is not None:
            members.append(_moved(found, change.to, frame))
    return members, findings + _overlaps(members, frame)


def _overlaps(members: list[FramingMember], frame: Frame) -> list[Finding]:
    """Ask about members built where others stand."""
    upright = [m for m in members if m.kind not in (MemberKind.HEADER, MemberKind.SILL)]
    return [
        _overlap(built, other, frame)
        for n, built in enumerate(upright)
        for k, other in enumerate(upright)
        if built.built and (k < n or not other.built) and k != n and _in_each_other(built, other)
    ]


def _in_each_other(a: FramingMember, b: FramingMember) -> bool:
    low, high = max(a.bottom, b.bottom), min(max(a.top_left, a.top_right), max(b.top_left, b.top_right))
    return clash(a, b) and low < high


def _overlap(built: FramingMember, other: FramingMember, frame: Frame) -> Finding:
    by = min(built.right, other.right) - max(built.left, other.left)
    where = next((c.where for c in frame.wall.typed.changes if built.center in (c.at, c.to)), None)
    return Finding(
        rule="house.framing-overlap",
        about=f"wall '{frame.wall.name}'",
        found=f"as built, its {built.kind.value} at {built.center} reaches {by} into the "
        f"{other.kind.value} at {other.center}.",
        expected="members that stand side by side.",
        do=f"Measure again, or say where the {other.kind.value} really stands, or that it was removed.",
        severity=Severity.ASK,
        where=where if where and where.line else frame.wall.typed.where,
    )


def _moved(member: FramingMember, to: Length, frame: Frame) -> FramingMember:
    shift = to - member.center
    moved = replace(member, left=member.left + shift, right=member.right + shift, built=True)
    if member.top_left == member.top_right:
        return moved
    return replace(
        moved,
        top_left=from_inches(frame.under_plates(moved.left.inches)),
        top_right=from_inches(frame.under_plates(moved.right.inches)),
    )


def _nearest(members: list[FramingMember], kind: str, at: float) -> int | None:
    near = [
        (abs(m.center.inches - at), n)
        for n, m in enumerate(members)
        if m.kind.value == kind and abs(m.center.inches - at) <= THICK
    ]
    return min(near)[1] if near else None


def _nothing_there(change: FramingChange, frame: Frame) -> Finding:
    return Finding(
        rule="house.framing-change",
        about=f"wall '{frame.wall.name}'",
        found=f"there is no {change.member} at {change.at} from its start to {change.do}.",
        expected="the centre of a member that the layout gives, within 1-1/2 in.",
        do="Look at the wall's elevation for the members and their centres.",
        where=change.where if change.where.line else frame.wall.typed.where,
    )
