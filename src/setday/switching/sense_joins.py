"""What in the joins of a hookup does not fit its boxes, cables and devices."""

from collections import Counter
from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from setday.findings import Finding, Where
from setday.switching.hookup import FEED, Cable, Device, Hookup, Join, Point
from setday.switching.kinds import GREEN, cable_kinds

__all__ = ["close_to", "join_findings", "problem"]


def close_to(word: str, known: Iterable[str]) -> str:
    """Say which known name a word is like, or which there are."""
    names = list(known)
    near = get_close_matches(word, names, n=1, cutoff=0.6)
    if near:
        return f"Did you mean {near[0]!r}?"
    return f"There are: {', '.join(names)}." if names else "None is written yet."


def problem(rule: str, about: str, found: str, expected: str, do: str, where: Where) -> Finding:
    """Return a problem in a hookup as written."""
    return Finding(rule=f"switching.{rule}", about=about, found=found, expected=expected, do=do, where=where)


def join_findings(hookup: Hookup) -> Iterator[Finding]:
    """Yield what is wrong with the joins of a hookup."""
    first_in: dict[Point, Join] = {}
    for join in hookup.joins:
        for point, count in Counter(join.points).items():
            yield from _point(hookup, point, join)
            if count > 1:
                yield problem(
                    "joined-to-itself",
                    f"{point} in box '{point.box}'",
                    "it is joined to itself.",
                    "two different conductor ends or terminals.",
                    "Write what it is joined to.",
                    join.where,
                )
            if point in first_in:
                line = first_in[point].where.line
                yield problem(
                    "joined-twice",
                    f"{point} in box '{point.box}'",
                    f"it stands in two joins{f'; the first is on line {line}' if line else ''}.",
                    "all that is joined together in one line.",
                    "If all of it touches, write one line; if not, take it out of one.",
                    join.where,
                )
            first_in.setdefault(point, join)
        if len(join.points) < 2:
            yield problem(
                "join-of-one",
                f"{join} in box '{join.box}'",
                "a join of one thing joins nothing.",
                "at least two, with a plus between them.",
                "Add the other, or take the line out.",
                join.where,
            )


def _point(hookup: Hookup, point: Point, join: Join) -> Iterator[Finding]:
    about = f"{point} in box '{point.box}'"
    if point.box not in [box.name for box in hookup.boxes]:
        yield problem(
            "no-such-box",
            about,
            f"box '{point.box}' is not there.",
            "the name of a box.",
            close_to(point.box, [box.name for box in hookup.boxes]),
            join.where,
        )
        return
    cable = next((each for each in hookup.all_cables if each.name == point.holder), None)
    device = next((each for each in hookup.devices if each.name == point.holder), None)
    if cable is not None:
        yield from _cable_end(hookup, point, cable, join)
    elif device is not None:
        yield from _terminal(point, device, join)
    elif point.holder == "box":
        if not hookup.box(point.box).metal or point.part != GREEN:
            yield problem(
                "no-such-terminal",
                about,
                "only a metal box has a terminal, its green screw.",
                "'box green' in a metal box.",
                "Write 'metal: yes' for the box, or take it out.",
                join.where,
            )
    else:
        names = [c.name for c in hookup.all_cables] + [d.name for d in hookup.devices]
        yield problem(
            "no-such-thing",
            about,
            f"nothing here is called '{point.holder}'.",
            "a cable or a device, then its color or terminal.",
            close_to(point.holder, names),
            join.where,
        )


def _terminal(point: Point, device: Device, join: Join) -> Iterator[Finding]:
    about = f"{point} in box '{point.box}'"
    here = [terminal.part for terminal in device.terminals]
    if device.box != point.box:
        yield problem(
            "other-box",
            about,
            f"'{device.name}' is in box '{device.box}'.",
            "what is in this box.",
            "Move the join to that box, or the device to this one.",
            join.where,
        )
    elif point.part not in here:
        yield problem(
            "no-such-terminal",
            about,
            f"a {device.kind} has no terminal '{point.part}'.",
            f"one of {', '.join(here)}.",
            close_to(point.part, here),
            join.where,
        )


def _cable_end(hookup: Hookup, point: Point, cable: Cable, join: Join) -> Iterator[Finding]:
    about = f"{point} in box '{point.box}'"
    boxes = [box.name for box in hookup.boxes]
    if point.box not in (cable.a, cable.b):
        if cable.name != FEED and not {cable.a, cable.b} <= set(boxes):
            return  # where it runs is told already
        yield problem(
            "other-box",
            about,
            f"cable '{cable.name}' runs from '{cable.a}' to '{cable.b}', not here.",
            "a cable that comes into this box.",
            "Check the cable's name, or where it runs.",
            join.where,
        )
    elif cable.kind in cable_kinds() and point.part not in cable.colors:
        yield problem(
            "no-such-color",
            about,
            f"cable '{cable.name}' is {cable.kind} and has no {point.part} conductor.",
            f"one of {', '.join(cable.colors)}.",
            f"Use another color, or a cable that has {point.part}.",
            join.where,
        )
