"""The gates of a house: what is asked for, and how far it is by the marks that were made."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from setday.closein.asked import Asked
from setday.closein.gate import Gate, ItemState, Stand, stand_of, state_of
from setday.closein.item import WHOLE_HOUSE, Item, ItemKind
from setday.closein.marks import Mark, MarkKind

__all__ = ["Astray", "Gates", "WhyAstray", "gates_of"]

_ON_SURFACE = {MarkKind.CLOSED, MarkKind.REOPENED}
_FOR_ONE_SURFACE = {MarkKind.OVERRULED, MarkKind.WITHDRAWN}

Made = Mapping[tuple[str, str], list[tuple[int, Mark]]]


class WhyAstray(StrEnum):
    """Why a mark is of nothing that is asked for now."""

    GONE = "gone"
    """The house no longer asks for it."""
    CHANGED = "changed"
    """What is asked for under its key is another thing now."""
    NO_SURFACE = "no surface"
    """The house has no surface of that id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Astray:
    """A mark that is kept though the house as it is now has no place for it."""

    mark: Mark
    why: WhyAstray


@dataclass(frozen=True, slots=True, kw_only=True)
class Gates:
    """The gates of a house.

    Parameters
    ----------
    by_surface : mapping
        Id of a surface to its gate, in the order of the house.
    astray : tuple of Astray
        Marks of things the house no longer asks for: told, never lost.
    """

    by_surface: Mapping[str, Gate]
    astray: tuple[Astray, ...] = ()

    def __getitem__(self, surface: str) -> Gate:
        return self.by_surface[surface]

    def may_close(self, surface: str) -> bool:
        """Tell whether boards may go on a surface now; one without a gate may not be boarded.

        Parameters
        ----------
        surface : str
            Its id.
        """
        gate = self.by_surface.get(surface)
        return gate is not None and gate.state.may_close

    def shut(self) -> tuple[str, ...]:
        """Return the surfaces that no boards may go on: not ready, waiting, or closed already."""
        return tuple(surface for surface, gate in self.by_surface.items() if not gate.state.may_close)


def gates_of(asked: Asked, marks: Iterable[Mark], *, only: str = "") -> Gates:
    """Return the gates of a house.

    Parameters
    ----------
    asked : Asked
    marks : iterable of Mark
        Every mark that was made, in the order they were made.
    only : str
        Id of a surface, to return its gate alone; empty for all.
    """
    all_made = tuple(marks)
    made: dict[tuple[str, str], list[tuple[int, Mark]]] = {}
    for order, mark in enumerate(all_made):
        made.setdefault((mark.surface, mark.item), []).append((order, mark))
    covered = _covered(all_made)
    surfaces = [only] if only else list(asked.labels)
    gates = {surface: _gate(surface, asked, made, covered.get(surface)) for surface in surfaces}
    return Gates(by_surface=gates, astray=_astray(asked, all_made))


def _gate(surface: str, asked: Asked, made: Made, last: Mark | None) -> Gate:
    """Return the gate of a surface, whose boards went on or came off last by a mark."""
    closing = last if last is not None and last.kind is MarkKind.CLOSED else None
    own = tuple(_stand(item, surface, asked, made) for item in asked.items[surface])
    behind = tuple(_stand(item, surface, asked, made) for item in asked.behind[surface])
    every = (*own, *behind)
    held = [each for each in every if each.state is ItemState.OVERRULED]
    notes = tuple(mark for each in held if (mark := each.last_of(MarkKind.OVERRULED)) is not None)
    bare = Gate(surface=surface, label=asked.labels[surface], items=own, behind=behind)
    return replace(
        bare,
        state=state_of(every, closed=closing is not None, overruled=bool(held)),
        closing=closing,
        reopening=last if closing is None else None,
        overrulings=notes,
        other_sides=asked.other_sides[surface],
    )


def _stand(item: Item, surface: str, asked: Asked, made: Made) -> Stand:
    """Return how far an item is as seen from a surface: an overruling holds on its own surface only."""
    names = {item.name, *asked.twins.get(item.name, ()), (surface, item.key)}
    if item.kind is ItemKind.INSPECTION:
        names.add((WHOLE_HOUSE, item.key))
    found = sorted((each for name in names for each in made.get(name, ())), key=lambda each: each[0])
    return stand_of(
        item, [mark for _, mark in found if mark.kind not in _FOR_ONE_SURFACE or mark.surface == surface]
    )


def _covered(marks: tuple[Mark, ...]) -> dict[str, Mark]:
    """Return for each surface the last mark that its boards are on, or came off again."""
    return {mark.surface: mark for mark in marks if mark.kind in _ON_SURFACE}


def _astray(asked: Asked, marks: tuple[Mark, ...]) -> tuple[Astray, ...]:
    """Return the newest mark of everything that is asked for no longer, or otherwise."""
    labels: dict[str, set[str]] = {}
    for item in asked.all_items:
        labels.setdefault(item.key, set()).add(item.label)
    newest: dict[tuple[str, str, str], Astray] = {}
    for mark in marks:
        why = _why_astray(mark, asked, labels)
        name = (mark.surface, mark.item, mark.label)
        newest.pop(name, None)
        if why is not None and mark.kind is not MarkKind.TAKEN_BACK:
            newest[name] = Astray(mark=mark, why=why)
    return tuple(newest.values())


def _why_astray(mark: Mark, asked: Asked, labels: Mapping[str, set[str]]) -> WhyAstray | None:
    if mark.surface != WHOLE_HOUSE and mark.surface not in asked.labels:
        return WhyAstray.NO_SURFACE
    if mark.kind in _ON_SURFACE:
        return None
    if mark.item not in labels:
        return WhyAstray.GONE
    return None if mark.label in labels[mark.item] else WhyAstray.CHANGED
