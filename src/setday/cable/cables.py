"""The cables a circuit asks for, each with a number: home run, the chain of its boxes, switch legs."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from setday.cable.chain import BoxOrder, chain_length, order_boxes
from setday.cable.circuit import Circuit, box_of
from setday.cable.routes.passages import Passages
from setday.cable.run import PANEL, Cable
from setday.house import House
from setday.solving import Limits

__all__ = ["SwitchLeg", "chain_of", "circuit_cables", "feed_boxes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SwitchLeg:
    """A cable between two boxes that the switching asks for: its ends and its kind, "14/3"."""

    start: str
    end: str
    kind: str


def feed_boxes(circuit: Circuit, house: House, *, fed_by_switch: Sequence[str] = ()) -> tuple[str, ...]:
    """Return the boxes that the feed of a circuit has to reach, each once, in the order of its devices.

    Parameters
    ----------
    circuit : Circuit
    house : House
    fed_by_switch : sequence of str
        Boxes that get their conductors from a switch leg only.
    """
    of_device = {device.name: box_of(device) for device in house.devices}
    boxes = dict.fromkeys(of_device[name] for name in circuit.devices if name in of_device)
    return tuple(box for box in boxes if box not in fed_by_switch)


def chain_of(circuit: Circuit, boxes: Sequence[str], *, passages: Passages, limits: Limits) -> BoxOrder:
    """Return the order of boxes on a circuit's feed: as fixed by the instructor, or the shortest.

    Parameters
    ----------
    circuit : Circuit
    boxes : sequence of str
        That the feed reaches.
    passages : Passages
    limits : Limits
        For circuits with more boxes than can be weighed.
    """
    if not circuit.ordered:
        return order_boxes(PANEL, boxes, between=passages.length, limits=limits)
    shortest = order_boxes(PANEL, boxes, between=passages.length, limits=limits)
    length = chain_length(PANEL, boxes, between=passages.length)
    return BoxOrder(
        boxes=tuple(boxes),
        length=length,
        bound=shortest.bound,
        proven=length == shortest.bound,
        method="as the instructor fixed it",
    )


def circuit_cables(
    circuit: Circuit,
    chain: Sequence[str],
    *,
    number: int,
    legs: Sequence[SwitchLeg] = (),
    sounding: Collection[str] = (),
) -> tuple[Cable, ...]:
    """Return the cables of a circuit, numbered from its home run on.

    Parameters
    ----------
    circuit : Circuit
    chain : sequence of str
        Boxes in the order the cable reaches them.
    number : int
        Of the circuit; its home run is "4-1" for circuit 4.
    legs : sequence of SwitchLeg
        Between boxes of a switched light, as the switching part plans them.
    sounding : collection of str
        Boxes of alarms that sound together: from the first to the last of them the feed has one
        conductor more.
    """
    between = [(p, q) for p, q in zip((PANEL, *chain), chain, strict=False)]
    alarms = [n for n, box in enumerate(chain, start=1) if box in sounding]
    joined = (alarms[0], alarms[-1]) if alarms else (0, 0)
    feeds = [
        Cable(
            number=f"{number}-{n}",
            circuit=circuit.name,
            start=start,
            end=end,
            kind=_wider(circuit.cable) if joined[0] < n <= joined[1] else circuit.cable,
            purpose="home run" if start == PANEL else "feed",
        )
        for n, (start, end) in enumerate(between, start=1)
    ]
    switched = [
        Cable(
            number=f"{number}-{n}",
            circuit=circuit.name,
            start=leg.start,
            end=leg.end,
            kind=leg.kind,
            purpose="switch leg",
        )
        for n, leg in enumerate(legs, start=len(feeds) + 1)
    ]
    return (*feeds, *switched)


def _wider(kind: str) -> str:
    """Return the cable with one conductor more: "14/3" for "14/2"."""
    size, _, conductors = kind.partition("/")
    return f"{size}/{int(conductors) + 1}"
