"""What a dwelling's load calculation starts from: its area, its circuits, its appliances."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.cable.appliance import LoadClass, kind_on, load_va
from setday.cable.circuit import Circuit, CircuitUse
from setday.cable.rooms import RoomKind, room_kinds
from setday.findings import Where
from setday.house import Device, DeviceKind, House
from setday.measure import Area
from setday.rules import RuleBook, Source
from setday.working import Step, Working

__all__ = [
    "DwellingLoads",
    "LoadItem",
    "amperes",
    "dwelling_area_sqft",
    "dwelling_loads",
    "load_summed",
    "va_step",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadItem:
    """An appliance as the load calculation takes it.

    Parameters
    ----------
    name : str
    load_class : LoadClass
    va : float
        Nameplate load [VA].
    volts : int
        [V].
    motor : bool
    where : Where
    """

    name: str
    load_class: LoadClass
    va: float
    volts: int
    motor: bool = False
    where: Where = Where()


@dataclass(frozen=True, slots=True, kw_only=True)
class DwellingLoads:
    """What a load calculation starts from.

    Parameters
    ----------
    area_sqft : float
        Of the floor by the outside of the framing, garages left out [ft2].
    small_appliance, laundry : int
        Number of these circuits.
    items : tuple of LoadItem
    """

    area_sqft: float
    small_appliance: int
    laundry: int
    items: tuple[LoadItem, ...]

    def of(self, *classes: LoadClass) -> tuple[LoadItem, ...]:
        """Return the appliances of these classes."""
        return tuple(item for item in self.items if item.load_class in classes)


def dwelling_loads(house: House, circuits: Sequence[Circuit] = (), *, rules: RuleBook) -> DwellingLoads:
    """Gather what the load calculation of a house starts from.

    Parameters
    ----------
    house : House
        With its devices.
    circuits : sequence of Circuit
        Typed or proposed; a house with a kitchen counts at least the required ones.
    rules : RuleBook
    """
    dwelling = RoomKind.KITCHEN in room_kinds(house).values()
    least_small = int(rules.number("cable.small_appliance_circuits")) if dwelling else 0
    least_laundry = int(rules.number("cable.laundry_circuits")) if dwelling else 0
    uses = [circuit.use for circuit in circuits]
    items = [item for device in house.devices if (item := _item(device, rules)) is not None]
    return DwellingLoads(
        area_sqft=dwelling_area_sqft(house),
        small_appliance=max(least_small, uses.count(CircuitUse.SMALL_APPLIANCE)),
        laundry=max(least_laundry, uses.count(CircuitUse.LAUNDRY)),
        items=tuple(items),
    )


def dwelling_area_sqft(house: House) -> float:
    """Return the floor area for general lighting: by the outside of the framing, garages left out [ft2]."""
    rings = [Area.polygon(tuple((point.x, point.y) for point in ring)) for ring in house.footprint]
    outside = max((area.sqft for area in rings), default=0.0)
    kinds = room_kinds(house)
    left_out = sum(
        room.area.sqft for room in house.rooms if kinds[room.name] in {RoomKind.GARAGE, RoomKind.OUTDOORS}
    )
    return max(outside - left_out, 0.0)


def _item(device: Device, rules: RuleBook) -> LoadItem | None:
    known = kind_on(device)
    if known is None and device.kind is not DeviceKind.APPLIANCE:
        return None
    return LoadItem(
        name=device.name,
        load_class=known.load_class if known else LoadClass.FASTENED,
        va=load_va(device, rules),
        volts=device.typed.volts,
        motor=known.motor if known else False,
        where=device.typed.where,
    )


def va_step(label: str, expression: str, va: float, source: Source | None = None) -> Step:
    """Return a step of a load calculation."""
    return Step(
        label=label, expression=expression, result=f"{va:,.0f} VA", value=va, unit="VA", source=source
    )


def amperes(current_a: float) -> int:
    """Return a computed current as whole amperes [A]; fractions below a half are dropped (220.5(B)).

    Examples
    --------
    >>> amperes(77.5), amperes(60.4)
    (78, 60)
    """
    return int(current_a + 0.5 + 1e-9)


def load_summed(
    steps: Sequence[Step],
    total_va: float,
    rules: RuleBook,
    *,
    key: str,
    title: str,
    assumptions: tuple[str, ...],
) -> Working:
    """Return the working of a dwelling's load, ended by its total and the current at the service's voltage.

    Parameters
    ----------
    steps : sequence of Step
        How the total was come to.
    total_va : float
        [VA].
    rules : RuleBook
        The rules of cable.
    key, title : str
        Of the working.
    assumptions : tuple of str
    """
    volts = rules.number("cable.service_volts")
    current = total_va / volts
    last = Step(
        label="current",
        expression=f"{total_va:,.0f} VA / {volts:g} V = {current:.1f} A",
        result=f"{amperes(current)} A",
        value=current,
        unit="A",
    )
    return Working(
        key=key,
        title=title,
        steps=(*steps, va_step("total", "sum of what counts", total_va), last),
        result=f"{total_va:,.0f} VA",
        value=total_va,
        unit="VA",
        assumptions=assumptions,
    )
