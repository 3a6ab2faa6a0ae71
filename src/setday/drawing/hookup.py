"""The diagram of a hookup: boxes left and right, cables between them, every conductor marked."""

from collections import deque
from dataclasses import dataclass, replace
from math import ceil

from setday.drawing.hookup_box import BoxDrawn, BoxPlan, draw_box, plan_box
from setday.drawing.hookup_channels import channels
from setday.drawing.hookup_dress import DENSE, ROOMY, SHORT, Dress, hooks_of, point_key
from setday.drawing.hookup_state import Shown
from setday.drawing.hookup_strands import KEY, strand
from setday.drawing.ink import FINE, LINE, Svg, circle, group, polygon, rect
from setday.drawing.lettering import NORMAL, TITLE, letters, text_width
from setday.drawing.notes import notes_below
from setday.drawing.paper import LETTER, Link, finish, key_of
from setday.drawing.table import Table
from setday.switching import CAUTIONS, FEED, PANEL, Cable, Hookup, Point, Trial

__all__ = ["hookup_diagram", "hookup_page", "hookup_table", "position_table"]

_MARGIN = 14.0
_HEAD = 34.0
_BARE_HEAD = 6.0
_STEP = 5.0
_PANEL_WIDTH = 122.0
_KEY_HIGH = 70.0
PAGE_HIGH = 880.0
"""What a letter page leaves free between its head and its foot, in drawing units."""
_LEAST = 7.0 * 96 / 72
"""Height of the smallest letters on paper, 7 points in drawing units."""


def hookup_diagram(
    hookup: Hookup,
    *,
    shown: Shown | None = None,
    notes: tuple[str, ...] = (),
    columns: int = 2,
    hooked: bool = False,
    link: Link | None = None,
    key: str = "",
) -> str:
    """Draw a hookup, at rest or in one position of its switches.

    Parameters
    ----------
    hookup : Hookup
    shown : Shown or None
        What to show of a position: what is live, where current flows, which contacts are closed.
    notes : tuple of str
        Lines under the drawing, before the usual cautions.
    columns : int
        Columns of boxes, 1 or 2; one for a narrow screen.
    hooked : bool
        With attributes by which a page finds conductors, joins and devices again; without title and
        notes, which such a page says itself.
    link : Link or None
        Addresses behind the switches.
    key : str
        For the ids of the drawing; from the hookup's name when empty.

    Returns
    -------
    str
        SVG.  Colors are the conductors' own; letters and dashes say the same in black and white.
    """
    dress = replace(ROOMY, hooked=hooked)
    head = _BARE_HEAD if hooked else _HEAD
    sheet = _Sheet(hookup, shown or Shown(), dress, columns=columns, link=link, head=head)
    words = notes if hooked else (*_state_notes(sheet.shown), *notes, *CAUTIONS)
    return _finished(sheet, notes=words, title=not hooked, key=key)


def hookup_page(hookup: Hookup) -> str:
    """Draw a hookup for one letter page that has a head and cautions of its own.

    Where the usual drawing would have to be shrunk until its letters are under 7 points, it is drawn
    closer, with the terminals in two letters.
    """
    for dress in (ROOMY, DENSE):
        sheet = _Sheet(hookup, Shown(), dress, columns=2, link=None, head=_BARE_HEAD)
        sheet.width = max(sheet.width, min(LETTER.width, sheet.bottom * LETTER.width / PAGE_HIGH))
        notes = (_spelled_out(hookup),) if dress.terse else ()
        high = sheet.bottom + _KEY_HIGH
        if min(LETTER.width / sheet.width, PAGE_HIGH / high) * dress.letters >= _LEAST:
            break
    return _finished(sheet, notes=notes, title=False, key="")


def _finished(sheet: "_Sheet", *, notes: tuple[str, ...], title: bool, key: str) -> str:
    hookup, shown = sheet.hookup, sheet.shown
    cables = [sheet.cable(cable) for cable in hookup.all_cables]
    legend, below = _key(hookup, sheet.bottom + 8, sheet.width, sheet.dress.letters)
    lengths = "; ".join(f"{c.name} {c.kind}, {c.length}" for c in hookup.all_cables)
    words, end = notes_below(
        [f"Cables: {lengths}.", *notes],
        y=below + 16,
        width=sheet.width,
        size=sheet.dress.letters,
    )
    head = letters(hookup.name, x=_MARGIN, y=17, size=TITLE, bold=True, anchor="start") if title else Svg("")
    paper = rect(x=0, y=0, w=sheet.width, h=end + 4, width=0, fill="paper")
    boxes = [drawn.svg for drawn in sheet.drawn.values()]
    body = group(paper, head, *boxes, *cables, sheet.panel(), legend, words, color="#111111")
    return finish(
        body=(body,),
        title=f"Hookup: {hookup.name}",
        desc=_described(hookup) if sheet.dress.hooked else f"{shown.words} {_described(hookup)}".strip(),
        width=sheet.width,
        height=end + 4,
        key=key or key_of("hookup", hookup.name),
        links=sheet.link is not None,
    )


def _spelled_out(hookup: Hookup) -> str:
    used = dict.fromkeys(point.part for device in hookup.devices for point in device.terminals)
    return "Terminals: " + ", ".join(f"{SHORT[part]} {part}" for part in used) + "."


@dataclass(frozen=True, kw_only=True)
class _Spot:
    y: float
    opens_right: bool


class _Sheet:
    """Boxes in two columns with all cables in the gutter between them, or in one with the gutter beside."""

    def __init__(
        self, hookup: Hookup, shown: Shown, dress: Dress, *, columns: int, link: Link | None, head: float
    ) -> None:
        self.hookup, self.shown, self.dress, self.link, self.head = hookup, shown, dress, link, head
        order = _outward(hookup)
        plans = {name: plan_box(hookup, name, _cables_of(hookup, name), dress) for name in order}
        sides = (order, []) if columns == 1 else _columns(hookup, order, plans, dress)
        left_width = max([_PANEL_WIDTH, *(plans[name].width for name in sides[0])])
        right_width = max([120.0, *(plans[name].width for name in sides[1])]) if columns > 1 else 0.0
        self.gutter = _MARGIN + left_width
        self.panel_height = 74.0
        tops, self.bottom = self._tops(sides, plans)
        self.channel, wide = self._channels(tops, plans)
        self.right = self.gutter + wide
        self.width = self.right + right_width + _MARGIN
        if head > 20:
            self.width = max(self.width, text_width(hookup.name, size=TITLE) + 2 * _MARGIN)
        self.drawn: dict[str, BoxDrawn] = {}
        for name, spot in tops.items():
            x = self.gutter - plans[name].width if spot.opens_right else self.right
            self.drawn[name] = draw_box(
                hookup, plans[name], x=x, y=spot.y, opens_right=spot.opens_right, shown=shown, link=link
            )

    def _tops(
        self, columns: tuple[list[str], list[str]], plans: dict[str, BoxPlan]
    ) -> tuple[dict[str, _Spot], float]:
        tops: dict[str, _Spot] = {}
        bottoms = []
        pitch, gap = self.dress.pitch, self.dress.row_gap
        for column, opens_right in zip(columns, (True, False), strict=True):
            # Ends at the left are half a pitch off those at the right, so that no two lines ever lie on
            # each other between the columns.
            y = self.head + (ceil((self.panel_height + gap) / pitch) * pitch if opens_right else pitch / 2)
            for name in column:
                tops[name] = _Spot(y=y, opens_right=opens_right)
                y += ceil((plans[name].height + gap) / pitch) * pitch
            bottoms.append(y)
        return tops, max(bottoms)

    def _channels(self, tops: dict[str, _Spot], plans: dict[str, BoxPlan]) -> tuple[dict[str, float], float]:
        """Give each cable its place between the columns; return the places and how wide it gets."""
        spans = []
        for cable in self.hookup.all_cables:
            ys = [self._level(point, tops, plans) for color in cable.colors for point in cable.ends(color)]
            spans.append((cable.name, min(ys), max(ys), _channel(cable)))
        places, wide = channels(spans)
        return {name: self.gutter + 26 + at for name, at in places.items()}, wide + 38

    def _level(self, point: Point, tops: dict[str, _Spot], plans: dict[str, BoxPlan]) -> float:
        if point.box == PANEL:
            return self._bar(point)
        return tops[point.box].y + plans[point.box].ends[point]

    def _bar(self, point: Point) -> float:
        return self.head + 27.5 + ("black", "white", "bare").index(point.part) * 15

    def _edge(self, point: Point) -> tuple[float, float]:
        if point.box == PANEL:
            return self.gutter, self._bar(point)
        return self.drawn[point.box].edge[point]

    def cable(self, cable: Cable) -> Svg:
        """Draw the conductors of a cable through a channel of its own, with its sheath and its words."""
        start = self.channel[cable.name]
        ends = [
            (color, self._edge(first), self._edge(second))
            for color in cable.colors
            for first, second in [cable.ends(color)]
        ]
        down = ends[0][2][1] > ends[0][1][1]
        same_side = ends[0][1][0] == ends[0][2][0]
        from_left = ends[0][1][0] == self.gutter
        forward = (down == from_left) if not same_side else not down
        lines, arrows = [], []
        for place, (color, (x1, y1), (x2, y2)) in enumerate(ends):
            step = (len(ends) - 1 - place) if forward else place
            at = start + step * _STEP
            drawn = f"{color} re-marked" if color in cable.remarked else color
            live = bool(self.shown.live & set(cable.ends(color)))
            first, second = (point_key(point) for point in cable.ends(color))
            hook = hooks_of(self.dress, wire=first, at=first, far=second)
            lines.append(strand([(x1, y1), (at, y1), (at, y2), (x2, y2)], color=drawn, live=live, hook=hook))
            arrows.append(self._arrow(cable.name, color, at, y1, y2, (x1, x2)))
        return group(*lines, self._sheath(start, ends), *arrows, data_kind="cable", data_id=cable.name)

    def _arrow(self, cable: str, color: str, at: float, y1: float, y2: float, xs: tuple[float, float]) -> Svg:
        """Draw an arrow the way the current flows, where there is any."""
        amps = self.shown.flow_a.get((cable, color), 0.0)
        if not amps:
            return Svg("")
        ahead = 1.0 if amps > 0 else -1.0
        if abs(y2 - y1) > 22:
            tip, step = (at, (y1 + y2) / 2), (0.0, ahead * (1.0 if y2 > y1 else -1.0))
        else:
            tip, step = ((xs[0] + at) / 2, y1), (ahead * (1.0 if at > xs[0] else -1.0), 0.0)
        (x, y), (dx, dy) = tip, step
        corners = [
            (x + 7 * dx, y + 7 * dy),
            (x - 4 * dx + 5 * dy, y - 4 * dy + 5 * dx),
            (x - 4 * dx - 5 * dy, y - 4 * dy - 5 * dx),
        ]
        return polygon(corners, fill="ink", width=0, class_="sd-now")

    def _sheath(self, start: float, ends: list[tuple[str, tuple[float, float], tuple[float, float]]]) -> Svg:
        """Draw the sheath around the middle of the cable."""
        wide = (len(ends) - 1) * _STEP
        tops = [min(a[1], b[1]) for _, a, b in ends]
        bottoms = [max(a[1], b[1]) for _, a, b in ends]
        top, bottom = max(tops) + 6, min(bottoms) - 6
        if bottom - top < 14:
            middle = (max(tops) + min(bottoms)) / 2
            top, bottom = middle - 7, middle + 7
        return rect(x=start - 4, y=top, w=wide + 8, h=bottom - top, width=FINE, rx=4)

    def panel(self) -> Svg:
        """Draw where the feed comes from."""
        feed = self.hookup.feed
        x = self.gutter - _PANEL_WIDTH
        breaker = "breaker OPEN" if self.shown.opened else f"breaker {feed.breaker_a:g} A"
        words = ("Panel", breaker, "neutral bar", "ground bar")
        body = rect(x=x, y=self.head, w=_PANEL_WIDTH, h=self.panel_height, width=LINE, fill="none", rx=3)
        rows = [letters(words[0], x=x + _PANEL_WIDTH / 2, y=self.head + 11, size=NORMAL, bold=True)]
        for row, text in enumerate(words[1:]):
            y = self.head + 27.5 + row * 15
            said = letters(text, x=self.gutter - 10, y=y, size=self.dress.letters, anchor="end")
            rows.append(group(said, data_says="breaker") if self.dress.hooked and not row else said)
            rows.append(circle(x=self.gutter, y=y, r=2.6, fill="ink", width=0))
        return group(body, *rows)


def _state_notes(shown: Shown) -> list[str]:
    if not shown.words:
        return []
    return [f"{shown.words} Bands: live. Arrows: current, as it flows in one half of each cycle."]


def _channel(cable: Cable) -> float:
    return (len(cable.colors) - 1) * _STEP + 22


def _outward(hookup: Hookup) -> list[str]:
    """Return the boxes from the feed outward, those that no cable reaches last."""
    order, waiting = [hookup.feed.box], deque([hookup.feed.box])
    while waiting:
        box = waiting.popleft()
        for cable in hookup.cables:
            other = cable.b if cable.a == box else cable.a if cable.b == box else None
            if other is not None and other not in order:
                order.append(other)
                waiting.append(other)
    return order + [box.name for box in hookup.boxes if box.name not in order]


def _cables_of(hookup: Hookup, box: str) -> list[Cable]:
    return [cable for cable in hookup.all_cables if box in (cable.a, cable.b)]


def _columns(
    hookup: Hookup, order: list[str], plans: dict[str, BoxPlan], dress: Dress
) -> tuple[list[str], list[str]]:
    """Put boxes left and right: as the file places them, or each where more room is left."""
    places = {box.name: box.at for box in hookup.boxes}
    if all(places[name] is not None for name in order) and len(order) > 1:
        by_row = sorted(order, key=lambda name: (places[name] or (0, 0))[::-1])
        xs = sorted((places[name] or (0.0, 0.0))[0] for name in order)
        middle = (xs[0] + xs[-1]) / 2
        left = [name for name in by_row if (places[name] or (0, 0))[0] < middle]
        return left, [name for name in by_row if name not in left]
    columns: tuple[list[str], list[str]] = ([], [])
    heights = [90.0, 0.0]
    for name in order:
        side = 0 if heights[0] < heights[1] else 1
        columns[side].append(name)
        heights[side] += plans[name].height + dress.row_gap
    return columns


def _key(hookup: Hookup, y: float, width: float, size: float) -> tuple[Svg, float]:
    """Draw the key of the conductors there are."""
    used = {color for cable in hookup.all_cables for color in cable.colors}
    used |= {"white re-marked" for cable in hookup.cables if cable.remarked}
    parts, x = [], _MARGIN
    for color, words in KEY:
        if color in used:
            parts.append(strand([(x, y), (x + 34, y)], color=color, clear=False))
            parts.append(letters(words, x=x + 40, y=y, size=size, anchor="start"))
            x += 40 + text_width(words, size=size) + 14
            if x > width - 150:
                x, y = _MARGIN, y + 15
    return group(*parts), y


def _described(hookup: Hookup) -> str:
    cables = "; ".join(
        f"{c.name}, {c.kind}, from {'the panel' if c.name == FEED else c.a} to {c.b}"
        for c in hookup.all_cables
    )
    joins = " ".join(
        f"Box {box.name}: {'; '.join(str(join) for join in hookup.joins_in(box.name))}."
        for box in hookup.boxes
    )
    return f"Cables: {cables}. {joins}"


def hookup_table(hookup: Hookup) -> Table:
    """Return the joins of every box in words."""
    rows = [
        (box.name, " + ".join(str(point) for point in join.points))
        for box in hookup.boxes
        for join in hookup.joins_in(box.name)
    ]
    return Table(caption=f"Joins of {hookup.name}", head=("Box", "Joined"), rows=tuple(rows))


def position_table(trial: Trial) -> Table:
    """Return what every lamp does in every position."""
    loads = trial.hookup.loads
    rows = []
    for tried in trial.positions:
        seen = [f"{load.look}{f' {load.share:.0%}' if load.look == 'dim' else ''}" for load in tried.loads]
        state = str(tried.breaker) if tried.breaker.opens else "holds"
        rows.append((tried.words, *seen, state))
    head = ("Position", *loads, "Breaker")
    return Table(caption=f"{trial.hookup.name} in every position", head=head, rows=tuple(rows))
