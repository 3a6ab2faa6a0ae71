"""What was proposed for a house's wiring, written into its file."""

from setday.actions.cable.figured import HouseCable
from setday.actions.houses import OpenHouse
from setday.cable import Circuit
from setday.files import add_devices
from setday.house import TypedCircuit, taped

__all__ = ["with_wiring"]


def with_wiring(opened: OpenHouse, cable: HouseCable) -> str:
    """Return the text of a house file with its proposed devices and circuits in it.

    Devices are measured as with a tape; what the file says already, and every comment, stays as typed.

    Parameters
    ----------
    opened : OpenHouse
    cable : HouseCable
        As figured for this house.
    """
    house = cable.figure.house
    devices = [taped(each.typed, house) for each in house.devices] if cable.proposed else []
    circuits = [_typed(each) for each in cable.figure.plan.circuits if not each.typed]
    return add_devices(opened.text, devices=devices, circuits=circuits)


def _typed(circuit: Circuit) -> TypedCircuit:
    return TypedCircuit(
        name=circuit.name,
        use=circuit.use.value,
        breaker=circuit.breaker,
        volts=circuit.volts,
        wire=circuit.awg,
        devices=circuit.devices,
        ordered=circuit.ordered,
    )
