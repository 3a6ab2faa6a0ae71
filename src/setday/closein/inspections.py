"""The inspections that the locality asks for before anything is covered."""

from collections.abc import Iterable
from dataclasses import dataclass

from setday.closein.item import Item, ItemKind
from setday.house import House, Surface, SurfaceKind
from setday.rules import RuleBook, Source

__all__ = ["Inspection", "inspection_items", "inspections"]

_ROUGH = (
    ("electrical", "rough electrical inspection", frozenset({"cable", "switching"})),
    ("plumbing", "rough plumbing inspection", frozenset({"piping"})),
)
"""Rule, words, and the trades whose work it looks at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspection:
    """One inspection that is asked for.

    Parameters
    ----------
    key : str
        "inspection/electrical" ...
    label : str
    notice_days : int
        Working days ahead it must be asked for [days].
    surfaces : tuple of str
        Ids of the surfaces it must come before.
    after : tuple of str
        Keys of inspections that come before it.
    source : Source
        What says so; the local authority where it set it otherwise.
    """

    key: str
    label: str
    notice_days: int
    surfaces: tuple[str, ...]
    after: tuple[str, ...]
    source: Source


def inspections(house: House, items: Iterable[Item], *, rules: RuleBook) -> tuple[Inspection, ...]:
    """Return the inspections asked for, each with the surfaces that wait for it.

    Parameters
    ----------
    house : House
    items : iterable of Item
        What the trades ask for; says behind which surfaces their work is.
    rules : RuleBook
        From `gate_rules`.
    """
    trades: dict[str, set[str]] = {}
    for item in items:
        trades.setdefault(item.surface, set()).add(item.trade)
    found = []
    for name, words, looked_at in _ROUGH:
        behind = tuple(s.id for s in house.surfaces if trades.get(s.id, set()) & looked_at)
        found.append(_inspection(name, words, behind, rules=rules))
    covering = tuple(s.id for s in house.surfaces if _insulated(house, s))
    found.append(_inspection("insulation", "insulation inspection", covering, rules=rules))
    rough = tuple(each.key for each in found if each and each.key != "inspection/insulation")
    every = tuple(surface.id for surface in house.surfaces)
    found.append(_inspection("framing", "framing inspection", every, rules=rules, after=rough))
    return tuple(each for each in found if each is not None)


def _inspection(
    name: str, words: str, surfaces: tuple[str, ...], *, rules: RuleBook, after: tuple[str, ...] = ()
) -> Inspection | None:
    asked = rules[f"closein.{name}_inspection"]
    if not surfaces or not asked.value:
        return None
    return Inspection(
        key=f"inspection/{name}",
        label=f"{words} passed",
        notice_days=round(rules.number(f"closein.{name}_notice")),
        surfaces=surfaces,
        after=after,
        source=asked.source,
    )


def _insulated(house: House, surface: Surface) -> bool:
    if surface.kind is SurfaceKind.CEILING:
        return True
    return any(house.wall(span.wall).kind.outside for span in surface.spans)


def inspection_items(asked: Iterable[Inspection]) -> tuple[Item, ...]:
    """Return an item for every surface that waits for an inspection."""
    listed = tuple(asked)
    waits = {each.key: frozenset(each.surfaces) for each in listed}
    return tuple(
        Item(
            surface=surface,
            key=each.key,
            label=each.label,
            kind=ItemKind.INSPECTION,
            notice_days=each.notice_days,
            after=tuple(key for key in each.after if surface in waits[key]),
        )
        for each in listed
        for surface in each.surfaces
    )
