"""Devices, circuits and wiring of a house file: keys and what they mean."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, PlainValidator, WithJsonSchema

from setday.files.house import electrical
from setday.files.house.phrases import Spot
from setday.files.house.scalars import AlongWall, Height, PlanPoint, TapeLength, plan_spot
from setday.files.written.fields import FreeText, Misread, Name, YesNo, count_of, one_line, read_by
from setday.files.written.part import Part, says

__all__ = ["CircuitPart", "DevicePart", "WiringPart"]


def _numbered(description: str, *examples: str) -> WithJsonSchema:
    return WithJsonSchema(
        {"type": ["string", "integer"], "description": description, "examples": list(examples)}
    )


def _overhead(value: Any) -> Any:
    """Take "middle" as no point, anything else as a point of the plan."""
    if isinstance(value, str) and value.strip().lower() in ("middle", "center", "in the middle"):
        return None
    return plan_spot(value)


def _several(value: Any) -> Any:
    return [value] if isinstance(value, str) else value


_SEVERAL = {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}
Names = Annotated[
    list[Name],
    Field(max_length=100),
    BeforeValidator(_several),
    WithJsonSchema(_SEVERAL),
]
DeviceText = Annotated[
    electrical.DeviceWord,
    read_by(electrical.read_device),
    WithJsonSchema(
        {"type": "string", "examples": ["receptacle", "counter receptacle", "smoke alarm", "range"]}
    ),
]
Overhead = Annotated[
    Spot | None,
    PlainValidator(_overhead),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string", "examples": ["middle", "6' east, 4' north"]},
                {"type": "array", "items": {"type": "string"}, "minItems": 2, "maxItems": 2},
            ]
        }
    ),
]
Volts = Annotated[int, read_by(electrical.read_volts), _numbered("Volts.", "120", "240 V")]
Amperes = Annotated[int, read_by(electrical.read_amperes), _numbered("Amperes.", "15 A", "20 A")]
Wire = Annotated[int, read_by(electrical.read_wire), _numbered("Size of copper wire.", "12", "12 AWG")]
Load = Annotated[
    int, read_by(electrical.read_load), WithJsonSchema({"type": "string", "examples": ["1500 VA", "12 kW"]})
]


_UP_TO_SIX, _UP_TO_84 = count_of(1, 6), count_of(2, 84)
Gangs = Annotated[int, _UP_TO_SIX[0], _UP_TO_SIX[1]]
Spaces = Annotated[int, _UP_TO_84[0], _UP_TO_84[1]]


def _service(text: str) -> int:
    plain = text.lower().replace("amps", "").replace("a", "").strip()
    if not plain.isdecimal() or not 60 <= int(plain[:5]) <= 400:
        raise Misread(
            f"'{text[:30]}' is no rating of a house's service.", "60 A to 400 A.", "Check the number."
        )
    return int(plain)


Rating = Annotated[int, read_by(_service), _numbered("Amperes.", "200 A")]
SideWord = Annotated[Literal["left", "right"], BeforeValidator(lambda value: one_line(value).strip().lower())]


class DevicePart(Part):
    """A device: what it is, and where its box stands."""

    is_: DeviceText = Field(
        alias="is",
        description="What it is: receptacle, switch, light, fan, alarm or junction box, with a word before "
        "it where it helps, or the name of an appliance.",
        examples=["receptacle", "counter receptacle", "smoke alarm", "range"],
    )
    room: Name | None = says(
        "The room it faces; outdoors for the weather side of a wall.", "kitchen", "outdoors"
    )
    wall: Name | None = says("The wall it is on.", "north wall")
    center: AlongWall | None = says(
        "Centre of its box along the wall as seen in the room: from an end, or from an opening.",
        "4'-0\" from west end",
        '6" from bath door going east',
    )
    up: TapeLength | None = says(
        "Centre of its box above the subfloor; receptacles and switches as unless noted.", '44"'
    )
    side: SideWord | None = says(
        "Which side of the wall, looking from its start to its end, where both face the same room.", "left"
    )
    ceiling: Overhead | None = says("On the ceiling: in the middle of its room, or at a point.", "middle")
    floor: Overhead | None = says(
        "In the floor: in the middle of its room, or at a point.", "6' east, 4' north"
    )
    box: Name | None = says(
        "The box it shares; the first device written with it says where it is.", "door box"
    )
    gangs: Gangs | None = says("Width of a box of its own, in devices side by side; 1 when not written.", "2")
    serves: Names | None = says("For a switch: what it switches.", "bath light")
    half_switched: YesNo | None = says(
        "Only the upper half of this receptacle is switched; no when not written.", "yes"
    )
    volts: Volts | None = says("120 or 240; 120 when not written.", "240")
    load: Load | None = says("Nameplate load; the usual one when not written.", "1500 VA", "12 kW")
    circuit: Name | None = says("The circuit it is on, when the circuit does not list it.", "bath")


class CircuitPart(Part):
    """A circuit."""

    use: FreeText | None = says(
        "What it is for: general, small appliance, laundry, bath, individual; general when not written.",
        "small appliance",
    )
    breaker: Amperes | None = says("Size of its breaker; 15 A when not written.", "20 A")
    volts: Volts | None = says("120 or 240; 120 when not written.", "240")
    wire: Wire | None = says("Size of its copper conductors; as the breaker asks when not written.", "12")
    devices: Names | None = says("What is on it.", "[counter receptacle 1, counter receptacle 2]")
    in_order: YesNo | None = says(
        "The cable reaches its devices in the order written; no when not written.", "yes"
    )


class WiringPart(Part):
    """The wiring as a whole."""

    panel: PlanPoint | None = says(
        "The point of the plan under which the home runs are coiled; "
        "the foundation's panel corner when not written.",
        "1' east, 25' north",
    )
    set_slack: Height | None = says("Extra cable on every home run, coiled for the set.", "12'")
    service: Rating | None = says("Rating of the service; 200 A when not written.", "200 A")
    spaces: Spaces | None = says("Breaker spaces of the panel; 30 when not written.", "40")
    hole_height: Height | None = says("Height of the bored holes along walls above the subfloor.", '24"')
    closed_walls: Names | None = says("Walls that no cable may run in.", "[living wall]")
