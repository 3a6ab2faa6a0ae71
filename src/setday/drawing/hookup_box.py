"""One box of a hookup as drawn: the ends that come in, the devices, and every join between them."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.drawing.hookup_state import Shown
from setday.drawing.hookup_strands import mark, strand
from setday.drawing.ink import FINE, LINE, Svg, circle, group, path, rect
from setday.drawing.lettering import NORMAL, SMALL, letters, text_width
from setday.switching import BARE, FEED, Cable, Device, Hookup, Join, Point

__all__ = ["PITCH", "BoxDrawn", "BoxPlan", "draw_box", "plan_box"]

PITCH = 10.0
"""Distance of neighboring ends at the edge of a box."""
_TERMINAL = 17.0
_TRACK = 13.0
_TITLE = 22.0
_SIDE = 14.0
_CABLE_GAP = PITCH


@dataclass(frozen=True, kw_only=True)
class BoxPlan:
    """How large a box is drawn, and where its ends come in, from its own top left corner.

    Parameters
    ----------
    name : str
    width, height : float
    ends : mapping of Point to height of the end [drawing units]
    terminals : mapping of Point to distance from the side away from the cables
    tracks : mapping of place in `joins` to the same distance, for joins of conductors alone
    joins : tuple of Join
    devices : tuple of Device
    levels_top : float
    """

    name: str
    width: float
    height: float
    ends: dict[Point, float]
    terminals: dict[Point, float]
    tracks: dict[int, float]
    joins: tuple[Join, ...]
    devices: tuple[Device, ...]
    levels_top: float
    body: float


def plan_box(hookup: Hookup, box: str, cables: Sequence[Cable]) -> BoxPlan:
    """Lay a box out.

    Parameters
    ----------
    hookup : Hookup
    box : str
    cables : sequence of Cable
        Those that come into it, in the order of their ends from the top.
    """
    joins = hookup.joins_in(box)
    devices = tuple(device for device in hookup.devices if device.box == box)
    ends: dict[Point, float] = {}
    y = _TITLE + 2 * PITCH
    for cable in cables:
        for color in cable.colors:
            ends[Point(box=box, holder=cable.name, part=color)] = y
            y += PITCH
        y += _CABLE_GAP
    terminals, x = _terminals(devices)
    metal = Point(box=box, holder="box", part="green")
    if any(metal in join.points for join in joins):
        terminals[metal] = x + 6
        x += 24
    tracks = {}
    for place, join in enumerate(joins):
        if not any(point in terminals for point in join.points):
            tracks[place] = x
            x += _TRACK
    body = _body_height(devices)
    levels = sum(max(0, sum(point in terminals for point in join.points) - 1) for join in joins)
    title = text_width(box, size=NORMAL) + 2 * _SIDE
    longest = max(
        (text_width(f"{c.name}  {c.kind}  to {c.a if c.b == box else c.b}", size=8) for c in cables),
        default=0.0,
    )
    return BoxPlan(
        name=box,
        width=max(x + 30, title, longest + 24, 120.0),
        height=y + levels * 8 + 14 + (body + 16 if devices else 10),
        ends=ends,
        terminals=terminals,
        tracks=tracks,
        joins=joins,
        devices=devices,
        levels_top=y + 4,
        body=body,
    )


def _terminals(devices: Sequence[Device]) -> tuple[dict[Point, float], float]:
    """Place the terminals of devices side by side; return them and where the last device ends."""
    terminals: dict[Point, float] = {}
    x = _SIDE
    for device in devices:
        width = _device_width(device)
        first = x + (width - (len(device.terminals) - 1) * _TERMINAL) / 2
        for place, point in enumerate(device.terminals):
            terminals[point] = first + place * _TERMINAL
        x += width + 10
    return terminals, x


def _short(terminal: str) -> str:
    return terminal.replace("traveler", "trav.")


def _body_height(devices: Sequence[Device]) -> float:
    """Return how high devices are drawn: their longest terminal name, upright, and two lines under it."""
    names = [_short(point.part) for device in devices for point in device.terminals]
    return 43.0 + max((text_width(name, size=8) for name in names), default=0.0)


def _device_width(device: Device) -> float:
    words = max(text_width(line, size=SMALL) for line in _words(device))
    return max(len(device.terminals) * _TERMINAL + 6, words + 8)


def _words(device: Device) -> tuple[str, str]:
    kind = device.kind.value.removesuffix(" switch")
    watts = f" {device.watts:g} W" if device.watts is not None else ""
    return device.name, f"{kind}{watts}"


@dataclass(frozen=True, kw_only=True)
class BoxDrawn:
    """A box drawn: what lies under the cables, and where each end meets its edge on the paper."""

    svg: Svg
    edge: dict[Point, tuple[float, float]]


def draw_box(
    hookup: Hookup, plan: BoxPlan, *, x: float, y: float, opens_right: bool, shown: Shown
) -> BoxDrawn:
    """Draw a box with its top left corner at (x, y); its cables come in at the right, or at the left."""
    place = _Placed(hookup, plan, x=x, y=y, opens_right=opens_right, shown=shown)
    cover = rect(x=x, y=y, w=plan.width, h=plan.height, width=LINE, fill="paper", rx=7)
    title = letters(plan.name, x=x + plan.width / 2, y=y + 13, size=NORMAL, bold=True)
    joins = [place.join(number, join) for number, join in enumerate(plan.joins)]
    loose = [
        place.loose(point) for point in plan.ends if not any(point in join.points for join in plan.joins)
    ]
    devices = [place.device(device) for device in plan.devices]
    marks = [place.end_mark(point) for point in plan.ends]
    marks += [place.cable_words(cable) for cable in hookup.all_cables if plan.name in (cable.a, cable.b)]
    metal = [place.metal(point) for point in plan.terminals if point.holder == "box"]
    edge = {point: (place.edge, y + down) for point, down in plan.ends.items()}
    parts = [part for drawn in joins for part in drawn]
    return BoxDrawn(
        svg=group(cover, title, *devices, *metal, *parts, *loose, *marks, data_kind="box", data_id=plan.name),
        edge=edge,
    )


class _Placed:
    """A box plan at its place on the paper."""

    def __init__(
        self, hookup: Hookup, plan: BoxPlan, *, x: float, y: float, opens_right: bool, shown: Shown
    ) -> None:
        self.shown = shown
        self.plan = plan
        self.left, self.top, self.opens_right = x, y, opens_right
        self.edge = x + plan.width if opens_right else x
        self.remarked = {cable.name: cable.remarked for cable in hookup.cables}
        self.level = plan.levels_top

    def across(self, distance: float) -> float:
        """Return the place on the paper of a distance from the side away from the cables."""
        return self.left + distance if self.opens_right else self.left + self.plan.width - distance

    def color(self, point: Point) -> str:
        """Return how the conductor of an end is drawn."""
        if point.part in self.remarked.get(point.holder, ()):
            return f"{point.part} re-marked"
        return point.part

    def body_top(self) -> float:
        """Return where the devices begin."""
        return self.top + self.plan.height - self.plan.body - 8

    def join(self, number: int, join: Join) -> list[Svg]:
        """Draw a join: an upright track, and every end and terminal led to it."""
        plan = self.plan
        ends = [point for point in join.points if point in plan.ends]
        terminals = [point for point in join.points if point in plan.terminals]
        at = self.across(plan.terminals[terminals[0]] if terminals else plan.tracks[number])
        live = bool(self.shown.live & set(join.points))
        color = self.color(ends[0]) if ends else BARE if terminals[0].part == "green" else "black"
        heights = [self.top + plan.ends[point] for point in ends]
        heights += [self.body_top()] if terminals else []
        svg = [
            strand(
                [(self.edge, self.top + plan.ends[p]), (at, self.top + plan.ends[p])],
                color=self.color(p),
                live=live,
            )
            for p in ends
        ]
        for point in terminals[1:]:
            level = self.top + self.level
            self.level += 8
            other = self.across(plan.terminals[point])
            heights.append(level)
            svg.append(
                strand([(at, level), (other, level), (other, self.body_top())], color=color, live=live)
            )
        track = [(at, min(heights)), (at, max(heights))]
        svg = [strand(track, color=color, live=live), *svg, strand(track, color=color, clear=False)]
        if len(join.points) > 2 or not terminals:
            svg += [
                circle(x=at, y=height, r=2.6, fill="ink", width=0)
                for height in heights
                if height != self.body_top()
            ]
        return svg

    def loose(self, point: Point) -> Svg:
        """Draw an end that is joined to nothing, with its cap."""
        y = self.top + self.plan.ends[point]
        tip = self.edge - 26 if self.opens_right else self.edge + 26
        cap = rect(x=min(tip, tip - 5), y=y - 3.5, w=7, h=7, fill="paper", width=FINE)
        live = point in self.shown.live
        return group(strand([(self.edge, y), (tip, y)], color=self.color(point), live=live), cap)

    def end_mark(self, point: Point) -> Svg:
        """Letter an end."""
        inward = -11 if self.opens_right else 11
        return mark(self.color(point), x=self.edge + inward, y=self.top + self.plan.ends[point])

    def cable_words(self, cable: Cable) -> Svg:
        """Letter a cable above its ends: its name, what it is, where it goes."""
        first = Point(box=self.plan.name, holder=cable.name, part=cable.colors[0])
        other = cable.b if cable.a == self.plan.name else cable.a
        words = f"{cable.name}  {cable.kind}  to {other}" if cable.name != FEED else f"feed  {cable.kind}"
        y = self.top + self.plan.ends[first] - PITCH * 0.85
        x, anchor = (self.edge - 5, "end") if self.opens_right else (self.edge + 5, "start")
        return letters(words, x=x, y=y, size=8, anchor=anchor, halo=True)

    def device(self, device: Device) -> Svg:
        """Draw a device: its body, its terminals by name, and what it is."""
        places = [self.across(self.plan.terminals[point]) for point in device.terminals]
        top, width = self.body_top(), _device_width(device)
        middle = sum(places) / len(places)
        body = rect(x=middle - width / 2, y=top, w=width, h=self.plan.body, width=FINE, fill="paper", rx=3)
        screws = [circle(x=x, y=top, r=3, width=FINE, fill="paper") for x in places]
        names = [
            letters(_short(point.part), x=x, y=top + 15, size=8, anchor="end", upright=True)
            for point, x in zip(device.terminals, places, strict=True)
        ]
        name, kind = _words(device)
        said = self.shown.says.get(device.name, "")
        if said:
            kind = said.upper()
        words = letters(name, x=middle, y=top + self.plan.body - 17, size=NORMAL, bold=True)
        what = letters(kind, x=middle, y=top + self.plan.body - 7, size=SMALL)
        tabs = [self._tab(device, a, b, top) for a, b in device.tabs]
        paths = self._contacts(device, top)
        return group(
            body, *tabs, *paths, *screws, *names, words, what, data_kind="device", data_id=device.name
        )

    def _contacts(self, device: Device, top: float) -> list[Svg]:
        """Draw the paths a switch closes, each on its own level under the screws."""
        drawn = []
        for level, ends in enumerate(self.shown.closed.get(device.name, ())):
            a, b = (self.across(self.plan.terminals[device.point(end)]) for end in ends)
            y = top + 7.5 + 4 * level
            drawn.append(path(f"M{a:.2f} {top + 2:.2f}V{y:.2f}H{b:.2f}V{top + 2:.2f}", width=1.8))
        return drawn

    def _tab(self, device: Device, first: Point, second: Point, top: float) -> Svg:
        del device
        a, b = (self.across(self.plan.terminals[point]) for point in (first, second))
        return rect(x=min(a, b), y=top - 1.5, w=abs(a - b), h=3, width=FINE, fill="paper")

    def metal(self, point: Point) -> Svg:
        """Draw the green screw of a metal box."""
        x, y = self.across(self.plan.terminals[point]), self.body_top()
        return group(circle(x=x, y=y, r=3, fill="paper"), letters("box", x=x, y=y + 12, size=8))
