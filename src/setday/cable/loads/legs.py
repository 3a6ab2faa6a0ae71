"""Loads on the two legs of the supply, divided as evenly as can be."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from setday.cable.appliance import LoadClass
from setday.cable.circuit import Leg
from setday.cable.loads.load import DwellingLoads, LoadItem, amperes
from setday.cable.loads.load_standard import neutral_load, standard_load
from setday.rules import RuleBook
from setday.working import Step, Working

__all__ = ["LegLoads", "leg_loads", "split_evenly"]


def split_evenly(
    loads: Sequence[int], *, most_a: int | None = None, most_b: int | None = None
) -> tuple[Leg, ...] | None:
    """Divide loads over two legs so that the legs differ as little as possible; exact.

    Parameters
    ----------
    loads : sequence of int
        [VA], none below nothing.
    most_a, most_b : int or None
        Most loads a leg has room for; None for no limit.

    Returns
    -------
    tuple of Leg or None
        The leg of each load; None where they do not fit.  By dynamic programming over every sum that
        can be reached, so no division is nearer to even.

    Examples
    --------
    >>> [str(leg) for leg in split_evenly([12, 10, 8])]
    ['A', 'B', 'B']
    """
    count = len(loads)
    room_a = count if most_a is None else min(most_a, count)
    least_a = 0 if most_b is None else max(0, count - most_b)
    if least_a > room_a:
        return None
    reached = _reached(loads, room_a)
    total = sum(loads)
    ends = [
        (abs(total - 2 * s), n, s)
        for n in range(least_a, room_a + 1)
        for s in _nearest(reached[-1][n], total)
    ]
    if not ends:
        return None
    _, chosen, aim = min(ends)
    legs: list[Leg] = []
    for index in range(count - 1, -1, -1):
        if chosen and aim >= loads[index] and reached[index][chosen - 1] >> (aim - loads[index]) & 1:
            legs.append(Leg.A)
            chosen, aim = chosen - 1, aim - loads[index]
        else:
            legs.append(Leg.B)
    return _first_on_a(tuple(reversed(legs)), loads, most_a, most_b)


def _reached(loads: Sequence[int], room: int) -> list[list[int]]:
    """Return, after each load, the sums that so many loads on leg A can come to, one bit a sum."""
    table = [[1] + [0] * room]
    for load in loads:
        last = table[-1]
        table.append([last[0], *(last[n] | last[n - 1] << load for n in range(1, room + 1))])
    return table


def _nearest(sums: int, total: int) -> list[int]:
    """Return the sums nearest to half the total from below and from above."""
    half = total // 2
    below = sums & ((1 << (half + 1)) - 1)
    above = sums >> (half + 1)
    found = [below.bit_length() - 1] if below else []
    if above:
        found.append(half + 1 + ((above & -above).bit_length() - 1))
    return found


def _first_on_a(
    legs: tuple[Leg, ...], loads: Sequence[int], most_a: int | None, most_b: int | None
) -> tuple[Leg, ...]:
    """Put the first of the largest loads on leg A where the rooms allow, so that the answer is one."""
    if not legs or legs[loads.index(max(loads))] is Leg.A:
        return legs
    turned = tuple(Leg.B if leg is Leg.A else Leg.A for leg in legs)
    fits_a = most_a is None or turned.count(Leg.A) <= most_a
    fits_b = most_b is None or turned.count(Leg.B) <= most_b
    return turned if fits_a and fits_b else legs


@dataclass(frozen=True, slots=True, kw_only=True)
class LegLoads:
    """Current on each leg and on the neutral by the standard method [A], with its working."""

    a_a: float
    b_a: float
    neutral_a: float
    working: Working

    @property
    def largest_a(self) -> float:
        """The current of the harder loaded leg [A]."""
        return max(self.a_a, self.b_a)


_ON_ONE_LEG = (LoadClass.FASTENED, LoadClass.FULL, LoadClass.COOLING, LoadClass.HEAT)


def leg_loads(loads: DwellingLoads, rules: RuleBook) -> LegLoads:
    """Work out what each leg carries when 120-volt appliances hang on one leg each [A].

    As in annex D, example D1(b): what lies between the legs counts on both; the appliances at 120 V are
    divided over the legs; to each leg comes a share of its largest motor.  The neutral carries, of
    each pair of these appliances on opposite legs, the larger.

    Parameters
    ----------
    loads : DwellingLoads
    rules : RuleBook
        The rules of cable.
    """
    single, common = _parted(loads, rules)
    half = rules.number("cable.service_volts") / 2
    legs = split_evenly([round(item.va) for item in single]) or ()
    base = _without_motor(standard_load(common, rules)) / half / 2
    steps = [_step("between the legs", f"on both legs: {base:.1f} A", base)]
    currents = {}
    for leg in Leg:
        on_leg = [item for item, its in zip(single, legs, strict=True) if its is leg]
        currents[leg], step = _leg(leg, base, on_leg, _motors_across(common, half), rules)
        steps.append(step)
    neutral, step = _neutral(single, common, rules)
    largest = max(currents.values())
    working = Working(
        key="cable/load/legs",
        title="Load of each leg",
        steps=(*steps, step),
        result=f"{amperes(largest)} A",
        value=largest,
        unit="A",
        assumptions=("Appliances at 120 V divided as evenly as can be.",),
    )
    return LegLoads(a_a=currents[Leg.A], b_a=currents[Leg.B], neutral_a=neutral, working=working)


def _motors_across(common: DwellingLoads, half: float) -> list[float]:
    return [i.va / half / 2 for i in common.of(*_ON_ONE_LEG, LoadClass.HEAT_PUMP) if i.motor]


def _leg(
    leg: Leg, base: float, on_leg: Sequence[LoadItem], across: list[float], rules: RuleBook
) -> tuple[float, Step]:
    half = rules.number("cable.service_volts") / 2
    extra = rules.number("cable.motor_extra_percent") / 100
    added = extra * max([item.va / half for item in on_leg if item.motor] + across, default=0.0)
    current = base + sum(item.va / half for item in on_leg) + added
    names = ", ".join(f"{item.name} {item.va / half:.1f} A" for item in on_leg) or "nothing at 120 V"
    return current, _step(f"leg {leg.value}", f"{base:.1f} A + {names} + motor {added:.1f} A", current)


def _neutral(single: Sequence[LoadItem], common: DwellingLoads, rules: RuleBook) -> tuple[float, Step]:
    volts = rules.number("cable.service_volts")
    base = _without_motor(neutral_load(common, rules)) / volts
    pairs = sum(sorted((item.va / volts * 2 for item in single), reverse=True)[::2])
    motors = [item.va / volts * 2 for item in single if item.motor]
    added = rules.number("cable.motor_extra_percent") / 100 * max(motors, default=0.0)
    words = f"{base:.1f} A + the larger of each pair {pairs:.1f} A + motor {added:.1f} A"
    return base + pairs + added, _step("neutral", words, base + pairs + added)


def _parted(loads: DwellingLoads, rules: RuleBook) -> tuple[tuple[LoadItem, ...], DwellingLoads]:
    """Return the appliances that hang on one leg, at their demand, and the rest of the loads."""
    heat = sum(item.va for item in loads.of(LoadClass.HEAT, LoadClass.HEAT_PUMP))
    cooling = sum(item.va for item in loads.of(LoadClass.COOLING))
    idle = LoadClass.HEAT if cooling > heat else LoadClass.COOLING
    running = tuple(item for item in loads.items if item.load_class is not idle)
    many = len(loads.of(LoadClass.FASTENED)) >= rules.number("cable.fastened_count")
    share = rules.number("cable.fastened_percent_of_many") / 100 if many else 1.0
    single, common = [], []
    for item in running:
        percent = share if item.load_class is LoadClass.FASTENED else 1.0
        at_demand = replace(item, va=item.va * percent)
        if item.volts <= 120 and item.load_class in _ON_ONE_LEG:
            single.append(at_demand)
        else:
            taken = item.load_class is LoadClass.FASTENED  # its demand must not be reduced twice
            common.append(replace(at_demand, load_class=LoadClass.FULL) if taken else at_demand)
    return tuple(single), replace(loads, items=tuple(common))


def _without_motor(working: Working) -> float:
    motor = sum(step.value or 0.0 for step in working.steps if step.label.startswith("largest motor"))
    return working.value - motor


def _step(label: str, expression: str, current: float) -> Step:
    return Step(label=label, expression=expression, result=f"{current:.1f} A", value=current, unit="A")
