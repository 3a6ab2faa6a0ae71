"""Deliveries: which sold units come with which truck."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from setday.materials.buying import BuyingLine, Delivery, Drop
from setday.materials.prices import PriceItem

__all__ = ["loaded", "planned"]


def planned(asked: Iterable[Delivery], phases: Iterable[str]) -> tuple[Delivery, ...]:
    """Return the deliveries asked for, and one of its own for every phase they leave out.

    Parameters
    ----------
    asked : iterable of Delivery
        In the order they come; what they carry is worked out, not given.  A phase named twice belongs
        to the first delivery that names it.
    phases : iterable of str
        Every phase in which something is needed, in order.
    """
    deliveries, covered = [], set[str]()
    for delivery in asked:
        own = tuple(phase for phase in delivery.phases if phase not in covered)
        covered.update(own)
        deliveries.append(replace(delivery, phases=own, drops=()))
    missing = (phase for phase in dict.fromkeys(phases) if phase not in covered)
    return (*deliveries, *(Delivery(name=phase, phases=(phase,)) for phase in missing))


def loaded(deliveries: Sequence[Delivery], lines: Iterable[BuyingLine]) -> tuple[Delivery, ...]:
    """Return the deliveries with what each must carry.

    Each line is rounded to sold units once, for the whole job; a delivery carries what its phases need
    and no earlier one brought.  Stock on hand is used up in the first phases.
    """
    drops: list[list[Drop]] = [[] for _ in deliveries]
    for line in lines:
        for index, drop in _spread(line, deliveries):
            drops[index].append(drop)
    return tuple(
        replace(delivery, drops=tuple(carried)) for delivery, carried in zip(deliveries, drops, strict=True)
    )


def _spread(line: BuyingLine, deliveries: Sequence[Delivery]) -> list[tuple[int, Drop]]:
    wanted = _wanted(line, deliveries)
    last = max((index for index, quantity in enumerate(wanted) if quantity > 0), default=len(wanted) - 1)
    left = {entry.package: entry.count for entry in line.packages}
    short, result = Fraction(0), []
    for index, quantity in enumerate(wanted):
        short += quantity
        taken = dict(left) if index == last else _taken(left, short)
        for package, count in taken.items():
            if count:
                left[package] -= count
                short -= count * package.content
                result.append((index, Drop(item=line.item, package=package, count=count)))
    return result


def _wanted(line: BuyingLine, deliveries: Sequence[Delivery]) -> list[Fraction]:
    """Return what must be bought for each delivery, stock taken off the first ones."""
    on_hand, result = line.on_hand, []
    for delivery in deliveries:
        need = sum((s.quantity + s.waste for s in line.shares if s.phase in delivery.phases), Fraction(0))
        used = min(need, on_hand)
        on_hand -= used
        result.append(need - used)
    return result


def _taken(left: dict[PriceItem, int], short: Fraction) -> dict[PriceItem, int]:
    """Choose what to bring now: the largest that fit wholly, then the smallest that covers the rest."""
    taken: dict[PriceItem, int] = {}
    by_size = sorted(left, key=lambda package: (-package.content, package.key))
    for package in by_size:
        count = min(left[package], int(max(short, Fraction(0)) // package.content))
        taken[package] = count
        short -= count * package.content
    for package in reversed(by_size):
        if short > 0 and left[package] > taken[package]:
            taken[package] += 1
            short -= package.content
    return taken
