"""What a plan must connect: the lights with their switches, and the conductors between them by role."""

from collections import Counter
from dataclasses import dataclass

from setday.errors import NoAnswer
from setday.rules import RuleBook
from setday.switching.hookup import Device, Hookup, LoadName, Want
from setday.switching.kinds import DeviceKind, cable_kinds

__all__ = ["HOT", "NEUTRAL", "Group", "PlanProblem", "Role", "plan_problem"]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Role:
    """What a conductor is for: "hot", "neutral", a traveler pair, or the switched return of a group.

    `conductors` is 2 for a pair of travelers.
    """

    name: str
    conductors: int = 1


HOT = Role(name="hot")
NEUTRAL = Role(name="neutral")


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Loads that are switched together, and their switches; no switches: always on.

    Parameters
    ----------
    name : str
    switches : tuple of str
    loads : tuple of str
    """

    name: str
    switches: tuple[str, ...]
    loads: tuple[LoadName, ...]

    @property
    def switched(self) -> Role:
        """The conductor from the last switch to the loads; the supply itself where there is no switch."""
        return Role(name=f"switched {self.name}") if self.switches else HOT

    def travelers(self, place: int) -> Role:
        """Return the pair between the switch at a place of the chain and the next."""
        return Role(name=f"travelers {place + 1} {self.name}", conductors=2)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanProblem:
    """What is given and wanted of a plan.

    Parameters
    ----------
    hookup : Hookup
        Boxes, devices, feed, paths and wants; cables and joins are passed over.
    groups : tuple of Group
    stock : tuple of (cable, insulated conductors) pairs
        The cables there are, narrowest first.
    two_cables : bool
        Two cables may share one path and one circuit's conductors (the one-cable rule is off).
    neutral_at : str
        "one of each group", "every switch box" or "no".
    """

    hookup: Hookup
    groups: tuple[Group, ...]
    stock: tuple[tuple[str, int], ...]
    two_cables: bool
    neutral_at: str

    @property
    def roles(self) -> tuple[Role, ...]:
        """Every role a conductor can have."""
        found = [HOT, NEUTRAL]
        for group in self.groups:
            if group.switches:
                found += [group.travelers(place) for place in range(len(group.switches) - 1)]
                found.append(group.switched)
        return tuple(found)

    def device_of(self, load: LoadName) -> Device:
        """Return the device a load belongs to."""
        return next(d for d in self.hookup.devices if any(load == name for name, _, _ in d.loads))


def plan_problem(hookup: Hookup, rules: RuleBook, *, stock: tuple[str, ...] = ()) -> PlanProblem:
    """Put together what is given and wanted.

    Parameters
    ----------
    hookup : Hookup
    rules : RuleBook
    stock : tuple of str
        Cables there are; empty for the two- and three-conductor cable of the feed's size.

    Raises
    ------
    NoAnswer
        Where what is wanted does not suit the devices.
    """
    if not hookup.wants:
        raise NoAnswer("Nothing is wanted.", do="Write the wants, like: L1 from S1 and S2.")
    by_switches: dict[tuple[str, ...], list[Want]] = {}
    for want in hookup.wants:
        by_switches.setdefault(tuple(dict.fromkeys(want.switches)), []).append(want)
    groups = tuple(
        Group(name="+".join(switches) or "always", switches=switches, loads=tuple(w.load for w in wants))
        for switches, wants in by_switches.items()
    )
    _suit(hookup, groups)
    size = hookup.feed.kind.split("/")[0]
    names = stock or (f"{size}/2", f"{size}/3")
    unknown = [name for name in names if name not in cable_kinds()]
    if unknown:
        raise NoAnswer(f"There is no cable {unknown[0]}.", do=f"Known: {', '.join(cable_kinds())}.")
    widths = sorted(((name, len(cable_kinds()[name].insulated)) for name in names), key=lambda pair: pair[1])
    return PlanProblem(
        hookup=hookup,
        groups=groups,
        stock=tuple(widths),
        two_cables=not rules.flag("switching.one_cable"),
        neutral_at=rules.choice("switching.neutral_at_switch"),
    )


def _suit(hookup: Hookup, groups: tuple[Group, ...]) -> None:
    used = Counter(switch for group in groups for switch in group.switches)
    for switch, times in used.items():
        if times > 1:
            raise NoAnswer(
                f"{switch} is wanted for two different sets of switches.",
                do="A switch serves one set: give all loads of a switch the same switches.",
            )
    for group in groups:
        kinds = Counter(hookup.device(switch).kind for switch in group.switches)
        many = len(group.switches)
        if many == 1 and kinds[DeviceKind.FOUR_WAY]:
            raise NoAnswer(
                f"{group.switches[0]} alone is a four-way switch.", do="Take a single-pole switch."
            )
        if many > 1 and (kinds[DeviceKind.THREE_WAY] != 2 or kinds[DeviceKind.FOUR_WAY] != many - 2):
            raise NoAnswer(
                f"{', '.join(group.loads)} from {many} places needs two three-way"
                f"{f' and {many - 2} four-way' if many > 2 else ''} switches.",
                do=f"Change the kinds of {', '.join(group.switches)}.",
            )
    missing = [load for load in hookup.loads if not any(load in group.loads for group in groups)]
    if missing:
        raise NoAnswer(
            f"Nothing says when {', '.join(missing)} is wanted on.",
            do="Add it to the wants: always, or from a switch.",
        )
