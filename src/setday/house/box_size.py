"""How large the boxes are that hold devices in walls: one size for checking, placing and drawing them."""

from dataclasses import dataclass
from functools import cache

from setday.house.rulebook import house_rules
from setday.rules import RuleBook

__all__ = ["BoxSize", "usual_box"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxSize:
    """The outside of a box for devices.

    Parameters
    ----------
    one_gang : float
        Width of a box for one device [in].
    gang : float
        Width each further device adds [in].
    tall : float
        [in].
    deep : float
        How far it goes into the wall [in].
    """

    one_gang: float
    gang: float
    tall: float
    deep: float

    @classmethod
    def of(cls, rules: RuleBook) -> "BoxSize":
        """Return the size that rules say.

        Parameters
        ----------
        rules : RuleBook
            From `house_rules`.
        """
        return cls(
            one_gang=rules.length("house.box_width").inches,
            gang=rules.length("house.gang_width").inches,
            tall=rules.length("house.box_height").inches,
            deep=rules.length("house.box_depth").inches,
        )

    def wide(self, gangs: int = 1) -> float:
        """Return the width of a box for so many devices side by side [in]."""
        return self.one_gang + self.gang * (gangs - 1)


@cache
def usual_box() -> BoxSize:
    """Return the size without local rules."""
    return BoxSize.of(house_rules())
