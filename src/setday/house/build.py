"""From a description to a house, with every finding on the way."""

from dataclasses import dataclass

from setday.findings import Finding
from setday.house.description import HouseDescription
from setday.house.model import House

__all__ = ["Built", "build_house"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A house, or None where findings of severity "problem" stand in the way; and all findings."""

    house: House | None
    findings: tuple[Finding, ...]


def build_house(description: HouseDescription) -> Built:
    """Derive walls, framing, rooms and surfaces, and check what was written."""
    return Built(house=None, findings=())
