"""Demand of household cooking appliances, NEC table 220.55."""

from collections.abc import Mapping, Sequence
from functools import cache

from setday.errors import RuleError
from setday.rules import Source, load_table

__all__ = ["cooking_demand"]

_COUNTED = 1750.0
"""Smaller appliances are not in the table [VA]."""
_UNDER = 3500.0
_SMALL = 8750.0
_FULL = 12000.0
_LARGEST = 27000.0
_NOTE_PERCENT = 5
"""Per kW above 12 kW, notes 1 and 2 [percent]."""


@cache
def _rows() -> Mapping[int, tuple[float, float, float, Source]]:
    table = load_table("setday.cable", "cooking")
    return {
        int(row["count"]): (
            float(row["under_3_5_percent"]),
            float(row["to_8_75_percent"]),
            float(row["to_12_kw_va"]),
            table.source_of(row),
        )
        for row in table.rows
    }


def cooking_demand(ratings_va: Sequence[float]) -> tuple[float, tuple[str, ...], Source | None]:
    """Return the demand of cooking appliances [VA], how it was come by in words, and the source.

    Parameters
    ----------
    ratings_va : sequence of float
        Nameplates; those of 1750 VA and less are counted in full [VA].

    Raises
    ------
    RuleError
        For a rating over 27 kW or more appliances than the table has.

    Examples
    --------
    >>> cooking_demand([12000])[0], cooking_demand([14000])[0], cooking_demand([16000])[0]
    (8000.0, 8800.0, 9600.0)
    """
    if not ratings_va:
        return 0.0, (), None
    tiny = [va for va in ratings_va if va <= _COUNTED]
    counted = [va for va in ratings_va if va > _COUNTED]
    if max(ratings_va) > _LARGEST or len(counted) > max(_rows()):
        raise RuleError(
            "Table 220.55 ends at 27 kW an appliance and 40 appliances.",
            do="Let the electrician figure this kitchen.",
        )
    if not counted:
        return sum(tiny), (f"{sum(tiny):,.0f} VA in full",), None
    small = [va for va in counted if va <= _SMALL]
    large = [va for va in counted if va > _SMALL]
    options = [_column_c(counted)]
    if small:
        options.append(_by_note_3(small, large))
    demand, words = min(options, key=lambda option: option[0])
    return demand + sum(tiny), words, _rows()[len(counted)][3]


def _column_c(ratings: Sequence[float]) -> tuple[float, tuple[str, ...]]:
    base = _rows()[len(ratings)][2]
    average = sum(max(va, _FULL) for va in ratings) / len(ratings)
    over_kw = int((average - _FULL) / 1000 + 0.5)
    words = f"column C, {len(ratings)} appliance{'s' if len(ratings) > 1 else ''}: {base:,.0f} VA"
    if over_kw:
        words += f", {_NOTE_PERCENT} % more for each of {over_kw} kW over 12 kW"
    return base * (100 + _NOTE_PERCENT * over_kw) / 100, (words,)


def _by_note_3(small: Sequence[float], large: Sequence[float]) -> tuple[float, tuple[str, ...]]:
    total, words = (0.0, ()) if not large else _column_c(large)
    for name in ("A", "B"):
        group = [va for va in small if (va < _UNDER) == (name == "A")]
        if group:
            under, over, *_ = _rows()[len(group)]
            percent = under if name == "A" else over
            total += sum(group) * percent / 100
            words = (*words, f"column {name}, note 3: {sum(group):,.0f} VA x {percent:g} %")
    return total, words
