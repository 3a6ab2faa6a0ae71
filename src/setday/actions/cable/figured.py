"""The cable of an open house, switching planned along."""

from collections.abc import Callable
from dataclasses import dataclass

from setday.actions.cable.devices import devices_for, house_with
from setday.actions.houses import OpenHouse
from setday.actions.switching.switch_legs import NO_PLAN, HouseHookup, plan_legs
from setday.cable import (
    CableFigure,
    PlannedLegs,
    SwitchingAsk,
    cable_rules,
    figure,
)
from setday.errors import FileProblem
from setday.findings import Finding
from setday.rules import LocalRules
from setday.solving import Limits
from setday.switching import Hookup

__all__ = ["HouseCable", "figure_cable", "hookups_of_house"]

_SECONDS = 5.0
"""For circuits too long to weigh box by box [s]."""


@dataclass(frozen=True, kw_only=True, eq=False)
class HouseCable:
    """The cable of a house, and the hookups of its switched groups.

    Parameters
    ----------
    figure : CableFigure
    hookups : tuple of HouseHookup
    proposed : bool
        True when the house file has no devices and they were proposed.
    """

    figure: CableFigure
    hookups: tuple[HouseHookup, ...]
    proposed: bool

    @property
    def unplanned(self) -> tuple[Finding, ...]:
        """What was found about switched groups that cannot be planned."""
        return tuple(each for each in self.figure.findings if each.rule == NO_PLAN)


def figure_cable(
    opened: OpenHouse,
    *,
    clock: Callable[[], float],
    by_hand: tuple[Hookup, ...] = (),
) -> HouseCable:
    """Work out devices, circuits, switch legs and routes of an open house.

    Parameters
    ----------
    opened : OpenHouse
        Where its file has no devices they are proposed.
    clock : callable
        Returns seconds; limits the search for the order of boxes on long circuits.
    by_hand : tuple of Hookup
        Switched groups that the instructor wired.

    Raises
    ------
    FileProblem
        When the house cannot be built, or names no place for the panel.
    """
    house = opened.built()
    rules = cable_rules(opened.local)
    if house.wiring.panel is None:
        raise FileProblem(
            "It does not say where the panel will be.",
            do="Write the corner under foundation (panel corner: northwest), or its place under wiring.",
            where=opened.name,
        )
    proposed = not house.devices
    if proposed:
        house = house_with(opened, devices_for(house, opened))
    hookups: list[HouseHookup] = []

    def switching(ask: SwitchingAsk) -> tuple[tuple[PlannedLegs, ...], tuple[Finding, ...]]:
        found = plan_legs(
            ask.house,
            ask.groups,
            distance=ask.distance_ft,
            feed_from=ask.feed_from,
            sizes=ask.size_of,
            local=_switching_rules(opened.local),
            by_hand=by_hand,
            fits=ask.fits,
        )
        hookups.extend(found.hookups)
        legs = tuple(
            PlannedLegs(group=each.group, feed=each.hookup.feed.box, legs=each.legs) for each in found.hookups
        )
        return legs, found.findings

    limits = Limits(seconds=_SECONDS, clock=clock, workers=1)
    figured = figure(house, rules=rules, switching=switching, limits=limits)
    return HouseCable(figure=figured, hookups=tuple(hookups), proposed=proposed)


def hookups_of_house(opened: OpenHouse, *, clock: Callable[[], float]) -> tuple[HouseHookup, ...]:
    """Return the hookup of every switched group of a house, as planned: to try, judge and draw.

    Parameters
    ----------
    opened : OpenHouse
    clock : callable
        Returns seconds.
    """
    return figure_cable(opened, clock=clock).hookups


def _switching_rules(local: LocalRules) -> LocalRules:
    """Return the local rules that a hookup file may carry."""
    keys = [key for key in local.values if key.startswith("switching.")]
    return LocalRules(
        values={key: local.values[key] for key in keys},
        reasons={key: local.reasons[key] for key in keys if key in local.reasons},
    )
