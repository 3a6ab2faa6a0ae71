"""A choice of cables for a plan, and what was proven of it."""

from dataclasses import dataclass

from setday.switching.roles import Role

__all__ = ["Choice", "Half", "Outcome", "Run"]

Half = tuple[str, int]
"""A box and which part of it: 0, or more where a further cable keeps to its own devices."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """What goes along a path: from the half nearer the feed to the farther one, the cables and the roles."""

    near: Half
    far: Half
    length_ft: float
    kinds: tuple[str, ...]
    roles: tuple[Role, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Which roles run where, the order of each chain of switches, and each device's half.

    Parameters
    ----------
    runs : tuple of Run
        From the feed outward.
    chains : tuple of (group name, switches in order) pairs
    halves : tuple of (device, half) pairs
    """

    runs: tuple[Run, ...]
    chains: tuple[tuple[str, tuple[str, ...]], ...]
    halves: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What the search found.

    Parameters
    ----------
    status : str
        "proven"; "proven whole" (boxes in two parts were not all weighed); "found" (time ran out before
        any proof); "none" (proven impossible); "unknown".
    choice : Choice or None
    conductor_feet, bound_feet : float
        Of the choice, and the proven least any choice can have [ft].
    trees, orders : int
        Trees of paths and orders of switches that were weighed.
    """

    status: str
    choice: Choice | None
    conductor_feet: float = 0.0
    bound_feet: float = 0.0
    trees: int = 0
    orders: int = 0
