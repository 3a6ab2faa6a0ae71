"""The gates of a house: everything that trades, the locality and the instructor ask for, gathered."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from functools import cached_property
from hashlib import sha256

from setday import boards
from setday.actions.cable.figured import HouseCable, figure_cable
from setday.actions.cable.handing import gate_items_of_wiring, names_wiring
from setday.actions.houses import OpenHouse
from setday.closein import (
    WHOLE_HOUSE,
    Added,
    Asked,
    Inspection,
    Item,
    ask,
    gate_rules,
    inspection_items,
    inspections,
    items_of_trades,
)
from setday.house import House
from setday.needs import GateItem
from setday.rules import RuleBook

__all__ = ["GateHouse", "gate_house", "handed_by_trades"]


def handed_by_trades(opened: OpenHouse, wired: HouseCable | None) -> tuple[GateItem, ...]:
    """Return what every trade asks to be inside the surfaces of a house: one line a trade.

    Parameters
    ----------
    opened : OpenHouse
    wired : HouseCable or None
        None where the house names no devices.
    """
    return (
        *boards.gate_items(opened.built()),
        *(gate_items_of_wiring(wired) if wired is not None else ()),
    )


@dataclass(frozen=True, kw_only=True)
class GateHouse:
    """A house file with everything its gates ask for, worked out once.

    Parameters
    ----------
    opened : OpenHouse
    wired : HouseCable or None
        None where the house names no devices.
    version : int
        Number of the house file, 0 for one that is not kept.
    """

    opened: OpenHouse
    wired: HouseCable | None
    version: int = 0
    _asked: dict[tuple[Added, ...], Asked] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    """What was asked for last, by what was added: a class asks for the same thing all period long."""

    @cached_property
    def house(self) -> House:
        """The house, with its devices."""
        return self.opened.built() if self.wired is None else self.wired.figure.house

    @cached_property
    def rules(self) -> RuleBook:
        """The rules of closing in that are in force."""
        return gate_rules(self.opened.local)

    @cached_property
    def of_trades(self) -> tuple[Item, ...]:
        """What trades ask for."""
        return items_of_trades(handed_by_trades(self.opened, self.wired))

    @cached_property
    def inspections(self) -> tuple[Inspection, ...]:
        """What the locality asks for."""
        return inspections(self.house, self.of_trades, rules=self.rules)

    @property
    def digest(self) -> str:
        """SHA-256 of the house file."""
        return sha256(self.opened.text.encode("utf-8")).hexdigest()

    def asked(self, added: Iterable[Added] = ()) -> Asked:
        """Return what is asked for at every gate, with what the instructor added.

        Parameters
        ----------
        added : iterable of Added
            Those that are struck ask for nothing.
        """
        wanted = tuple(each for each in added if not each.struck)
        known = self._asked.get(wanted)
        if known is None:
            more = [item for each in wanted for item in self._items_of(each)]
            items = (*more, *self.of_trades, *inspection_items(self.inspections))
            known = ask(self.house, items, other_side=self.rules.flag("closein.other_side"))
            self._asked.clear()
            self._asked[wanted] = known
        return known

    def _items_of(self, added: Added) -> tuple[Item, ...]:
        """Return an added item, on every surface where it is for the whole house."""
        if added.surface != WHOLE_HOUSE:
            return (added.item,)
        return tuple(replace(added.item, surface=surface.id) for surface in self.house.surfaces)


def gate_house(opened: OpenHouse, *, clock: Callable[[], float], version: int = 0) -> GateHouse:
    """Return what the gates of a house ask for.

    Parameters
    ----------
    opened : OpenHouse
    clock : callable
        Returns seconds; for the routes of the cables.
    version : int
        Number of the house file.

    Raises
    ------
    FileProblem
        When the house cannot be built.
    """
    opened.built()
    wired = figure_cable(opened, clock=clock) if names_wiring(opened) else None
    return GateHouse(opened=opened, wired=wired, version=version)
