"""The diagram of a hookup: boxes left and right, cables between them, every conductor marked."""

from collections import deque
from dataclasses import dataclass
from math import ceil

from setday.drawing.hookup_box import PITCH, BoxDrawn, BoxPlan, draw_box, plan_box
from setday.drawing.hookup_state import Shown
from setday.drawing.hookup_strands import KEY, strand
from setday.drawing.ink import FINE, LINE, Svg, circle, group, polygon, rect
from setday.drawing.lettering import NORMAL, SMALL, TITLE, letters, text_width
from setday.drawing.notes import notes_below
from setday.drawing.paper import finish, key_of
from setday.drawing.table import Table
from setday.switching import CAUTIONS, FEED, PANEL, Cable, Hookup, Point, Trial

__all__ = ["hookup_diagram", "hookup_table", "position_table"]

_MARGIN = 14.0
_HEAD = 34.0
_STEP = 5.0
_ROW_GAP = 16.0
_PANEL_WIDTH = 116.0


def hookup_diagram(hookup: Hookup, *, shown: Shown | None = None, notes: tuple[str, ...] = ()) -> str:
    """Draw a hookup on one page, at rest or in one position of its switches.

    Parameters
    ----------
    hookup : Hookup
    shown : Shown or None
        What to show of a position: what is live, where current flows, which contacts are closed.
    notes : tuple of str
        Lines under the drawing, before the usual cautions.

    Returns
    -------
    str
        SVG.  Colors are the conductors' own; letters and dashes say the same in black and white.
    """
    shown = shown or Shown()
    sheet = _Sheet(hookup, shown)
    cables = [sheet.cable(cable) for cable in hookup.all_cables]
    key, below = _key(hookup, sheet.bottom + 8, sheet.width)
    lengths = "; ".join(f"{c.name} {c.kind}, {c.length_ft:g} ft" for c in hookup.all_cables)
    words, end = notes_below(
        [*_state_notes(shown), f"Cables: {lengths}.", *notes, *CAUTIONS], y=below + 16, width=sheet.width
    )
    title = letters(hookup.name, x=_MARGIN, y=17, size=TITLE, bold=True, anchor="start")
    paper = rect(x=0, y=0, w=sheet.width, h=end + 4, width=0, fill="paper")
    boxes = [drawn.svg for drawn in sheet.drawn.values()]
    body = group(paper, title, *boxes, *cables, sheet.panel(), key, words, color="#111111")
    return finish(
        body=(body,),
        title=f"Hookup: {hookup.name}",
        desc=f"{shown.words} {_described(hookup)}".strip(),
        width=sheet.width,
        height=end + 4,
        key=key_of("hookup", hookup.name),
    )


@dataclass(frozen=True, kw_only=True)
class _Spot:
    x: float
    y: float
    opens_right: bool


class _Sheet:
    """Boxes in two columns with all cables in the gutter between them."""

    def __init__(self, hookup: Hookup, shown: Shown) -> None:
        self.hookup, self.shown = hookup, shown
        order = _outward(hookup)
        plans = {name: plan_box(hookup, name, _cables_of(hookup, name)) for name in order}
        columns = _columns(hookup, order, plans)
        self.left_width = max([_PANEL_WIDTH, *(plans[name].width for name in columns[0])])
        right_width = max([120.0, *(plans[name].width for name in columns[1])])
        gutter = sum(_channel(cable) for cable in hookup.all_cables) + 60
        self.gutter = _MARGIN + self.left_width
        self.right = self.gutter + gutter
        self.width = max(
            self.right + right_width + _MARGIN, text_width(hookup.name, size=TITLE) + 2 * _MARGIN
        )
        self.panel_height = 74.0  # with the row gap a whole number of pitches
        spots, self.bottom = self._spots(columns, plans)
        self.drawn: dict[str, BoxDrawn] = {
            name: draw_box(hookup, plans[name], x=spot.x, y=spot.y, opens_right=spot.opens_right, shown=shown)
            for name, spot in spots.items()
        }
        self.free = self.gutter + 30

    def _spots(
        self, columns: tuple[list[str], list[str]], plans: dict[str, BoxPlan]
    ) -> tuple[dict[str, _Spot], float]:
        spots: dict[str, _Spot] = {}
        bottoms = []
        for column, opens_right in zip(columns, (True, False), strict=True):
            # Ends at the left are half a pitch off those at the right, so that no two lines ever lie on
            # each other between the columns.
            y = _HEAD + (self.panel_height + _ROW_GAP if opens_right else PITCH / 2)
            for name in column:
                x = self.gutter - plans[name].width if opens_right else self.right
                spots[name] = _Spot(x=x, y=y, opens_right=opens_right)
                y += ceil((plans[name].height + _ROW_GAP) / PITCH) * PITCH
            bottoms.append(y)
        return spots, max(bottoms)

    def _edge(self, point: Point) -> tuple[float, float]:
        if point.box == PANEL:
            row = ("black", "white", "bare").index(point.part)
            return self.gutter, _HEAD + 27.5 + row * 15
        return self.drawn[point.box].edge[point]

    def cable(self, cable: Cable) -> Svg:
        """Draw the conductors of a cable through a channel of its own, with its sheath and its words."""
        start = self.free
        self.free += _channel(cable)
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
            lines.append(strand([(x1, y1), (at, y1), (at, y2), (x2, y2)], color=drawn, live=live))
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
        return polygon(corners, fill="ink", width=0)

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
        words = ("Panel", f"breaker {feed.breaker_a:g} A", "neutral bar", "ground bar")
        body = rect(x=x, y=_HEAD, w=_PANEL_WIDTH, h=self.panel_height, width=LINE, fill="none", rx=3)
        rows = [letters(words[0], x=x + _PANEL_WIDTH / 2, y=_HEAD + 11, size=NORMAL, bold=True)]
        for row, text in enumerate(words[1:]):
            y = _HEAD + 27.5 + row * 15
            rows.append(letters(text, x=self.gutter - 10, y=y, size=SMALL, anchor="end"))
            rows.append(circle(x=self.gutter, y=y, r=2.6, fill="ink", width=0))
        return group(body, *rows)


def _state_notes(shown: Shown) -> list[str]:
    if not shown.words:
        return []
    return [f"{shown.words} Bands: live. Arrows: current, as it flows in one half of each cycle."]


def _channel(cable: Cable) -> float:
    return (len(cable.colors) - 1) * _STEP + 24


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


def _columns(hookup: Hookup, order: list[str], plans: dict[str, BoxPlan]) -> tuple[list[str], list[str]]:
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
        heights[side] += plans[name].height + _ROW_GAP
    return columns


def _key(hookup: Hookup, y: float, width: float) -> tuple[Svg, float]:
    """Draw the key of the conductors there are."""
    used = {color for cable in hookup.all_cables for color in cable.colors}
    used |= {"white re-marked" for cable in hookup.cables if cable.remarked}
    parts, x = [], _MARGIN
    for color, words in KEY:
        if color in used:
            parts.append(strand([(x, y), (x + 34, y)], color=color, clear=False))
            parts.append(letters(words, x=x + 40, y=y, size=SMALL, anchor="start"))
            x += 40 + text_width(words, size=SMALL) + 14
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
