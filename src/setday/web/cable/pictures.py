"""Drawings of cable for the pages."""

from dataclasses import replace
from typing import TYPE_CHECKING

from django.urls import reverse

from setday.drawing import (
    LANDSCAPE,
    PHONE,
    Link,
    Paper,
    bare_wall,
    home_run_map,
    hookup_diagram,
    wall_wiring,
    wiring_key,
    wiring_plan,
)
from setday.web.houses.drawings import Drawings, both
from setday.web.houses.sheet import HouseSheet

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable
    from setday.actions.switching.switch_legs import HouseHookup
    from setday.house import Wall

__all__ = [
    "bare_pictures",
    "cable_links",
    "home_picture",
    "hookup_pictures",
    "plan_picture",
    "wall_pictures",
]


_DESK = replace(LANDSCAPE, height=1000)
_PUSHED = replace(PHONE, width=760)
"""Twice a phone: symbols stay apart, and the plan is pushed sideways under the thumb."""
_NARROW = 324.0
"""What a sheet leaves free on the narrowest phone, 360 px wide."""


def cable_links(sheet: HouseSheet) -> Link:
    """Return the addresses behind devices and walls."""
    query = "" if sheet.is_newest else f"?version={sheet.version.number}"

    def link(kind: str, name: str) -> str | None:
        if kind not in ("device", "wall"):
            return None
        return f"{reverse(f'cable:{kind}', kwargs={'key': sheet.house.key, 'name': name})}{query}"

    return link


def plan_picture(sheet: HouseSheet, cable: "HouseCable", *, lit: str = "") -> Drawings:
    """Draw the wiring plan, one circuit lit or all of them."""
    figure, link = cable.figure, cable_links(sheet)
    circuits = figure.plan.circuits

    def draw(paper: Paper, key: str, *, with_key: bool) -> str:
        return wiring_plan(
            figure.house,
            circuits=circuits,
            runs=figure.routing.runs,
            lit=lit,
            with_key=with_key,
            paper=paper,
            link=link,
            key=key,
        )

    reading = wiring_key(
        figure.house, circuits, runs=figure.routing.runs, lit=lit, width=_NARROW, key="wiring-key"
    )
    return Drawings(
        wide=draw(_DESK, "wiring", with_key=True),
        phone=draw(_PUSHED, "wiring-phone", with_key=False) + reading,
    )


def wall_pictures(sheet: HouseSheet, cable: "HouseCable", wall: "Wall") -> list[tuple[str, Drawings]]:
    """Draw a wall from both sides with what is inside it."""
    figure, link = cable.figure, cable_links(sheet)
    names = [circuit.name for circuit in figure.plan.circuits]

    def seen_from(side: str) -> Drawings:
        return both(
            lambda paper, key: wall_wiring(
                figure.house,
                wall,
                side=side,
                runs=figure.routing.runs,
                holes=figure.routing.holes,
                plates=figure.routing.plates,
                circuits=names,
                paper=paper,
                link=link,
                key=key,
            ),
            key=f"wall-{side}",
            landscape=True,
        )

    return [(side, seen_from(side)) for side in ("left", "right")]


def bare_pictures(cable: "HouseCable") -> dict[str, Drawings]:
    """Draw every room in which a stretch of wall lacks an outlet, by the name of the room."""
    figure = cable.figure
    rooms = dict.fromkeys(each.room for each in figure.check.bare)

    def room_picture(room: str) -> Drawings:
        stretches = [(each.plan, each.length) for each in figure.check.bare if each.room == room]
        return both(
            lambda paper, key: bare_wall(figure.house, room, stretches, paper=paper, key=key), key="bare"
        )

    return {room: room_picture(room) for room in rooms}


def hookup_pictures(cable: "HouseCable", circuit: str) -> list[tuple["HouseHookup", Drawings]]:
    """Draw how the conductors of every switched group of a circuit are joined."""
    own = [each for each in cable.hookups if each.group.circuit == circuit]
    return [
        (
            each,
            Drawings(
                wide=hookup_diagram(each.hookup, key=f"hookup-{n}"),
                phone=hookup_diagram(each.hookup, columns=1, key=f"hookup-{n}-phone"),
            ),
        )
        for n, each in enumerate(own)
    ]


def home_picture(cable: "HouseCable") -> Drawings:
    """Draw the map of the home runs."""
    figure = cable.figure
    names = [circuit.name for circuit in figure.plan.circuits]
    return both(
        lambda paper, key: home_run_map(
            figure.house, figure.routing.runs, circuits=names, paper=paper, key=key
        ),
        key="home-runs",
        landscape=True,
    )
