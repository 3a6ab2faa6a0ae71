"""Cables through one hole: what is left of their ampacity."""

from collections.abc import Sequence

from setday.electric.cables import cable_kind
from setday.electric.conductors import PACKAGE, ampacity_a, ampacity_source, largest_breaker_a
from setday.errors import RuleError
from setday.rules import Source, load_table
from setday.working import Step, Working

__all__ = ["bundled_ampacity", "bundling_percent"]


def bundling_percent(conductors: int) -> tuple[float, Source]:
    """Return how much of its ampacity a conductor keeps among so many [percent], and the source.

    Parameters
    ----------
    conductors : int
        Current-carrying conductors laid together.

    Examples
    --------
    >>> bundling_percent(8)[0]
    70.0
    """
    table = load_table(PACKAGE, "bundling")
    for row in table.rows:
        if conductors <= int(row["most_count"]):
            return float(row["kept_percent"]), table.source_of(row)
    raise RuleError(
        f"The table ends before {conductors} conductors in one hole.",
        do="Divide the cables over several holes.",
    )


def bundled_ampacity(cables: Sequence[str]) -> Working:
    """Work out what each cable of a bundle may carry [A], NEC 334.80.

    Parameters
    ----------
    cables : sequence of str
        Kinds of the cables that lie without spacing in one sealed or insulated hole: "14/2", "12/2" ...
        Of a three-conductor cable two conductors carry the full current; its neutral is not counted.

    Returns
    -------
    Working
        Its value is what the smallest conductor of the bundle may carry, capped by the 60 degree column.

    Examples
    --------
    >>> bundled_ampacity(["12/2"] * 4).value, bundled_ampacity(["12/2"] * 5).value
    (20.0, 15.0)
    """
    awg = max(cable_kind(kind).awg for kind in cables)
    steps = _steps(cables, awg)
    kept = steps[-1].value or 0.0
    return Working(
        key=f"electric/bundle/{'+'.join(cables)}",
        title="Cables through one sealed hole",
        steps=steps,
        result=f"{kept:g} A",
        value=kept,
        unit="A",
        assumptions=("More than two cables in a hole that is sealed with insulation, caulk or foam.",),
    )


def _steps(cables: Sequence[str], awg: int) -> tuple[Step, ...]:
    carrying = 2 * len(cables)
    percent, source = bundling_percent(carrying)
    hot = ampacity_a(awg, column=90)
    limit = min(ampacity_a(awg, column=60), largest_breaker_a(awg))
    derated = hot * percent / 100
    kept = min(derated, limit)
    return (
        Step(
            label="conductors that carry current",
            expression=f"{len(cables)} cables x 2",
            result=str(carrying),
            value=float(carrying),
            unit="conductors",
        ),
        Step(
            label=f"{awg} AWG at 90 degrees C, reduced",
            expression=f"{hot:g} A x {percent:g} %",
            result=f"{derated:g} A",
            value=derated,
            unit="A",
            source=source,
        ),
        Step(
            label="not more than the small conductor's breaker",
            expression=f"the smaller of {derated:g} A and {limit:g} A",
            result=f"{kept:g} A",
            value=kept,
            unit="A",
            source=ampacity_source(awg),
        ),
    )
