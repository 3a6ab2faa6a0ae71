"""Points on the plan of a house."""

from dataclasses import dataclass

from setday.measure import Length

__all__ = ["Point"]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Point:
    """A point of the plan: `x` to the east, `y` to the north."""

    x: Length
    y: Length

    def __str__(self) -> str:
        return f"({self.x} east, {self.y} north)"
