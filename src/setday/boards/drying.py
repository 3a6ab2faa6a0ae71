"""How long joint compound dries, and how many coats a finish level takes."""

from dataclasses import dataclass
from math import exp, log

from setday.errors import RuleError
from setday.rules import RuleBook, Source, Table, load_table

__all__ = ["Coats", "DryingTime", "coats_for_level", "drying_time"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingTime:
    """Hours one coat dries; `within` says whether the room is warm and dry enough to call it good."""

    hours: float
    within: bool
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Coats:
    """Coats after the tape is bedded: on flat joints, on fasteners, and over the whole face."""

    level: int
    flat: int
    fasteners: int
    skim: int
    source: Source


def drying_time(
    temperature_f: float, humidity_percent: float, rules: RuleBook, table: Table | None = None
) -> DryingTime:
    """Return how long a coat of compound dries, read between the rows of the table.

    Parameters
    ----------
    temperature_f : float
        Of the room, 40 to 80 [F].
    humidity_percent : float
        Relative humidity, 0 to 90 [%].
    rules : RuleBook
    table : Table or None
        None reads the table ``drying``.

    Raises
    ------
    RuleError
        Outside the table: compound must not be used in the cold, and nobody measured beyond it.

    Examples
    --------
    >>> from setday.boards.rulebook import board_rules
    >>> round(drying_time(70, 50, board_rules()).hours)
    17
    """
    read = table or load_table("setday.boards", "drying")
    hours = {
        (float(row["temperature_f"]), float(row["relative_humidity_percent"])): float(row["hours"])
        for row in read.rows
    }
    temperatures, humidities = sorted({t for t, _ in hours}), sorted({h for _, h in hours})
    if not (temperatures[0] <= temperature_f <= temperatures[-1]):
        raise _outside(f"{temperature_f:g} F", f"{temperatures[0]:g} to {temperatures[-1]:g} F")
    if not (humidities[0] <= humidity_percent <= humidities[-1]):
        raise _outside(f"{humidity_percent:g} % humidity", f"{humidities[0]:g} to {humidities[-1]:g} %")
    t0, t1 = _around(temperatures, temperature_f)
    h0, h1 = _around(humidities, humidity_percent)
    at_low = _between((t0, log(hours[t0, h0])), (t1, log(hours[t1, h0])), temperature_f)
    at_high = _between((t0, log(hours[t0, h1])), (t1, log(hours[t1, h1])), temperature_f)
    good = temperature_f >= rules.number("boards.dry_good_f")
    good = good and humidity_percent <= rules.number("boards.dry_good_rh")
    return DryingTime(
        hours=exp(_between((h0, at_low), (h1, at_high), humidity_percent)),
        within=good,
        source=read.source_of(read.rows[0]),
    )


def _outside(found: str, known: str) -> RuleError:
    return RuleError(
        f"No drying time is known for {found}.", do=f"The table covers {known}: heat or dry the room."
    )


def _around(values: list[float], at: float) -> tuple[float, float]:
    low = max(v for v in values if v <= at)
    return low, min((v for v in values if v >= at), default=low)


def _between(a: tuple[float, float], b: tuple[float, float], at: float) -> float:
    if a[0] == b[0]:
        return a[1]
    return a[1] + (b[1] - a[1]) * (at - a[0]) / (b[0] - a[0])


def coats_for_level(level: int, rules: RuleBook) -> Coats:
    """Return the coats of a finish level, 1 to 5.

    Raises
    ------
    RuleError
        For a level that does not exist.
    """
    key = f"boards.flat_coats_{level}"
    if key not in rules.rules:
        raise RuleError(f"There is no finish level {level}.", do="Choose a level from 1 to 5.")
    return Coats(
        level=level,
        flat=round(rules.number(key)),
        fasteners=round(rules.number(f"boards.fastener_coats_{level}")),
        skim=round(rules.number(f"boards.skim_coats_{level}")),
        source=rules[key].source,
    )
