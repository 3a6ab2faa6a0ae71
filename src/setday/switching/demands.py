"""What has to cross into a part of a plan: the conductors, counted on sets of devices as bit masks."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import permutations, product

from setday.switching.kinds import DeviceKind
from setday.switching.roles import HOT, NEUTRAL, Group, PlanProblem, Role

__all__ = ["Demand", "chains_of", "demands"]


@dataclass(frozen=True, kw_only=True)
class Demand:
    """One order of all switches, as device masks.

    Parameters
    ----------
    chains : tuple of (group name, switches in order) pairs
    hot, neutral : int
        Devices that need the supply, the neutral.
    shared : tuple of (role, mask) pairs
        Travelers and switched returns with the devices they connect.
    """

    chains: tuple[tuple[str, tuple[str, ...]], ...]
    hot: int
    neutral: int
    shared: tuple[tuple[Role, int], ...]

    def strands(self, part: int) -> int:
        """Return how many conductors cross between a set of devices and the rest, which holds the feed."""
        total = (1 if self.hot & part else 0) + (1 if self.neutral & part else 0)
        for role, mask in self.shared:
            if mask & part and mask & ~part:
                total += role.conductors
        return total

    def roles(self, part: int) -> tuple[Role, ...]:
        """Return which roles cross."""
        found = [HOT] if self.hot & part else []
        found += [NEUTRAL] if self.neutral & part else []
        return (*found, *(role for role, mask in self.shared if mask & part and mask & ~part))

    def with_neutral(self, devices: int) -> "Demand":
        """Return the demand with the neutral brought to further devices."""
        return Demand(chains=self.chains, hot=self.hot, neutral=self.neutral | devices, shared=self.shared)

    @cached_property
    def ends(self) -> int:
        """All devices that need anything."""
        mask = self.hot | self.neutral
        for _, each in self.shared:
            mask |= each
        return mask


def chains_of(problem: PlanProblem, group: Group) -> list[tuple[str, ...]]:
    """Return every order of a group's switches, three-ways at the ends."""
    kinds = {name: problem.hookup.device(name).kind for name in group.switches}
    if len(group.switches) < 2:
        return [group.switches]
    ends = [name for name in group.switches if kinds[name] is not DeviceKind.FOUR_WAY]
    inner = [name for name in group.switches if kinds[name] is DeviceKind.FOUR_WAY]
    return [(first, *middle, last) for first, last in (ends, ends[::-1]) for middle in permutations(inner)]


def demands(problem: PlanProblem) -> Iterator[Demand]:
    """Yield one demand for every order of all groups' switches."""
    bit = {device.name: 1 << place for place, device in enumerate(problem.hookup.devices)}
    for orders in product(*(chains_of(problem, group) for group in problem.groups)):
        hot = neutral = 0
        shared: list[tuple[Role, int]] = []
        for group, chain in zip(problem.groups, orders, strict=True):
            loads = 0
            for load in group.loads:
                loads |= bit[problem.device_of(load).name]
            neutral |= loads
            if not chain:
                hot |= loads
                continue
            hot |= bit[chain[0]]
            shared.append((group.switched, loads | bit[chain[-1]]))
            shared += [(group.travelers(k), bit[chain[k]] | bit[chain[k + 1]]) for k in range(len(chain) - 1)]
        chains = tuple((group.name, chain) for group, chain in zip(problem.groups, orders, strict=True))
        yield Demand(chains=chains, hot=hot, neutral=neutral, shared=tuple(shared))
