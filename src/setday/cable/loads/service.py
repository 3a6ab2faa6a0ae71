"""The service: its rating, its conductors, its neutral, its ground."""

from setday.cable.circuit import Service
from setday.cable.loads.legs import leg_loads
from setday.cable.loads.load import DwellingLoads, amperes
from setday.cable.loads.load_optional import optional_load
from setday.cable.loads.load_standard import neutral_load, standard_load
from setday.electric import (
    ampacity_a,
    ampacity_source,
    electrode_conductor,
    next_standard_breaker,
    size_named,
    smallest_conductor,
    standard_breakers,
)
from setday.findings import Finding, Severity
from setday.house import PanelPlace
from setday.rules import RuleBook
from setday.working import Step, Working

__all__ = ["check_service", "service_for"]

_DWELLING_RANGE = (100, 400)
"""The 83 percent rule holds for services of these ratings [A], 310.12."""


def service_for(loads: DwellingLoads, rules: RuleBook, *, rating: int | None = None) -> Service:
    """Size the service of a dwelling.

    Parameters
    ----------
    loads : DwellingLoads
    rules : RuleBook
        `cable.method` says which load calculation sizes it.
    rating : int or None
        Of the panel as it is written [A]; conductors are sized for it where it is the larger.

    Returns
    -------
    Service
    """
    optional = rules.choice("cable.method") == "optional"
    figure = optional_load(loads, rules) if optional else standard_load(loads, rules)
    neutral = neutral_load(loads, rules)
    by_leg = leg_loads(loads, rules)
    volts = rules.number("cable.service_volts")
    leg_a, leg_neutral_a = (0.0, 0.0) if optional else (by_leg.largest_a, by_leg.neutral_a)
    current = max(figure.value / volts, leg_a)
    neutral_a = max(neutral.value / volts, leg_neutral_a)
    needed, rating_steps = _rating(figure, current, leg_a, rules)
    known = rating if rating in standard_breakers() else 0
    sized_for = max(needed, known or 0)
    conductor, conductor_step = _conductor(sized_for, rules)
    electrode, neutral_size, ground_steps = _grounded(conductor, neutral_a, rules)
    return Service(
        load_va=figure.value,
        current_a=current,
        rating=needed,
        sized_for=sized_for,
        neutral_va=neutral.value,
        neutral_a=neutral_a,
        conductor=conductor,
        neutral_conductor=neutral_size,
        electrode_conductor=electrode,
        working=Working(
            key="cable/service",
            title="The service",
            steps=(*rating_steps, conductor_step, *ground_steps),
            result=f"{needed} A",
            value=float(needed),
            unit="A",
            assumptions=("Copper conductors, 75 degrees C terminals, one 120/240 V service.",),
        ),
    )


def _rating(figure: Working, current: float, leg_a: float, rules: RuleBook) -> tuple[int, tuple[Step, ...]]:
    least = int(rules.number("cable.service_least"))
    needed = max(next_standard_breaker(amperes(current)), least)
    volts = rules.number("cable.service_volts")
    words = f"{figure.value:,.0f} VA / {volts:g} V = {figure.value / volts:.1f} A"
    if leg_a:
        words = f"the larger of {words} and the harder loaded leg, {leg_a:.1f} A"
    return needed, (
        Step(
            label="current of the service",
            expression=words,
            result=f"{amperes(current)} A",
            value=current,
            unit="A",
        ),
        Step(
            label="standard rating that carries it",
            expression=f"the next from {amperes(current)} A, at least {least} A",
            result=f"{needed} A",
            value=float(needed),
            unit="A",
            source=rules["cable.service_least"].source,
        ),
    )


def _grounded(conductor: str, neutral_a: float, rules: RuleBook) -> tuple[str, str, tuple[Step, ...]]:
    electrode, source = electrode_conductor(conductor)
    neutral = _larger(smallest_conductor(neutral_a, column=75), electrode)
    return (
        electrode,
        neutral,
        (
            Step(
                label="conductor to the grounding electrode",
                expression=f"for copper service conductors of {size_named(conductor)}",
                result=size_named(electrode),
                source=source,
            ),
            Step(
                label="neutral",
                expression=f"{neutral_a:.1f} A at 75 degrees C, not smaller than the electrode's conductor",
                result=size_named(neutral),
                source=rules["cable.neutral_percent"].source,
            ),
        ),
    )


def _conductor(rating: int, rules: RuleBook) -> tuple[str, Step]:
    low, high = _DWELLING_RANGE
    percent = rules.number("cable.service_percent") if low <= rating <= high else 100.0
    wanted = rating * percent / 100
    size = smallest_conductor(wanted, column=75)
    carries = ampacity_a(size, column=75)
    return size, Step(
        label="service conductors",
        expression=f"{percent:g} % of {rating} A = {wanted:g} A; {size_named(size)} copper carries "
        f"{carries:g} A ({ampacity_source(size).section or ampacity_source(size).title})",
        result=size_named(size),
        value=wanted,
        unit="A",
        source=rules["cable.service_percent"].source,
    )


def _larger(first: str, second: str) -> str:
    return max(first, second, key=lambda size: ampacity_a(size, column=75))


def check_service(service: Service, panel: PanelPlace | None, rules: RuleBook) -> tuple[Finding, ...]:
    """Find a panel whose rating does not carry the load of the house.

    Parameters
    ----------
    service : Service
    panel : PanelPlace or None
        As the house file writes it.
    rules : RuleBook
        The rules of cable.
    """
    if panel is None:
        return ()
    findings = []
    if panel.rating < service.rating:
        findings.append(
            Finding(
                rule="cable.panel-rating",
                about="the panel",
                found=f"it is rated {panel.rating} A; the load asks for {service.rating} A "
                f"({service.current_a:.1f} A).",
                expected=f"a rating of {service.rating} A or more.",
                do="Write a larger rating, or check the appliances' loads.",
                where=panel.where,
                source=rules["cable.service_least"].source,
            )
        )
    elif panel.rating not in standard_breakers():
        near = min(standard_breakers(), key=lambda standard: abs(standard - panel.rating))
        findings.append(
            Finding(
                rule="cable.panel-rating-odd",
                about="the panel",
                found=f"{panel.rating} A is no standard rating of the table.",
                expected=f"one of the table, for example {near} A.",
                do="Correct the rating.",
                where=panel.where,
                severity=Severity.ASK,
            )
        )
    return tuple(findings)
