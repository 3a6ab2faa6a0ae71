"""First-fit decreasing: the quick plan everything else must beat or match."""

from collections.abc import Sequence

from setday.materials.sticks import Pattern, Sticks

__all__ = ["exchanged", "filled", "first_fit_decreasing"]


def first_fit_decreasing(sticks: Sticks) -> list[Pattern]:
    """Place the longest piece first, each on the first cut stick with room for it.

    A new stick is opened from one favourite stock where it serves; each stock is tried as the favourite
    once, sticks are then exchanged for the cheapest that holds their pieces, and the cheapest of all
    these plans is kept.

    Parameters
    ----------
    sticks : Sticks
        With a ghost, or with stock without limit for every piece, so that a plan always exists.
    """
    plans = (_with_favourite(sticks, favourite) for favourite in sticks.stocks)
    return min(plans, key=sticks.weigh)


def _with_favourite(sticks: Sticks, favourite: int) -> list[Pattern]:
    order = sorted(sticks.stocks, key=lambda s: (s != favourite, _rate(sticks, s), -sticks.capacities[s], s))
    left = list(sticks.available)
    rooms: list[int] = []
    stocks: list[int] = []
    cuts: list[list[int]] = []
    for kind, (size, count) in enumerate(zip(sticks.sizes, sticks.counts, strict=True)):
        for _ in range(count):
            place = next((i for i, room in enumerate(rooms) if room >= size), None)
            if place is None:
                stock = next(s for s in order if sticks.capacities[s] >= size and left[s] != 0)
                left[stock] = _fewer(left[stock])
                place = len(rooms)
                rooms.append(sticks.capacities[stock])
                stocks.append(stock)
                cuts.append([0] * len(sticks.sizes))
            rooms[place] -= size
            cuts[place][kind] += 1
    return exchanged(sticks, [Pattern(s, tuple(c)) for s, c in zip(stocks, cuts, strict=True)])


def exchanged(sticks: Sticks, plan: list[Pattern]) -> list[Pattern]:
    """Exchange each stick of a plan for the cheapest one left that holds its pieces."""
    result = []
    left = list(sticks.available)
    for pattern in plan:
        left[pattern.stock] = _fewer(left[pattern.stock])
    by_weight = sorted(sticks.stocks, key=lambda s: (sticks.weights[s], sticks.capacities[s], s))
    for pattern in plan:
        used = filled(sticks.sizes, pattern.counts)
        for stock in by_weight:
            if sticks.weights[stock] >= sticks.weights[pattern.stock]:
                result.append(pattern)
                break
            if sticks.capacities[stock] >= used and left[stock] != 0:
                left[stock] = _fewer(left[stock])
                number = left[pattern.stock]
                left[pattern.stock] = None if number is None else number + 1
                result.append(Pattern(stock, pattern.counts))
                break
    return result


def filled(sizes: Sequence[int], counts: Sequence[int]) -> int:
    """Return what pieces take up together."""
    return sum(size * count for size, count in zip(sizes, counts, strict=True))


def _rate(sticks: Sticks, stock: int) -> float:
    return sticks.weights[stock] / max(sticks.capacities[stock], 1)


def _fewer(number: int | None) -> int | None:
    return None if number is None else number - 1
