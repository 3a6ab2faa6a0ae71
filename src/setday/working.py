"""The working: the steps behind a figure."""

from dataclasses import dataclass

from setday.rules import Source

__all__ = ["Step", "Working"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    r"""One line of a working.

    Parameters
    ----------
    label : str
        What is worked out: "north wall, area".
    expression : str
        The arithmetic with its units: "14'-6\" x 8'-0\"".
    result : str
        The result with its unit: "116.0 ft2".
    value : float or None
        The result as a number, in the unit of `unit`.
    unit : str
        "ft2", "in", "boards", "lb", "ft", "h" ...
    source : Source or None
        Where the rule or the number comes from; None for plain arithmetic.
    """

    label: str
    expression: str
    result: str
    value: float | None = None
    unit: str = ""
    source: Source | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """How a figure was come by.

    Parameters
    ----------
    key : str
        Stable key: "boards/by-area/bedroom/north".
    title : str
        The figure in words: "Boards for the bedroom, by area".
    steps : tuple of Step
        In the order a person would do them.
    result : str
        The figure with its unit.
    value : float
        The figure as a number.
    unit : str
    assumptions : tuple of str
        What was taken for granted and not checked.
    """

    key: str
    title: str
    steps: tuple[Step, ...]
    result: str
    value: float
    unit: str
    assumptions: tuple[str, ...] = ()

    @property
    def sources(self) -> tuple[Source, ...]:
        """The sources used, each once, in order of first use."""
        return tuple(dict.fromkeys(step.source for step in self.steps if step.source))
