"""The standard load calculation of a dwelling, and its neutral."""

from dataclasses import dataclass, replace

from setday.cable.appliance import LoadClass
from setday.cable.loads.cooking import cooking_demand
from setday.cable.loads.load import DwellingLoads, LoadItem, load_summed, va_step
from setday.rules import RuleBook, load_table
from setday.working import Step, Working

__all__ = ["general_steps", "neutral_load", "standard_load"]

_MOTORS = (LoadClass.FASTENED, LoadClass.FULL, LoadClass.COOLING, LoadClass.HEAT_PUMP)


@dataclass(slots=True)
class _Sum:
    """Steps as they are added up."""

    steps: list[Step]
    total: float = 0.0

    def add(self, step: Step) -> None:
        """Add a step whose value counts."""
        self.steps.append(step)
        self.total += step.value or 0.0


def general_steps(loads: DwellingLoads, rules: RuleBook) -> tuple[Step, ...]:
    """Return general lighting, small appliances and laundry before any demand; the last step is their sum."""
    lighting, small, laundry = (
        rules["cable.lighting_va_per_sqft"],
        rules["cable.small_appliance_va"],
        rules["cable.laundry_va"],
    )
    each = rules.number(lighting.key)
    area = loads.area_sqft * each
    small_va = loads.small_appliance * rules.number(small.key)
    laundry_va = loads.laundry * rules.number(laundry.key)
    return (
        va_step("general lighting", f"{loads.area_sqft:,.0f} ft2 x {each:g} VA/ft2", area, lighting.source),
        va_step(
            "small-appliance circuits",
            f"{loads.small_appliance} x {rules.number(small.key):,.0f} VA",
            small_va,
            small.source,
        ),
        va_step(
            "laundry circuits",
            f"{loads.laundry} x {rules.number(laundry.key):,.0f} VA",
            laundry_va,
            laundry.source,
        ),
        va_step(
            "together",
            f"{area:,.0f} VA + {small_va:,.0f} VA + {laundry_va:,.0f} VA",
            area + small_va + laundry_va,
        ),
    )


def standard_load(loads: DwellingLoads, rules: RuleBook) -> Working:
    """Work out the load of a dwelling by the standard method [VA], NEC article 220 part III.

    Parameters
    ----------
    loads : DwellingLoads
    rules : RuleBook
        The rules of cable.

    Returns
    -------
    Working
        Its last step is the current at the service's voltage.
    """
    general = general_steps(loads, rules)
    figure = _Sum(steps=list(general))
    for step in _lighting_demand(general[-1].value or 0.0):
        figure.add(step)
    for item_step in (*_cooking(loads, 100), *_dryers(loads, rules, 100)):
        figure.add(item_step)
    for step in (
        *_fastened(loads.of(LoadClass.FASTENED), loads, rules),
        *(
            va_step(item.name, "in full, never reduced among several", item.va)
            for item in loads.of(LoadClass.FULL)
        ),
        *_heat_or_cooling(loads),
        *_motor(loads.of(*_MOTORS), rules),
    ):
        figure.add(step)
    return _finished(figure, rules, key="cable/load/standard", title="Load by the standard method")


def neutral_load(loads: DwellingLoads, rules: RuleBook) -> Working:
    """Work out the load of the neutral [VA], NEC 220.61.

    Parameters
    ----------
    loads : DwellingLoads
    rules : RuleBook
        The rules of cable.
    """
    general = general_steps(loads, rules)
    figure = _Sum(steps=list(general))
    for step in _lighting_demand(general[-1].value or 0.0):
        figure.add(step)
    percent = rules.number("cable.neutral_percent")
    source = rules["cable.neutral_percent"].source
    for step in (*_cooking(loads, percent), *_dryers(loads, rules, percent)):
        figure.add(replace(step, source=source))
    with_neutral = tuple(item for item in loads.of(LoadClass.FASTENED) if item.volts <= 120)
    cooling = tuple(
        item for item in loads.of(LoadClass.COOLING, LoadClass.FULL, LoadClass.HEAT) if item.volts <= 120
    )
    for step in (
        *_fastened(with_neutral, loads, rules),
        *(va_step(item.name, f"{item.va:,.0f} VA at 120 V", item.va) for item in cooling),
        *_motor(tuple(i for i in loads.of(*_MOTORS) if i.volts <= 120), rules),
    ):
        figure.add(step)
    return _finished(figure, rules, key="cable/load/neutral", title="Load of the neutral")


def _lighting_demand(total: float) -> tuple[Step, ...]:
    table = load_table("setday.cable", "lighting_demand")
    steps, done = [], 0.0
    for row in table.rows:
        top = float(row["to_va"]) if row["to_va"] else float("inf")
        part = min(total, top) - done
        if part <= 0:
            break
        percent = float(row["demand_percent"])
        label = f"the first {part:,.0f} VA" if done == 0 else f"the next {part:,.0f} VA"
        steps.append(
            va_step(label, f"{part:,.0f} VA x {percent:g} %", part * percent / 100, table.source_of(row))
        )
        done += part
    return tuple(steps)


def _cooking(loads: DwellingLoads, percent: float) -> tuple[Step, ...]:
    items = loads.of(LoadClass.COOKING)
    if not items:
        return ()
    demand, words, source = cooking_demand([item.va for item in items])
    share = "" if percent == 100 else f", x {percent:g} %"
    names = ", ".join(item.name for item in items)
    return (va_step(f"cooking: {names}", "; ".join(words) + share, demand * percent / 100, source),)


def _dryers(loads: DwellingLoads, rules: RuleBook, percent: float) -> tuple[Step, ...]:
    least = rules.number("cable.dryer_least_va")
    source = rules["cable.dryer_least_va"].source
    share = "" if percent == 100 else f", x {percent:g} %"
    return tuple(
        va_step(
            item.name,
            f"the larger of {item.va:,.0f} VA and {least:,.0f} VA{share}",
            max(item.va, least) * percent / 100,
            source,
        )
        for item in loads.of(LoadClass.DRYER)
    )


def _fastened(items: tuple[LoadItem, ...], loads: DwellingLoads, rules: RuleBook) -> tuple[Step, ...]:
    """Return one step an appliance; reduced where the house has four or more of them."""
    many = len(loads.of(LoadClass.FASTENED)) >= rules.number("cable.fastened_count")
    percent = rules.number("cable.fastened_percent_of_many") if many else 100.0
    source = rules["cable.fastened_percent_of_many"].source if many else None
    share = f" x {percent:g} %, four or more" if many else " in full, fewer than four"
    return tuple(
        va_step(item.name, f"{item.va:,.0f} VA{share}", item.va * percent / 100, source) for item in items
    )


def _heat_or_cooling(loads: DwellingLoads) -> tuple[Step, ...]:
    """Return the larger of heating and cooling: they do not run together, NEC 220.60."""
    heat = sum(item.va for item in loads.of(LoadClass.HEAT, LoadClass.HEAT_PUMP))
    cooling = sum(item.va for item in loads.of(LoadClass.COOLING))
    if not heat and not cooling:
        return ()
    words = f"the larger of heating {heat:,.0f} VA and cooling {cooling:,.0f} VA"
    return (va_step("heating or cooling", words, max(heat, cooling)),)


def _motor(items: tuple[LoadItem, ...], rules: RuleBook) -> tuple[Step, ...]:
    motors = [item for item in items if item.motor]
    if not motors:
        return ()
    largest = max(motors, key=lambda item: (item.va, item.name))
    rule = rules["cable.motor_extra_percent"]
    percent = rules.number(rule.key)
    words = f"{percent:g} % of {largest.va:,.0f} VA"
    return (va_step(f"largest motor: {largest.name}", words, largest.va * percent / 100, rule.source),)


def _finished(figure: _Sum, rules: RuleBook, *, key: str, title: str) -> Working:
    return load_summed(
        figure.steps,
        figure.total,
        rules,
        key=key,
        title=title,
        assumptions=(
            "Receptacles and lights are within the general lighting load.",
            "Bath and garage circuits add nothing.",
            "The area is that of this floor; finish a basement later and figure again.",
        ),
    )
