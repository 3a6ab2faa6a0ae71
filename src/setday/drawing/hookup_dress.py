"""How roomy a hookup is drawn, and what a page can find in the drawing again."""

from dataclasses import dataclass

from setday.switching import Device, Point

__all__ = ["DENSE", "ROOMY", "SHORT", "Dress", "Hooks", "hooks_of", "point_key"]

Hooks = dict[str, str]

SHORT = {
    "brass 1": "1",
    "brass 2": "2",
    "common": "C",
    "traveler 1": "T1",
    "traveler 2": "T2",
    "in 1": "I1",
    "in 2": "I2",
    "out 1": "O1",
    "out 2": "O2",
    "brass": "br",
    "silver": "si",
    "upper brass": "ub",
    "lower brass": "lb",
    "upper silver": "us",
    "lower silver": "ls",
    "green": "gr",
}
"""Terminals in two letters, for drawings with many boxes; the key spells them out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dress:
    """Sizes of a hookup drawing, in drawing units.

    Parameters
    ----------
    letters : float
        Size of the smallest letters.
    pitch : float
        Distance of neighboring ends at the edge of a box.
    terminal, track : float
        Distance of neighboring terminals, of neighboring joins.
    title : float
        From the top of a box to the words of its first cable.
    row_gap, tail : float
        Between boxes; between the last join of a box and its devices.
    terse : bool
        Terminals in two letters, name and kind of a device in one line.
    hooked : bool
        With attributes by which a page finds conductors, joins and devices again.
    """

    letters: float
    pitch: float = 10.0
    terminal: float = 17.0
    track: float = 13.0
    title: float = 22.0
    row_gap: float = 16.0
    tail: float = 18.0
    terse: bool = False
    hooked: bool = False

    def of_terminal(self, part: str) -> str:
        """Return the name of a terminal as lettered."""
        return SHORT.get(part, part) if self.terse else part.replace("traveler", "trav.")

    def of_device(self, device: Device) -> tuple[str, str]:
        """Return the lines under a device's terminals: its name, and what it is."""
        kind = device.kind.value.removesuffix(" switch")
        watts = f" {device.watts:g} W" if device.watts is not None else ""
        return device.name, f"{kind}{watts}"


ROOMY = Dress(letters=9.4)
DENSE = Dress(letters=10.0, terminal=15.5, track=11.0, title=13.0, row_gap=7.0, tail=6.0, terse=True)


def point_key(point: Point) -> str:
    """Return the name of a point as a page knows it."""
    return f"{point.box}|{point.holder}|{point.part}"


def hooks_of(dress: Dress, **named: str) -> Hooks | None:
    """Return attributes that tell a page what is drawn; None where it does not ask for them."""
    return {f"data_{key}": value for key, value in named.items()} if dress.hooked else None
