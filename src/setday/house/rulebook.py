"""The rules of the house, each with its source: habits of framing, and sizes of boxes."""

from dataclasses import dataclass
from functools import cache

from setday.rules import LocalRules, RuleBook, trade_rules

__all__ = ["FramingHabits", "house_rules", "usual_habits"]


def house_rules(local: LocalRules | None = None) -> RuleBook:
    """Return the rules of the house in force for one house.

    Parameters
    ----------
    local : LocalRules or None
        What the local authority or the instructor set instead; None leaves the usual values.

    Raises
    ------
    RuleError
        For a local value that cannot be read or lies outside its rule's range, and for a rule of the
        house that there is not.

    Examples
    --------
    >>> str(house_rules().length("house.header_bearing"))
    '9 1/4"'
    """
    return trade_rules(("framing", "boxes"), local, package="setday.house", prefix="house", trade="the house")


@dataclass(frozen=True, slots=True, kw_only=True)
class FramingHabits:
    """How walls are framed where nothing is written.

    Parameters
    ----------
    header_bearing, header_light : float
        Depth of a header in a wall that bears and in one that does not [in].
    backing_shown : float
        How much of a backing stud is to show beyond the wall it backs [in].
    backing_least : float
        A stud that shows this much backs the wall, so that no other is set [in].
    """

    header_bearing: float
    header_light: float
    backing_shown: float
    backing_least: float

    @classmethod
    def of(cls, rules: RuleBook) -> "FramingHabits":
        """Return the habits that rules say.

        Parameters
        ----------
        rules : RuleBook
            From `house_rules`.
        """
        return cls(
            header_bearing=rules.length("house.header_bearing").inches,
            header_light=rules.length("house.header_light").inches,
            backing_shown=rules.length("house.backing_shown").inches,
            backing_least=rules.length("house.backing_least").inches,
        )


@cache
def usual_habits() -> FramingHabits:
    """Return the habits without local rules."""
    return FramingHabits.of(house_rules())
