"""Devices proposed for a house that has none."""

from setday.cable.placing.draft import Draft
from setday.cable.placing.proposing_alarms import propose_alarms
from setday.cable.placing.proposing_appliances import propose_appliances
from setday.cable.placing.proposing_lights import propose_lights
from setday.cable.placing.proposing_receptacles import propose_counters, propose_receptacles
from setday.house import House, TypedDevice
from setday.rules import RuleBook

__all__ = ["propose_devices"]


def propose_devices(house: House, rules: RuleBook) -> tuple[TypedDevice, ...]:
    """Return devices for every room of a house: receptacles, lights, switches, alarms, appliances.

    Boxes stand beside a stud where one is near enough, never in an opening, on a header or in the studs
    beside an opening, never two in one place, not even from both sides of a wall.

    Parameters
    ----------
    house : House
        What devices it has already is passed over.
    rules : RuleBook
        From `setday.cable.cable_rules`, local rules put in.

    Returns
    -------
    tuple of TypedDevice
        In the order of the rooms; the same for the same house.
    """
    draft = Draft(house=house, rules=rules)
    propose_appliances(draft)
    propose_counters(draft)
    propose_lights(draft)
    propose_receptacles(draft)
    propose_alarms(draft)
    order = {room.name: n for n, room in enumerate(house.rooms)}
    ranked = sorted(enumerate(draft.devices), key=lambda each: (order.get(each[1].room, len(order)), each[0]))
    return tuple(device for _, device in ranked)
