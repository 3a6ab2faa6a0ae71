"""What is asked for at every gate of a house: worked out once, before anybody has made a mark."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from setday.closein.cavity import Cavities
from setday.closein.item import Item
from setday.house import House

__all__ = ["Asked", "ask"]

Name = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Everything that is asked for.

    Parameters
    ----------
    labels : mapping
        Id of every surface to its words, in the order of the house.
    items : mapping
        Id of a surface to what its own side asks for.
    behind : mapping
        Id of a surface to what the other side asks for and stands behind this one.
    twins : mapping
        Surface and key of an item to those of the other side that are the same thing.
    other_sides : mapping
        Id of a surface to the surfaces that close the same walls from the other side.
    """

    labels: Mapping[str, str]
    items: Mapping[str, tuple[Item, ...]]
    behind: Mapping[str, tuple[Item, ...]]
    twins: Mapping[Name, tuple[Name, ...]]
    other_sides: Mapping[str, tuple[str, ...]]

    @property
    def all_items(self) -> tuple[Item, ...]:
        """Every item, surface by surface."""
        return tuple(item for listed in self.items.values() for item in listed)


def ask(house: House, items: Iterable[Item], *, other_side: bool = True) -> Asked:
    """Return what is asked for at every gate.

    Parameters
    ----------
    house : House
    items : iterable of Item
        What trades, inspections and the instructor ask for.
    other_side : bool
        Whether what stands in a wall must be in before either of its sides is closed.
    """
    walls = Cavities.of(house)
    own: dict[str, list[Item]] = {surface.id: [] for surface in house.surfaces}
    for item in items:
        if item.surface in own:
            own[item.surface].append(item)
    others = {surface: walls.other_sides(surface) for surface in own}
    behind = {s: _behind(s, own, others[s], walls) if other_side else () for s in own}
    return Asked(
        labels={surface.id: surface.label for surface in house.surfaces},
        items={surface: tuple(listed) for surface, listed in own.items()},
        behind=behind,
        twins=_twins(own, others, walls),
        other_sides=others,
    )


def _behind(
    surface: str, own: Mapping[str, list[Item]], others: tuple[str, ...], walls: Cavities
) -> tuple[Item, ...]:
    """Return what the other sides ask for that stands behind a surface and is not its own as well."""
    here = {item.thing for item in own[surface] if item.thing}
    return tuple(
        item
        for other in others
        for item in own[other]
        if item.thing not in here and walls.behind(surface, item)
    )


def _twins(
    own: Mapping[str, list[Item]], others: Mapping[str, tuple[str, ...]], walls: Cavities
) -> dict[Name, tuple[Name, ...]]:
    """Return, for each item, those of the other side that are the same thing and seen whole from there."""
    found: dict[Name, tuple[Name, ...]] = {}
    for surface, sides in others.items():
        whole = {other for other in sides if walls.covers(other, surface)}
        things = {item.thing: item for item in own[surface] if item.thing}
        for other in sides:
            for twin in own[other]:
                item = things.get(twin.thing) if twin.thing else None
                if item is None:
                    continue
                if walls.behind(surface, twin) if twin.spot is not None else other in whole:
                    found[item.name] = (*found.get(item.name, ()), twin.name)
    return found
