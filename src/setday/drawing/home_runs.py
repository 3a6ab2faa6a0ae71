"""The map of the home runs: under the floor, to the corner where they are coiled for the set."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from setday.cable import PANEL, Medium, Run
from setday.drawing.circuit_lines import style_of
from setday.drawing.ink import BOLD, DOTTED, FINE, HAIR, Svg, circle, group, line, number, path, polygon, rect
from setday.drawing.lettering import SMALL, Box, Taken, letters, text_width
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Paper, finish, key_of
from setday.drawing.plan_sight import Sight, extent, frame_plan
from setday.drawing.table import Table
from setday.house import House

__all__ = ["home_run_map", "home_run_table"]

_MARGIN = 54.0
Vector = tuple[float, float]


def home_run_map(
    house: House,
    runs: Sequence[Run],
    *,
    circuits: Sequence[str] = (),
    paper: Paper = LETTER,
    key: str = "home-runs",
) -> str:
    """Draw where each home run goes down through the floor, its way to the panel's corner, and its coil.

    Parameters
    ----------
    house : House
    runs : sequence of Run
        Those that are no home runs are passed over.
    circuits : sequence of str
        Names of the circuits in the order of their numbers.
    paper : Paper
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    homes = [run for run in runs if run.cable.home]
    frame = frame_plan(extent(house), margin=_MARGIN, below=110, paper=paper)
    sight = frame.sight
    numbers = {name: n for n, name in enumerate(circuits)}
    taken = Taken()
    ways = [_way(run, numbers.get(run.circuit, n), sight, taken) for n, run in enumerate(homes)]
    notes, height = notes_below(_reading(house, homes), y=frame.foot + 34, width=frame.width)
    return finish(
        body=(
            _outline(house, sight),
            *(way for way, _ in ways),
            *(words for _, words in ways),
            _coil(house, sight),
            frame.bar,
            notes,
        ),
        title=f"Home runs of {house.name}",
        desc=_words(homes),
        width=frame.width,
        height=height,
        key=key_of(key),
    )


def _outline(house: House, sight: Sight) -> Svg:
    """Draw the outline of the floor, the walls over it lightly, and the holes in it."""
    rings = [sight.ring(ring) for ring in house.footprint]
    outer = [polygon(ring, width=BOLD) for ring in rings[:1]]
    inner = [
        path("M" + "L".join(f"{number(x)} {number(y)}" for x, y in ring) + "Z", width=HAIR, dash=DOTTED)
        for ring in rings[1:]
    ]
    holes = []
    for hole in house.floor_holes:
        box = sight.box(hole.corner, hole.east.inches, hole.north.inches)
        w, h = box.right - box.left, box.bottom - box.top
        holes += [
            rect(x=box.left, y=box.top, w=w, h=h, width=FINE),
            line(x1=box.left, y1=box.top, x2=box.right, y2=box.bottom, width=HAIR),
            line(x1=box.left, y1=box.bottom, x2=box.right, y2=box.top, width=HAIR),
        ]
    return group(*outer, *inner, *holes)


def _way(run: Run, index: int, sight: Sight, taken: Taken) -> tuple[Svg, Svg]:
    """Draw the stretch of a run under the floor and a ring where it comes down; its number, to lie on top."""
    width, dash = style_of(index)
    parts: list[Svg] = []
    low = [(a, b) for a, b in pairwise(run.points) if Medium.FLOOR in (a.medium, b.medium)]
    shown = low or list(pairwise(run.points))
    for a, b in shown:
        (x1, y1), (x2, y2) = sight.point(a.plan), sight.point(b.plan)
        if hypot(x2 - x1, y2 - y1) > 0.2:
            parts.append(line(x1=x1, y1=y1, x2=x2, y2=y2, width=width, dash=dash))
    ends = [sight.point(shown[0][0].plan), sight.point(shown[-1][1].plan)] if shown else []
    panel_first = run.cable.start == PANEL
    if ends:
        at = ends[-1] if panel_first else ends[0]
        parts.append(circle(x=at[0], y=at[1], r=3.2, width=FINE, fill="paper"))
    words = _label(f"{run.number} {run.cable.kind}", at, taken) if ends else Svg("")
    return group(*parts, data_kind="run", data_id=run.number), words


def _label(words: str, at: Vector, taken: Taken) -> Svg:
    """Letter a run's number near the ring where it comes down; left out where there is no room."""
    half, tall = text_width(words, size=SMALL) / 2 + 1, SMALL * 0.65
    offs = [place for up in (11, 22, 33, 44) for place in _ring(half + 6, up)]
    boxes = [Box(at[0] + x - half, at[1] + y - tall, at[0] + x + half, at[1] + y + tall) for x, y in offs]
    place = taken.first_free([box for box in boxes if box.left > 0 and box.top > 0])
    if place is None:
        return Svg("")
    x, y = (place.left + place.right) / 2, (place.top + place.bottom) / 2
    return letters(words, x=x, y=y, size=SMALL, bold=True, halo=True)


def _ring(wide: float, up: float) -> tuple[Vector, ...]:
    """Return places around a point, above and below first."""
    return (0, -up), (0, up), (wide, 0), (-wide, 0), (wide, -up), (-wide, up), (-wide, -up), (wide, up)


def _coil(house: House, sight: Sight) -> Svg:
    panel = house.wiring.panel
    if panel is None:
        return Svg("")
    x, y = sight.point(panel.point)
    rings = [circle(x=x, y=y, r=r, width=FINE) for r in (6.0, 8.5, 11.0)]
    return group(
        *rings, letters("coils", x=x, y=y - 19 if y < 90 else y + 20, size=SMALL, bold=True, halo=True)
    )


def _reading(house: House, homes: Sequence[Run]) -> list[str]:
    kind = house.foundation.kind
    notes = [f"Seen from above, through the floor, over the {kind}. Rings: where a run comes down."]
    if homes:
        coiled = sum(run.slack.feet for run in homes)
        notes.append(f"Coiled at the corner for the set: {_runs(len(homes))}, {coiled:.0f} ft in all.")
    notes.append("Cable that hangs under the floor rides with the house: tie every coil up before the lift.")
    return notes


def _runs(count: int) -> str:
    return f"{count} run{'s' if count != 1 else ''}"


def _words(homes: Sequence[Run]) -> str:
    said = "; ".join(f"{run.number} {run.cable.kind}, {run.cut} long, {run.slack} coiled" for run in homes)
    return f"{len(homes)} home runs. {said}."


def _first_box(run: Run) -> str:
    return run.cable.end if run.cable.start == PANEL else run.cable.start


def home_run_table(runs: Sequence[Run]) -> Table:
    """Return the home runs in words and figures: what is cut, and what stays coiled for the set."""
    rows = tuple(
        (run.number, run.circuit, run.cable.kind, _first_box(run), str(run.cut), str(run.slack))
        for run in runs
        if run.cable.home
    )
    return Table(
        caption="Home runs",
        head=("Run", "Circuit", "Cable", "First box", "Cut", "Coiled for the set"),
        rows=rows,
        figures=(False, False, False, False, True, True),
    )
