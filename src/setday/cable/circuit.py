"""Circuits: what is on each, how it is protected, what each box holds, and where it sits in the panel."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from setday.findings import Finding, Where
from setday.house import Device
from setday.rules import Source
from setday.working import Working

__all__ = [
    "PANEL",
    "BoxFill",
    "Circuit",
    "CircuitPlan",
    "CircuitUse",
    "Distance",
    "Drop",
    "Grouping",
    "Leg",
    "PanelDirectory",
    "PanelSlot",
    "Protection",
    "ProtectionKind",
    "Reason",
    "RunLength",
    "Service",
    "box_of",
]

PANEL = "panel"
"""The box that every home run goes to, in distances and runs."""

Distance = Callable[[str, str], float]
"""Length of cable between two boxes [ft]; either may be `PANEL`."""


def box_of(device: Device) -> str:
    """Return the name of the box a device stands in: the one it shares, or its own name."""
    return device.typed.box or device.name


class CircuitUse(StrEnum):
    """What a circuit is for; the words of the house file."""

    GENERAL = "general"
    SMALL_APPLIANCE = "small appliance"
    LAUNDRY = "laundry"
    BATH = "bath"
    GARAGE = "garage"
    OUTDOOR = "outdoor"
    INDIVIDUAL = "individual"


class ProtectionKind(StrEnum):
    """What a circuit or an outlet is protected against."""

    GROUND_FAULT = "ground-fault"
    ARC_FAULT = "arc-fault"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why a protection is asked for: the devices it is for, the rule in a sentence, and its source."""

    devices: tuple[str, ...]
    sentence: str
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Protection:
    """Ground-fault or arc-fault protection of a circuit, with every reason for it."""

    kind: ProtectionKind
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    """A branch circuit.

    Parameters
    ----------
    name : str
        "small appliance 1", "range", "general 3" ...
    use : CircuitUse
    devices : tuple of str
        Names of its devices; in the order the cable reaches them when `ordered`.
    breaker : int
        [A].
    volts : int
        120 or 240 [V].
    awg : int
        Size of its copper conductors [AWG].
    cable : str
        Kind of cable of its home run, as sold: "12/2", "10/3".
    load_va : float
        Load it is counted with when the legs of the panel are balanced [VA].
    why : str
        Why there is such a circuit, in a sentence.
    source : Source or None
        The rule that asks for it, if one does.
    protections : tuple of Protection
    neutral : bool
        True when it carries a neutral (every 120 V circuit; ranges and dryers at 240 V).
    ordered : bool
        True when the instructor fixed the order of its boxes.
    typed : bool
        True when the house file names it, False when it is proposed.
    where : Where
    """

    name: str
    use: CircuitUse
    devices: tuple[str, ...]
    breaker: int
    volts: int
    awg: int
    cable: str
    load_va: float
    why: str = ""
    source: Source | None = None
    protections: tuple[Protection, ...] = ()
    neutral: bool = True
    ordered: bool = False
    typed: bool = False
    where: Where = Where()

    @property
    def poles(self) -> int:
        """Breaker spaces it takes: one at 120 V, two at 240 V."""
        return 2 if self.volts > 120 else 1

    def protected(self, kind: ProtectionKind) -> bool:
        """Return whether this protection is asked for."""
        return any(protection.kind is kind for protection in self.protections)


class Leg(StrEnum):
    """One of the two legs of a 120/240 V supply."""

    A = "A"
    B = "B"


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelSlot:
    """One breaker space: odd numbers down the left side, even down the right.

    `circuit` is "" for a spare space; a 240 V circuit takes two spaces of one side, one below the other.
    """

    space: int
    leg: Leg
    circuit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelDirectory:
    """What sits where in the panel.

    Parameters
    ----------
    slots : tuple of PanelSlot
        By space, spare ones included.
    leg_a_va, leg_b_va : float
        Load counted on each leg [VA].
    least_difference_va : float
        No directory of these circuits can bring the legs nearer than this [VA].
    proven : bool
        True when the legs differ by exactly that.
    """

    slots: tuple[PanelSlot, ...]
    leg_a_va: float
    leg_b_va: float
    least_difference_va: float
    proven: bool

    def spaces_of(self, circuit: str) -> tuple[int, ...]:
        """Return the spaces a circuit sits in."""
        return tuple(slot.space for slot in self.slots if slot.circuit == circuit)

    @property
    def spare(self) -> tuple[int, ...]:
        """The spaces that are free."""
        return tuple(slot.space for slot in self.slots if not slot.circuit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grouping:
    """How the general outlets were grouped: the cable it takes, and the least any grouping can take.

    Parameters
    ----------
    cable_ft : float
        Tree of cable from the panel through every box, summed over the general circuits [ft].
    bound_ft : float
        Proven least of any admissible grouping [ft].
    proven : bool
        True when nothing shorter exists.
    method : str
        In words, for the page and the sheet.
    """

    cable_ft: float
    bound_ft: float
    proven: bool
    method: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Service:
    """What the load asks of the service.

    Parameters
    ----------
    load_va, current_a : float
        By the method that was chosen [VA], [A].
    rating : int
        Standard rating that carries it [A].
    sized_for : int
        The rating its conductors are sized for: the panel's as it is written, where that is larger [A].
    neutral_va, neutral_a : float
        [VA], [A].
    conductor, neutral_conductor, electrode_conductor : str
        Copper sizes: "4", "2/0" [AWG or kcmil].
    working : Working
        How conductors were chosen.
    """

    load_va: float
    current_a: float
    rating: int
    sized_for: int
    neutral_va: float
    neutral_a: float
    conductor: str
    neutral_conductor: str
    electrode_conductor: str
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitPlan:
    """The circuits of a house, with the panel and what was found."""

    circuits: tuple[Circuit, ...]
    directory: PanelDirectory
    grouping: Grouping | None
    findings: tuple[Finding, ...]

    def circuit(self, name: str) -> Circuit:
        """Return the circuit of that name."""
        return next(circuit for circuit in self.circuits if circuit.name == name)

    def of_device(self, device: str) -> Circuit | None:
        """Return the circuit a device is on, or None."""
        return next((circuit for circuit in self.circuits if device in circuit.devices), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class RunLength:
    """One routed run, as fill and voltage drop need it: its boxes, its cable and its length [ft]."""

    start: str
    end: str
    cable: str
    length_ft: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxFill:
    """What a box holds against what it may hold.

    Parameters
    ----------
    box : str
    devices : tuple of str
    gangs : int
    needed_in3 : float
        What is in it counts for this much [cubic inches].
    volume_in3 : float
        Room of the smallest listed box that takes it, or of the largest when none does [cubic inches].
    size : str
        Trade words of that box.
    fits : bool
    working : Working
    """

    box: str
    devices: tuple[str, ...]
    gangs: int
    needed_in3: float
    volume_in3: float
    size: str
    fits: bool
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Drop:
    """Voltage drop of a circuit at its farthest box; advice, never a violation.

    Parameters
    ----------
    circuit : str
    box : str
        The farthest box.
    length_ft : float
        One way, from the panel [ft].
    current_a : float
        [A].
    volts : float
        Lost on the way there and back [V].
    percent : float
        Of the circuit's voltage.
    working : Working
    """

    circuit: str
    box: str
    length_ft: float
    current_a: float
    volts: float
    percent: float
    working: Working
