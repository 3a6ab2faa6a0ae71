"""The optional load calculation of a dwelling, NEC 220.82."""

from setday.cable.appliance import LoadClass
from setday.cable.loads.load import DwellingLoads, load_summed, va_step
from setday.cable.loads.load_standard import general_steps
from setday.rules import RuleBook
from setday.working import Step, Working

__all__ = ["optional_load"]

_GENERAL = (LoadClass.COOKING, LoadClass.DRYER, LoadClass.FASTENED, LoadClass.FULL)


def optional_load(loads: DwellingLoads, rules: RuleBook) -> Working:
    """Work out the load of a dwelling by the optional method [VA], NEC 220.82.

    Parameters
    ----------
    loads : DwellingLoads
    rules : RuleBook
        The rules of cable.

    Returns
    -------
    Working
        Its last step is the current at the service's voltage.  Valid for a dwelling with a single
        120/240 V service of 100 A or more.
    """
    general = general_steps(loads, rules)
    plates = [
        va_step(item.name, "nameplate", item.va, rules["cable.optional_first_va"].source)
        for item in loads.of(*_GENERAL)
    ]
    together = (general[-1].value or 0.0) + sum(step.value or 0.0 for step in plates)
    demand = _demand(together, rules)
    air = _heat_or_cooling(loads, rules)
    total = sum(step.value or 0.0 for step in (*demand, *air))
    steps = (
        *general,
        *plates,
        va_step("general loads", "general lighting and circuits + nameplates", together),
        *demand,
        *air,
    )
    return load_summed(
        steps,
        total,
        rules,
        key="cable/load/optional",
        title="Load by the optional method",
        assumptions=("One 120/240 V service of 100 A or more.",),
    )


def _demand(together: float, rules: RuleBook) -> tuple[Step, ...]:
    first = min(together, rules.number("cable.optional_first_va"))
    rest = together - first
    percent = rules.number("cable.optional_rest_percent")
    source = rules["cable.optional_rest_percent"].source
    steps = [va_step("the first of it, in full", f"{first:,.0f} VA x 100 %", first, source)]
    if rest > 0:
        steps.append(va_step("the rest", f"{rest:,.0f} VA x {percent:g} %", rest * percent / 100, source))
    return tuple(steps)


def _heat_or_cooling(loads: DwellingLoads, rules: RuleBook) -> tuple[Step, ...]:
    """Return the largest of cooling, heat pump, and electric heat at its share, NEC 220.82(C)."""
    heaters = loads.of(LoadClass.HEAT)
    many = len(heaters) >= rules.number("cable.optional_heat_units")
    key = "cable.optional_heat_many_percent" if many else "cable.optional_heat_few_percent"
    percent = rules.number(key)
    heat = sum(item.va for item in heaters)
    pump = sum(item.va for item in loads.of(LoadClass.HEAT_PUMP))
    cooling = sum(item.va for item in loads.of(LoadClass.COOLING))
    supplement = rules.number("cable.optional_heat_few_percent")
    options = {
        f"cooling {cooling:,.0f} VA x 100 %": cooling,
        f"{len(heaters)} heating units, {heat:,.0f} VA x {percent:g} %": heat * percent / 100,
    }
    if pump:
        words = f"heat pump {pump:,.0f} VA x 100 % + {heat:,.0f} VA x {supplement:g} %"
        options[words] = pump + heat * supplement / 100
    words, va = max(options.items(), key=lambda option: option[1])
    if not va:
        return ()
    return (va_step("heating or cooling, the largest", words, va, rules[key].source),)
