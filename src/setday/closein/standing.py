"""How far the gates of a house are, in a few figures a surface: what the timetable goes by."""

from dataclasses import dataclass

from setday.closein.gate import Gate, GateState, ItemState, Stand
from setday.closein.gates import Gates
from setday.closein.item import ItemKind

__all__ = ["GateStanding", "standings_of"]

_NAMED = 3
"""So many of the things that hold a gate are named; our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GateStanding:
    """How far the gate of one surface is.

    Parameters
    ----------
    surface, label : str
        Id and words.
    state : GateState
    things : int
        What must be in and seen, of both sides of the wall; inspections are not counted.
    seen, checked_off, refused : int
        How many of them are confirmed or overruled; checked off and not seen yet; refused.
    passed, awaited : tuple of str
        Keys of the inspections that passed here or were overruled, and of those still to come.
    reopened : bool
        True when boards came off again and are not on yet.
    held_by : tuple of str
        The first things that hold it, in words, what was refused before all.
    """

    surface: str
    label: str
    state: GateState
    things: int = 0
    seen: int = 0
    checked_off: int = 0
    refused: int = 0
    passed: tuple[str, ...] = ()
    awaited: tuple[str, ...] = ()
    reopened: bool = False
    held_by: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        counted = (self.things, self.seen, self.checked_off, self.refused)
        if min(counted) < 0 or self.seen + self.checked_off + self.refused > self.things:
            raise ValueError(f"{self.surface}: {self.things} things, of which {counted[1:]}")

    @property
    def open(self) -> bool:
        """Whether boards may go on, or are on already."""
        return self.state.may_close or self.state is GateState.CLOSED

    @property
    def looked_at(self) -> float:
        """How much of the looking is done, 0 to 1: what is checked off and not seen counts for half."""
        if self.open or not self.things:
            return 1.0
        return (self.seen + self.checked_off / 2) / self.things


def standings_of(gates: Gates) -> tuple[GateStanding, ...]:
    """Return how far every gate of a house is.

    Parameters
    ----------
    gates : Gates
    """
    return tuple(_standing(gate) for gate in gates.by_surface.values())


def _standing(gate: Gate) -> GateStanding:
    every = (*gate.items, *gate.behind)
    things = [each for each in every if each.item.kind is not ItemKind.INSPECTION]
    asked: dict[str, bool] = {}
    for each in every:
        if each.item.kind is ItemKind.INSPECTION:
            asked[each.item.key] = each.settled and asked.get(each.item.key, True)
    return GateStanding(
        surface=gate.surface,
        label=gate.label,
        state=gate.state,
        things=len(things),
        seen=sum(each.settled for each in things),
        checked_off=sum(each.state is ItemState.DONE for each in things),
        refused=sum(each.state is ItemState.REFUSED for each in things),
        passed=tuple(key for key, over in asked.items() if over),
        awaited=tuple(key for key, over in asked.items() if not over),
        reopened=gate.reopening is not None,
        held_by=_named(gate),
    )


def _named(gate: Gate) -> tuple[str, ...]:
    """Return the first things that hold a gate: what was refused, then what stands open."""
    if gate.state is GateState.CLOSED:
        return ()
    order = [ItemState.REFUSED, ItemState.OPEN, ItemState.DONE]
    held: list[Stand] = sorted(gate.open_items, key=lambda each: order.index(each.state))
    return tuple(dict.fromkeys(each.item.label for each in held))[:_NAMED]
