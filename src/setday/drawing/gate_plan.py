"""The plan with every surface marked by the state of its gate: by pattern and by word, never by color."""

from collections.abc import Mapping

from setday.closein import GateState
from setday.drawing.hatch import hatch
from setday.drawing.ink import BOLD, FINE, HAIR, Svg, group, polygon, rect
from setday.drawing.lettering import NORMAL, SMALL, Box, Taken, letters, text_width
from setday.drawing.notes import notes_below
from setday.drawing.paper import LANDSCAPE, Link, Paper, finish, key_of, linked
from setday.drawing.placing import free_place
from setday.drawing.plan_rooms import Key
from setday.drawing.plan_sight import PlanFrame, Sight, WallOnPlan, extent, frame_plan
from setday.drawing.plan_walls import draw_openings, draw_walls
from setday.drawing.table import Table
from setday.house import House, Room, Surface, SurfaceKind

__all__ = ["STATE_LETTERS", "gate_plan", "gate_table"]

_MARGIN = 18.0
_STRIP = 15.0
"""How deep the strip of a surface is drawn into its room [drawing units]."""
_PAD = 11.0
"""Half the side of the square of a ceiling [drawing units]."""
_STEP = 2 * _PAD + 4
_NOTES_WIDE = 330.0
"""Notes are folded to what a phone shows of a plan that is pushed sideways [drawing units]."""
_KEY_HIGH = 20.0

Ring = list[tuple[float, float]]

STATE_LETTERS = {
    GateState.NOT_READY: "N",
    GateState.WAITING: "W",
    GateState.READY: "R",
    GateState.OVERRULED: "O",
    GateState.CLOSED: "C",
}
"""The letter of each state on the plan; the key beneath says the word."""


def gate_plan(
    house: House,
    states: Mapping[str, GateState],
    *,
    paper: Paper = LANDSCAPE,
    link: Link | None = None,
    key: str = "gates",
) -> str:
    """Draw the plan with the state of every surface: walls as strips along them, ceilings as squares.

    Parameters
    ----------
    house : House
    states : mapping
        Id of a surface to its state; those that are not in it are left blank.
    paper : Paper
    link : callable or None
        Gives the address of a "surface" by id.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    below = 70.0 + _KEY_HIGH * len(GateState)
    frame = frame_plan(extent(house), margin=_MARGIN, below=below, paper=paper)
    sight, rooms_key = frame.sight, Key()
    strips, marks = [], []
    for surface in house.surfaces:
        if surface.id in states and surface.kind is not SurfaceKind.CEILING:
            strip, mark = _wall(house, surface, states[surface.id], sight, link)
            strips.append(strip)
            marks.append(mark)
    openings = draw_openings(house, sight, taken=Taken())
    rooms = [_room(house, room, states, sight, rooms_key, link) for room in house.rooms]
    legend, height = _legend(states, frame, rooms_key)
    return finish(
        body=(
            draw_walls(house, sight, studs=False, link=None),
            *strips,
            openings,
            *rooms,
            *marks,
            legend,
        ),
        title=f"Gates of {house.name}",
        desc=_words(states),
        width=frame.width,
        height=height,
        key=key_of(key),
        links=link is not None,
    )


def _wall(
    house: House, surface: Surface, state: GateState, sight: Sight, link: Link | None
) -> tuple[Svg, Svg]:
    """Draw the strip of a wall's surface into its room; return it and its letter."""
    rings = [ring for ring in _strips(house, surface, sight) if ring]
    if not rings:
        return Svg(""), Svg("")
    patterns = [pattern(state, ring) for ring in rings]
    touch = [polygon(ring, width=0, fill="touch") for ring in rings]
    label = f"{surface.label}: {state.value}"
    strip = linked(*patterns, *touch, kind="surface", name=surface.id, label=label, link=link)
    longest = max(rings, key=_long)
    return strip, _letter(state, longest)


def _strips(house: House, surface: Surface, sight: Sight) -> list[Ring]:
    rings = []
    for span in surface.spans:
        on_plan = WallOnPlan(wall=house.wall(span.wall), sight=sight)
        start = span.along.inches
        end = start + span.width.inches * (1 if span.forward else -1)
        deep = _STRIP / sight.per_inch
        if span.side in {"left", "right"}:
            sign = 1 if span.side == "left" else -1
            inset = min(deep, abs(end - start) / 3) * (1 if end > start else -1)
            near, far = sign * on_plan.half, sign * (on_plan.half + deep)
            rings.append(
                [
                    on_plan.at(start, near),
                    on_plan.at(end, near),
                    on_plan.at(end - inset, far),
                    on_plan.at(start + inset, far),
                ]
            )
        else:
            at = 0.0 if span.side == "start" else on_plan.wall.length.inches
            out = at - deep / 2 if span.side == "start" else at + deep / 2
            rings.append(on_plan.patch((at, out), (-on_plan.half, on_plan.half)))
    return rings


def pattern(state: GateState, ring: Ring) -> Svg:
    """Draw a closed line filled by the pattern of a state.

    Not ready is blank, waiting is hatched one way, ready both ways, overruled is dotted by short broken
    lines, closed is filled with ink.
    """
    outline = polygon(ring, width=FINE, fill="paper")
    if state is GateState.CLOSED:
        return polygon(ring, width=FINE, fill="ink")
    if state is GateState.WAITING:
        return group(outline, hatch([ring], spacing=4, width=HAIR))
    if state is GateState.READY:
        return group(outline, hatch([ring], spacing=4), hatch([ring], spacing=4, angle=-45))
    if state is GateState.OVERRULED:
        return group(polygon(ring, width=BOLD, fill="paper", dash="3 2"), hatch([ring], spacing=6, angle=90))
    return outline


def _long(ring: Ring) -> float:
    return max(abs(ring[0][0] - ring[1][0]), abs(ring[0][1] - ring[1][1]))


def _letter(state: GateState, ring: Ring) -> Svg:
    """Letter a state's letter on blank paper in the middle of a strip."""
    x, y = sum(px for px, _ in ring) / len(ring), sum(py for _, py in ring) / len(ring)
    if _long(ring) < SMALL:
        return Svg("")
    half = text_width("M", size=SMALL) / 2 + 1.5
    patch = rect(x=x - half, y=y - 5.5, w=2 * half, h=11, width=0, fill="paper")
    words = letters(STATE_LETTERS[state], x=x, y=y, size=SMALL, bold=True)
    return group(patch, words, pointer_events="none")


def _room(
    house: House, room: Room, states: Mapping[str, GateState], sight: Sight, key: Key, link: Link | None
) -> Svg:
    """Letter a room's name inside the strips, with a square for each of its ceilings under or beside it."""
    ceilings = [
        surface
        for surface in house.surfaces
        if surface.room == room.name and surface.kind is SurfaceKind.CEILING and surface.id in states
    ]
    ring, wide = sight.ring(room.outline), len(ceilings) * _STEP
    need = (0.0, 0.0)
    inside = _STRIP + 1
    for named, beside, margin in ((1, 0, inside), (1, 1, inside), (0, 0, inside), (0, 1, inside), (0, 1, 0)):
        long = text_width(room.name if named else "a", size=NORMAL) + 4
        need = (long + wide, 2 * _PAD + 2) if beside else (max(long, wide), 2 * _PAD + 17)
        place = free_place([ring], need, Taken(), margin=margin)
        if place is not None:
            words = room.name if named else key.mark(room.name)
            return _lettered(words, ceilings, states, place, link, stacked=not beside)
    x, y = sum(px for px, _ in ring) / len(ring), sum(py for _, py in ring) / len(ring)
    middle = Box(x - need[0] / 2, y - need[1] / 2, x + need[0] / 2, y + need[1] / 2)
    return _lettered(key.mark(room.name), ceilings, states, middle, link, stacked=False)


def _lettered(
    words: str,
    ceilings: list[Surface],
    states: Mapping[str, GateState],
    place: Box,
    link: Link | None,
    *,
    stacked: bool,
) -> Svg:
    """Draw a name and the squares of the ceilings: these under it, or to its right."""
    wide = len(ceilings) * _STEP
    middle = (place.left + place.right) / 2
    long = text_width(words, size=NORMAL) + 4
    first = middle - wide / 2 if stacked else place.left + long
    level = place.bottom - _PAD - 1
    at = (middle, place.top + 7) if stacked else (place.left + long / 2, level)
    name = letters(words, x=at[0], y=at[1], size=NORMAL, bold=True, halo=True)
    squares = [
        _ceiling(surface, states[surface.id], (first + (n + 0.5) * _STEP, level), link)
        for n, surface in enumerate(ceilings)
    ]
    return group(name, *squares)


def _ceiling(surface: Surface, state: GateState, at: tuple[float, float], link: Link | None) -> Svg:
    x, y = at
    ring = [(x - _PAD, y - _PAD), (x + _PAD, y - _PAD), (x + _PAD, y + _PAD), (x - _PAD, y + _PAD)]
    label = f"{surface.label}: {state.value}"
    touch = rect(x=x - _STEP / 2, y=y - _PAD - 12, w=_STEP, h=2 * _PAD + 24, width=0, fill="touch")
    square = linked(pattern(state, ring), touch, kind="surface", name=surface.id, label=label, link=link)
    return group(square, _letter(state, ring))


def _legend(states: Mapping[str, GateState], frame: PlanFrame, key: Key) -> tuple[Svg, float]:
    """Draw what each pattern stands for, with how many surfaces there are of each."""
    parts: list[Svg] = []
    y = frame.foot + 8
    for state in GateState:
        count = sum(each is state for each in states.values())
        ring = [(16.0, y), (52.0, y), (52.0, y + 14), (16.0, y + 14)]
        parts.append(group(pattern(state, ring), _letter(state, ring)))
        parts.append(letters(f"{state.value}: {count}", x=62, y=y + 7, size=NORMAL, anchor="start"))
        y += _KEY_HIGH
    notes = [f"{mark} = {words}" for mark, words in key.entries]
    notes.append("Strips along walls are walls as seen from their room; squares are ceilings.")
    words, end = notes_below(notes, y=y + 6, width=min(frame.width, _NOTES_WIDE))
    return group(*parts, words), end


def _words(states: Mapping[str, GateState]) -> str:
    counts = [(state, sum(each is state for each in states.values())) for state in GateState]
    return f"{len(states)} surfaces: " + ", ".join(f"{n} {state.value}" for state, n in counts if n) + "."


def gate_table(house: House, rows: Mapping[str, tuple[GateState, int, int, int]]) -> Table:
    """Return the gates in words and figures.

    Parameters
    ----------
    house : House
    rows : mapping
        Id of a surface to its state, how many things are open or refused, how many wait to be seen, and how
        many there are.
    """
    return Table(
        caption="Gates",
        head=("Surface", "State", "Missing", "To be seen", "Items"),
        rows=tuple(
            (surface.label, rows[surface.id][0].value, *(str(n) for n in rows[surface.id][1:]))
            for surface in house.surfaces
            if surface.id in rows
        ),
        figures=(False, False, True, True, True),
    )
