"""Wire for a breaker: the size of the conductors and the cable as sold."""

from setday.cable.appliance import ApplianceKind
from setday.cable.loads.cooking import cooking_demand
from setday.electric import (
    cable_kinds,
    largest_breaker_a,
    next_standard_breaker,
)
from setday.errors import RuleError

__all__ = ["breaker_for", "cable_of", "most_breaker", "wire_for"]

_SMALL = 10
"""Up to this size the breaker is the table's own limit; above, the next standard rating may be used."""


def most_breaker(awg: int) -> int:
    """Return the largest breaker on a copper conductor in nonmetallic cable [A].

    NEC 240.4(D) for 14, 12 and 10 AWG; above, the 60 degree ampacity or the next standard rating over it
    (240.4(B)).

    Examples
    --------
    >>> most_breaker(12), most_breaker(6)
    (20, 60)
    """
    carries = largest_breaker_a(awg)
    return int(carries) if awg >= _SMALL else next_standard_breaker(carries)


def wire_for(breaker: int) -> int:
    """Return the smallest copper conductor of a nonmetallic cable for a breaker [AWG].

    The smallest that carries the breaker's rating; where none does, the one it may protect at the next
    standard rating.

    Raises
    ------
    RuleError
        For a breaker larger than any cable of the table takes.

    Examples
    --------
    >>> wire_for(15), wire_for(20), wire_for(30), wire_for(50)
    (14, 12, 10, 6)
    >>> wire_for(60)
    6
    """
    sizes = sorted({kind.awg for kind in cable_kinds().values()}, reverse=True)
    for allowed in (largest_breaker_a, most_breaker):
        for awg in sizes:
            if allowed(awg) >= breaker:
                return awg
    raise RuleError(
        f"No nonmetallic cable of the table takes a breaker of {breaker} A.",
        do=f"The thickest is {sizes[-1]} AWG, for {largest_breaker_a(sizes[-1]):g} A; ask the electrician.",
    )


def cable_of(awg: int, *, hots: int = 1, neutral: bool = True) -> str:
    """Return the cable as sold: "12/2", or "10/3" where two hot conductors and a neutral are needed.

    Examples
    --------
    >>> cable_of(12), cable_of(10, hots=2), cable_of(10, hots=2, neutral=False)
    ('12/2', '10/3', '10/2')
    """
    key = f"{awg}/{hots + neutral}"
    if key not in cable_kinds():
        raise RuleError(f"There is no cable {key} in the table.", do=f"It has: {', '.join(cable_kinds())}.")
    return key


def breaker_for(load_va: float, volts: int, *, known: ApplianceKind | None) -> int:
    """Return the breaker of an appliance's own circuit [A].

    The usual one of its kind where it carries the load (a continuous load at 125 percent), otherwise the
    next standard rating.

    Parameters
    ----------
    load_va : float
        [VA].
    volts : int
        [V].
    known : ApplianceKind or None

    Examples
    --------
    >>> breaker_for(4500, 240, known=None)
    20
    """
    continuous = known is not None and known.continuous
    if known is not None and known.key == "range":
        load_va = cooking_demand([load_va])[0]  # note 4 of table 220.55: ranges only
    current = load_va / volts * (1.25 if continuous else 1.0)
    usual = known.breaker if known is not None and known.volts == volts else 20
    if current <= usual:
        return usual
    return next_standard_breaker(current)
