"""One box of a hookup as drawn: the ends that come in, the devices, and every join between them."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.drawing.hookup_dress import Dress, hooks_of, point_key
from setday.drawing.hookup_lamp import rays
from setday.drawing.hookup_state import Shown
from setday.drawing.hookup_strands import mark, strand
from setday.drawing.ink import FINE, LINE, Svg, circle, group, path, rect
from setday.drawing.lettering import NORMAL, letters, text_width
from setday.drawing.paper import Link, linked
from setday.switching import BARE, FEED, Cable, Device, Hookup, Join, Point, contacts_closed

__all__ = ["BoxDrawn", "BoxPlan", "draw_box", "plan_box"]

_SIDE = 14.0


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
    body : float
        How high its devices are.
    dress : Dress
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
    dress: Dress


def plan_box(hookup: Hookup, box: str, cables: Sequence[Cable], dress: Dress) -> BoxPlan:
    """Lay a box out.

    Parameters
    ----------
    hookup : Hookup
    box : str
    cables : sequence of Cable
        Those that come into it, in the order of their ends from the top.
    dress : Dress
    """
    joins = hookup.joins_in(box)
    devices = tuple(device for device in hookup.devices if device.box == box)
    ends, y = _ends(box, cables, dress)
    terminals, x = _terminals(devices, dress)
    metal = Point(box=box, holder="box", part="green")
    if any(metal in join.points for join in joins):
        terminals[metal] = x + 6
        x += 24
    tracks = {}
    for place, join in enumerate(joins):
        if not any(point in terminals for point in join.points):
            tracks[place] = x
            x += dress.track
    body = _body_height(devices, dress)
    levels = sum(max(0, sum(point in terminals for point in join.points) - 1) for join in joins)
    return BoxPlan(
        name=box,
        width=max(x + 30, _widest_words(box, cables, dress), 120.0),
        height=y + levels * 8 + dress.tail + (body + 8 if devices else 0),
        ends=ends,
        terminals=terminals,
        tracks=tracks,
        joins=joins,
        devices=devices,
        levels_top=y + 4,
        body=body,
        dress=dress,
    )


def _ends(box: str, cables: Sequence[Cable], dress: Dress) -> tuple[dict[Point, float], float]:
    """Place the ends of cables one below the other; return them and where the last ends."""
    ends: dict[Point, float] = {}
    y = dress.title + 2 * dress.pitch
    for cable in cables:
        for color in cable.colors:
            ends[Point(box=box, holder=cable.name, part=color)] = y
            y += dress.pitch
        y += dress.pitch
    return ends, y


def _widest_words(box: str, cables: Sequence[Cable], dress: Dress) -> float:
    lines = (f"{c.name}  {c.kind}  to {c.a if c.b == box else c.b}" for c in cables)
    longest = max((text_width(line, size=dress.letters) for line in lines), default=0.0)
    return max(longest + 24, text_width(box, size=NORMAL) + 2 * _SIDE)


def _terminals(devices: Sequence[Device], dress: Dress) -> tuple[dict[Point, float], float]:
    """Place the terminals of devices side by side; return them and where the last device ends."""
    terminals: dict[Point, float] = {}
    x = _SIDE
    for device in devices:
        width = _device_width(device, dress)
        first = x + (width - (len(device.terminals) - 1) * dress.terminal) / 2
        for place, point in enumerate(device.terminals):
            terminals[point] = first + place * dress.terminal
        x += width + 10
    return terminals, x


def _body_height(devices: Sequence[Device], dress: Dress) -> float:
    """Return how high devices are drawn: their terminal names, upright unless terse, and what they are."""
    if dress.terse:
        return 3.3 * dress.letters
    names = [dress.of_terminal(point.part) for device in devices for point in device.terminals]
    return 45.0 + max((text_width(name, size=dress.letters) for name in names), default=0.0)


def _device_width(device: Device, dress: Dress) -> float:
    words = dress.of_device(device)
    lines = (" ".join(words),) if dress.terse else words
    widest = max(text_width(line, size=dress.letters) for line in lines)
    return max(len(device.terminals) * dress.terminal + 6, widest + 8)


@dataclass(frozen=True, kw_only=True)
class BoxDrawn:
    """A box drawn: what lies under the cables, and where each end meets its edge on the paper."""

    svg: Svg
    edge: dict[Point, tuple[float, float]]


def draw_box(
    hookup: Hookup,
    plan: BoxPlan,
    *,
    x: float,
    y: float,
    opens_right: bool,
    shown: Shown,
    link: Link | None = None,
) -> BoxDrawn:
    """Draw a box with its top left corner at (x, y); its cables come in at the right, or at the left."""
    place = _Placed(hookup, plan, x=x, y=y, opens_right=opens_right, shown=shown, link=link)
    cover = rect(x=x, y=y, w=plan.width, h=plan.height, width=LINE, fill="paper", rx=7)
    title = letters(plan.name, x=x + plan.width / 2, y=y + 11, size=NORMAL, bold=True)
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
        self,
        hookup: Hookup,
        plan: BoxPlan,
        *,
        x: float,
        y: float,
        opens_right: bool,
        shown: Shown,
        link: Link | None,
    ) -> None:
        self.shown, self.link, self.dress = shown, link, plan.dress
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
        legs, levels = self._legs(terminals[1:], at, color=color, live=live)
        heights += levels
        track = [(at, min(heights)), (at, max(heights))]
        hook = hooks_of(self.dress, at=point_key(join.points[0]))
        svg = [
            strand(track, color=color, live=live, hook=hook),
            *(self._from_end(point, at, live=live) for point in ends),
            *legs,
            strand(track, color=color, clear=False),
        ]
        if len(join.points) > 2 or not terminals:
            dots = [height for height in heights if height != self.body_top()]
            svg += [circle(x=at, y=height, r=2.6, fill="ink", width=0) for height in dots]
        return svg

    def _from_end(self, point: Point, at: float, *, live: bool) -> Svg:
        """Draw a conductor from the edge of the box to its track."""
        y = self.top + self.plan.ends[point]
        return strand(
            [(self.edge, y), (at, y)], color=self.color(point), live=live, hook=self.hook(point, way="in")
        )

    def _legs(
        self, terminals: list[Point], at: float, *, color: str, live: bool
    ) -> tuple[list[Svg], list[float]]:
        """Draw pigtails from a track to further terminals; return them and where they leave it."""
        drawn, levels = [], []
        for point in terminals:
            level = self.top + self.level
            self.level += 8
            other = self.across(self.plan.terminals[point])
            levels.append(level)
            line = [(at, level), (other, level), (other, self.body_top())]
            drawn.append(strand(line, color=color, live=live, hook=self.hook(point, way="out")))
        return drawn, levels

    def loose(self, point: Point) -> Svg:
        """Draw an end that is joined to nothing, with its cap."""
        y = self.top + self.plan.ends[point]
        tip = self.edge - 26 if self.opens_right else self.edge + 26
        cap = rect(x=min(tip, tip - 5), y=y - 3.5, w=7, h=7, fill="paper", width=FINE)
        live = point in self.shown.live
        drawn = strand(
            [(self.edge, y), (tip, y)], color=self.color(point), live=live, hook=self.hook(point, way="in")
        )
        return group(drawn, cap)

    def end_mark(self, point: Point) -> Svg:
        """Letter an end."""
        inward = -11 if self.opens_right else 11
        y = self.top + self.plan.ends[point]
        return mark(self.color(point), x=self.edge + inward, y=y, size=self.dress.letters)

    def cable_words(self, cable: Cable) -> Svg:
        """Letter a cable above its ends: its name, what it is, where it goes."""
        first = Point(box=self.plan.name, holder=cable.name, part=cable.colors[0])
        other = cable.b if cable.a == self.plan.name else cable.a
        words = f"{cable.name}  {cable.kind}  to {other}" if cable.name != FEED else f"feed  {cable.kind}"
        y = self.top + self.plan.ends[first] - self.dress.pitch * 0.95
        x, anchor = (self.edge - 5, "end") if self.opens_right else (self.edge + 5, "start")
        return letters(words, x=x, y=y, size=self.dress.letters, anchor=anchor, halo=True)

    def hook(self, point: Point, *, way: str) -> dict[str, str] | None:
        """Return how a page finds the line that leads to a point; "in" when it is drawn toward the join."""
        return hooks_of(self.dress, point=point_key(point), at=point_key(point), way=way)

    def device(self, device: Device) -> Svg:
        """Draw a device: its body, its terminals by name, and what it is."""
        places = [self.across(self.plan.terminals[point]) for point in device.terminals]
        top, width, size = self.body_top(), _device_width(device, self.dress), self.dress.letters
        middle, high = sum(places) / len(places), self.plan.body
        x = middle - width / 2
        body = rect(x=x, y=top, w=width, h=high, width=FINE, fill="paper", rx=3)
        screws = [circle(x=at, y=top, r=3, width=FINE, fill="paper") for at in places]
        names = [
            letters(self.dress.of_terminal(point.part), x=at, y=top + size * 1.15, size=size)
            if self.dress.terse
            else letters(
                self.dress.of_terminal(point.part), x=at, y=top + 17, size=size, anchor="end", upright=True
            )
            for point, at in zip(device.terminals, places, strict=True)
        ]
        tabs = [self._tab(a, b, top) for a, b in device.tabs]
        shine = rays(x=x, y=top, w=width, h=high) if device.loads and self.dress.hooked else Svg("")
        drawn = group(
            shine, body, *tabs, *self._contacts(device, top), *screws, *names, *self._words(device, middle),
            data_kind="device", data_id=device.name, data_look=self._look(device),
        )  # fmt: skip
        if not (self.link and device.kind.is_switch):
            return drawn
        touch = rect(x=x - 4, y=top + 4, w=width + 8, h=high, width=0, fill="touch")
        label = f"{device.name} {self.shown.says.get(device.name, '')}".strip()
        return linked(drawn, touch, kind="switch", name=device.name, label=label, link=self.link)

    def _look(self, device: Device) -> str | None:
        """Return what a lamp does, for a page; None for a switch, and in a drawing at rest."""
        return self.shown.says.get(device.name) if self.dress.hooked and device.loads else None

    def _words(self, device: Device, middle: float) -> tuple[Svg, ...]:
        """Letter a device's name, and under it what it is, or what it does now."""
        name, kind = self.dress.of_device(device)
        kind = self.shown.says.get(device.name, "").upper() or kind
        low, size = self.body_top() + self.plan.body, self.dress.letters
        if self.dress.terse:
            return (letters(f"{name} {kind}", x=middle, y=low - size * 0.8, size=size, bold=True),)
        said = letters(kind, x=middle, y=low - 8, size=size)
        if self.dress.hooked:
            said = group(said, data_says=device.name)
        return letters(name, x=middle, y=low - 19, size=NORMAL, bold=True), said

    def _contacts(self, device: Device, top: float) -> list[Svg]:
        """Draw the paths a switch closes; for a page, those of both positions, the other one hidden."""
        now = self.shown.closed.get(device.name, ())
        if not (self.dress.hooked and device.kind.is_switch):
            return self._paths(device, now, top)
        drawn = []
        for handle in (0, 1):
            pairs = contacts_closed(device.kind, handle)
            hidden = "none" if pairs != now else None
            mine = self._paths(device, pairs, top)
            drawn.append(group(*mine, data_when=f"{device.name}|{handle}", display=hidden))
        return drawn

    def _paths(self, device: Device, pairs: Sequence[tuple[str, str]], top: float) -> list[Svg]:
        """Draw paths between terminals, each on its own level under the screws."""
        drawn = []
        for level, ends in enumerate(pairs):
            a, b = (self.across(self.plan.terminals[device.point(end)]) for end in ends)
            y = top + 7.5 + 4 * level
            drawn.append(path(f"M{a:.2f} {top + 2:.2f}V{y:.2f}H{b:.2f}V{top + 2:.2f}", width=1.8))
        return drawn

    def _tab(self, first: Point, second: Point, top: float) -> Svg:
        a, b = (self.across(self.plan.terminals[point]) for point in (first, second))
        return rect(x=min(a, b), y=top - 1.5, w=abs(a - b), h=3, width=FINE, fill="paper")

    def metal(self, point: Point) -> Svg:
        """Draw the green screw of a metal box."""
        x, y = self.across(self.plan.terminals[point]), self.body_top()
        return group(
            circle(x=x, y=y, r=3, fill="paper"), letters("box", x=x, y=y + 12, size=self.dress.letters)
        )
