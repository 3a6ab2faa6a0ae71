"""Why a run has no way: what stands before it, and what would open one."""

from collections.abc import Iterator
from dataclasses import replace

from setday.cable.routes.passages import Passages
from setday.cable.run import PANEL, Cable, Stop
from setday.findings import Finding
from setday.house import Mount
from setday.measure import Length

__all__ = ["no_way"]


def no_way(cable: Cable, passages: Passages) -> Finding:
    """Say which wall or space keeps a run from its end, and what would open a way.

    Parameters
    ----------
    cable : Cable
        A run for which there is no way.
    passages : Passages
    """
    unknown = [name for name in (cable.start, cable.end) if name not in passages.by_name]
    if unknown:
        return _unknown(cable, unknown)
    found, do = _its_own_place(cable, passages) or _between(cable, passages)
    return Finding(
        rule="cable.no-way",
        about=f"run {cable.number}",
        found=f"from {_said(cable.start)} to {_said(cable.end)} there is no way: {found}.",
        expected="a way through the framing.",
        do=do,
        where=passages.by_name[cable.end].where,
    )


def _said(stop: str) -> str:
    return "the panel's corner" if stop == PANEL else f"box '{stop}'"


def _unknown(cable: Cable, unknown: list[str]) -> Finding:
    words = "the panel has no place" if unknown == [PANEL] else f"there is no box '{unknown[-1]}'"
    return Finding(
        rule="cable.no-stop",
        about=f"run {cable.number}",
        found=f"{words}.",
        expected="both ends on the house.",
        do="Write the panel's corner under 'foundation'."
        if unknown == [PANEL]
        else "Correct the name of the device.",
    )


def _its_own_place(cable: Cable, passages: Passages) -> tuple[str, str] | None:
    """Say what is wrong with the place of one of the two ends."""
    for name in (cable.end, cable.start):
        stop = passages.by_name[name]
        if stop.wall in passages.rules.closed and stop.wall:
            return (
                f"{_said(name)} stands in wall '{stop.wall}', which is to take no cable",
                f"Take '{stop.wall}' off the closed walls, or move the box to another wall.",
            )
        said = _inside_something(stop, passages)
        if said:
            return f"{_said(name)} stands {said}", "Move the box clear of it."
    return None


def _inside_something(stop: Stop, passages: Passages) -> str:
    if stop.wall:
        barrier = passages.ways_of(stop.wall).barrier_at(stop.along.sixtyfourths, stop.up.sixtyfourths)
        return f"inside {barrier.what}" if barrier else ""
    if stop.name in passages.net.stops:
        return ""
    return "over no room" if stop.mount is Mount.CEILING else "on no floor"


def _between(cable: Cable, passages: Passages) -> tuple[str, str]:
    for blocks, opens, other in _otherwise(passages):
        way = other.length(cable.start, cable.end)
        if way is not None:
            return blocks, f"{opens} That opens a way of {_nearly(way)}."
    wall = passages.by_name[cable.end].wall or passages.by_name[cable.start].wall
    why = passages.rules.bore_through(passages.ways_of(wall).wall) if wall else None
    if why:
        return f"wall '{wall}' cannot be bored, since {why}", "Take a smaller bit, or fur the wall out."
    return "nothing joins the framing of its two ends", "Run it in a raceway, or move one of the boxes."


def _otherwise(passages: Passages) -> Iterator[tuple[str, str, Passages]]:
    """Yield what may stand in the way, how to open it, and the ways of the house with it open."""
    rules, house, stops = passages.rules, passages.house, passages.stops
    for wall in sorted(rules.closed):
        opened = replace(rules, closed=rules.closed - {wall})
        yield (
            f"the closed wall '{wall}' stands in between",
            f"Take '{wall}' off the closed walls.",
            Passages(house, stops, opened),
        )
    for reserve in house.reserves:
        rest = tuple(other for other in house.reserves if other != reserve)
        yield (
            f"the space reserved for '{reserve.name}' stands in between",
            f"Leave a passage beside '{reserve.name}'.",
            Passages(replace(house, reserves=rest), stops, rules),
        )
    yield (
        f"the closed walls {', '.join(sorted(rules.closed)) or '(none)'} together stand in between",
        "Take them off the closed walls.",
        Passages(house, stops, replace(rules, closed=frozenset())),
    )
    yield (
        "nothing but the floor joins its two ends",
        "Let runs go under the floor (rule cable.under_floor: any).",
        Passages(house, stops, replace(rules, under_floor="any")),
    )
    yield (
        "a bit of this size may not pass the studs",
        "Take a smaller bit (rule cable.hole_diameter).",
        Passages(house, stops, replace(rules, hole_diameter=rules.hole_diameter // 2)),
    )


def _nearly(way: Length) -> str:
    return str(way.to_nearest(Length(64)))
