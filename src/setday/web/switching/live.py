"""The live picture of a hookup: every position worked out once, small enough to travel with the page."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from setday.web.houses.drawings import Drawings
from setday.web.switching.said import breaker_words, handle_words, kind_words, look_words, position_said

if TYPE_CHECKING:
    from setday.switching import Device, PositionTried, Trial

__all__ = ["LONGEST_TABLE", "live_words", "position_data", "position_wanted", "table_rows"]

LONGEST_TABLE = 64
"""Positions that are shown without being asked for."""
_LEAST_A = 1e-3
_LIVE, _OUT, _IN = 1, 2, 4


@dataclass(frozen=True, slots=True, kw_only=True)
class SwitchShown:
    """A switch as a button: where its handle is, and the position after a flip."""

    name: str
    box: str
    kind: str
    says: str
    up: bool
    flipped: str


def position_wanted(trial: "Trial", text: str) -> tuple[int, ...]:
    """Return the position an address asks for: "01"; every handle down where it asks for none."""
    count = len(trial.hookup.switches)
    if len(text) != count or set(text) - {"0", "1"}:
        return (0,) * count
    return tuple(int(sign) for sign in text)


def live_words(trial: "Trial", position: tuple[int, ...], *, key: str) -> dict[str, Any]:
    """Return what the live part of a page needs.

    Parameters
    ----------
    trial : Trial
    position : tuple of int
    key : str
        Keeps the ids of the drawings of one page apart.
    """
    tried = trial.at(position)
    switches = [_switch(trial, place, position) for place in range(len(position))]
    return {
        "trial": trial,
        "tried": tried,
        "at": _text(position),
        "switches": switches,
        "lamps": [(seen, look_words(seen)) for seen in tried.loads],
        "breaker": breaker_words(tried),
        "said": position_said(trial, tried),
        "live_boxes": _live_boxes(tried),
        "off_yet_live": not tried.breaker.opens and all(seen.look.value == "off" for seen in tried.loads),
        "drawings": _drawings(trial, position, {each.name: each.flipped for each in switches}, key=key),
        "positions": position_data(trial),
        "long_table": len(trial.positions) > LONGEST_TABLE,
        "rows": table_rows(trial),
    }


def _switch(trial: "Trial", place: int, position: tuple[int, ...]) -> SwitchShown:
    switch: Device = trial.hookup.switches[place]
    flipped = (*position[:place], 1 - position[place], *position[place + 1 :])
    return SwitchShown(
        name=switch.name,
        box=switch.box,
        kind=kind_words(switch),
        says=handle_words(switch)[position[place]],
        up=bool(position[place]),
        flipped=_text(flipped),
    )


def _text(position: Sequence[int]) -> str:
    return "".join(str(state) for state in position)


def _drawings(trial: "Trial", position: tuple[int, ...], flips: dict[str, str], *, key: str) -> Drawings:
    """Draw the position in two columns of boxes, and in one for a phone; the switches are links."""
    from setday.drawing import hookup_diagram, shown_at

    shown = shown_at(trial, position)

    def link(kind: str, name: str) -> str | None:
        return f"?at={flips[name]}" if kind == "switch" else None

    wide, phone = (
        hookup_diagram(
            trial.hookup, shown=shown, columns=columns, hooked=True, link=link, key=f"{key}-{columns}"
        )
        for columns in (2, 1)
    )
    return Drawings(wide=wide, phone=phone)


def _live_boxes(tried: "PositionTried") -> list[tuple[str, str]]:
    from setday.switching import PANEL

    if tried.breaker.opens:
        return []
    boxes: dict[str, list[str]] = {}
    for point in tried.live:
        if point.box != PANEL:
            boxes.setdefault(point.box, []).append(str(point))
    return [(box, ", ".join(points)) for box, points in boxes.items()]


def position_data(trial: "Trial") -> dict[str, Any]:
    """Return every position for the page's script.

    A point has one sign in each position: 1 for live, 2 for current out of its join, 4 for current into
    it, added up.
    """
    from setday.drawing import point_key

    hookup = trial.hookup
    return {
        "switches": [{"name": each.name, "says": handle_words(each)} for each in hookup.switches],
        "points": [[point_key(p), p.box, str(p)] for p in trial.circuit.points],
        "devices": {
            device.name: [hookup.loads.index(name) for name, _, _ in device.loads]
            for device in hookup.devices
            if device.loads
        },
        "breaker": f"breaker {hookup.feed.breaker_a:g} A",
        "positions": {
            _text(tried.position): _position(trial, row) for row, tried in enumerate(trial.positions)
        },
    }


def _position(trial: "Trial", row: int) -> dict[str, Any]:
    tried = trial.positions[row]
    return {
        "said": position_said(trial, tried),
        "opens": tried.breaker.opens,
        "breaker": breaker_words(tried),
        "looks": [seen.look.value for seen in tried.loads],
        "words": [look_words(seen) for seen in tried.loads],
        "points": _signs(trial, row),
    }


def _signs(trial: "Trial", row: int) -> str:
    from setday.switching import flows_at

    tried, points = trial.positions[row], trial.circuit.points
    if tried.breaker.opens:
        return "0" * len(points)
    live, flows = set(tried.live), flows_at(trial, row)
    panel = points[trial.circuit.hot]
    return "".join(
        str(
            _LIVE * (point in live or point == panel)
            + _OUT * (flows.get(point, 0.0) > _LEAST_A)
            + _IN * (flows.get(point, 0.0) < -_LEAST_A)
        )
        for point in points
    )


def table_rows(trial: "Trial") -> list[dict[str, Any]]:
    """Return every position as a row: handles, lamps, breaker, how many ends and terminals are live."""
    from setday.switching import PANEL

    return [
        {
            "at": _text(tried.position),
            "handles": [
                handle_words(switch)[state]
                for switch, state in zip(trial.hookup.switches, tried.position, strict=True)
            ],
            "lamps": [(seen.load, seen.look.value, look_words(seen)) for seen in tried.loads],
            "breaker": breaker_words(tried),
            "live": 0 if tried.breaker.opens else sum(point.box != PANEL for point in tried.live),
        }
        for tried in trial.positions
    ]
