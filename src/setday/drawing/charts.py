"""General pictures: cost against its bound over time, and bars side by side; each with its table."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.boards import Progress
from setday.drawing.hatch import hatch_box
from setday.drawing.ink import BOLD, FINE, HAIR, LINE, Svg, circle, group, line, number, path, rect
from setday.drawing.lettering import NORMAL, SMALL, letters, text_width
from setday.drawing.notes import folded
from setday.drawing.paper import PHONE, Paper, finish, key_of
from setday.drawing.table import Table

__all__ = ["Bar", "comparison_bars", "comparison_table", "progress_picture", "progress_table"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bar: what it stands for, its value, and the value as written with its unit."""

    label: str
    value: float
    written: str

    def __post_init__(self) -> None:
        if self.value < 0:
            raise ValueError(f"a bar below nothing: {self.label} {self.value}")


def progress_picture(reports: Sequence[Progress], *, paper: Paper = PHONE, key: str = "progress") -> str:
    """Draw the best cost so far and the proven bound over time.

    The cost is a heavy line in steps, the bound a dashed one below it; what is still open lies between.

    Parameters
    ----------
    reports : sequence of Progress
        In order of time.
    paper : Paper
        Only its width is used.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    width, height = paper.width, 190.0
    frame = _Frame.around(reports, left=62.0, right=width - 12, top=16.0, bottom=height - 34)
    cost = [(report.seconds, report.cost_cents / 100) for report in reports if report.cost_cents is not None]
    bound = [(report.seconds, report.bound_cents / 100) for report in reports if report.bound_cents > 0]
    body = (
        frame.axes(),
        _steps(frame, cost, width=BOLD, dash=None),
        _steps(frame, bound, width=LINE, dash="6 3"),
        *(circle(x=frame.x(at), y=frame.y(value), r=2.6, fill="ink") for at, value in cost),
        _key_line(x=62.0, y=height - 8, width=BOLD, dash=None, words="best layout so far"),
        _key_line(x=62.0 + 170, y=height - 8, width=LINE, dash="6 3", words="proven bound"),
    )
    return finish(
        body=body,
        title="Cost and proven bound over time",
        desc=_progress_words(cost, bound),
        width=width,
        height=height + 4,
        key=key_of(key),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    left: float
    right: float
    top: float
    bottom: float
    last_s: float
    low: float
    high: float

    @classmethod
    def around(
        cls, reports: Sequence[Progress], *, left: float, right: float, top: float, bottom: float
    ) -> "_Frame":
        values = [report.cost_cents / 100 for report in reports if report.cost_cents is not None]
        values += [report.bound_cents / 100 for report in reports if report.bound_cents > 0]
        low, high = min(values, default=0.0), max(values, default=1.0)
        pad = (high - low) * 0.12 or max(high * 0.01, 1.0)
        last = max((report.seconds for report in reports), default=1.0) or 1.0
        return cls(
            left=left,
            right=right,
            top=top,
            bottom=bottom,
            last_s=last,
            low=max(low - pad, 0.0),
            high=high + pad,
        )

    def x(self, seconds: float) -> float:
        return self.left + (self.right - self.left) * seconds / self.last_s

    def y(self, value: float) -> float:
        return self.bottom - (self.bottom - self.top) * (value - self.low) / (self.high - self.low)

    def axes(self) -> Svg:
        parts = [
            line(x1=self.left, y1=self.bottom, x2=self.right, y2=self.bottom, width=FINE),
            line(x1=self.left, y1=self.top, x2=self.left, y2=self.bottom, width=FINE),
        ]
        for share in (0.0, 0.5, 1.0):
            value = self.low + (self.high - self.low) * share
            y = self.y(value)
            parts.append(line(x1=self.left - 4, y1=y, x2=self.right, y2=y, width=HAIR, dash="1 3"))
            parts.append(letters(f"${value:,.0f}", x=self.left - 7, y=y, size=SMALL, anchor="end"))
        for share, anchor in ((0.0, "start"), (0.5, "middle"), (1.0, "end")):
            at = self.last_s * share
            parts.append(letters(f"{at:.3g} s", x=self.x(at), y=self.bottom + 10, size=SMALL, anchor=anchor))
        return group(*parts)


def _steps(frame: _Frame, points: Sequence[tuple[float, float]], *, width: float, dash: str | None) -> Svg:
    """Draw a line that holds each value until the next."""
    if not points:
        return Svg("")
    d = f"M{number(frame.x(points[0][0]))} {number(frame.y(points[0][1]))}"
    for at, value in points[1:]:
        d += f"H{number(frame.x(at))}V{number(frame.y(value))}"
    return path(f"{d}H{number(frame.right)}", width=width, dash=dash)


def _key_line(*, x: float, y: float, width: float, dash: str | None, words: str) -> Svg:
    return group(
        line(x1=x, y1=y, x2=x + 26, y2=y, width=width, dash=dash),
        letters(words, x=x + 32, y=y, size=SMALL, anchor="start"),
    )


def _progress_words(cost: Sequence[tuple[float, float]], bound: Sequence[tuple[float, float]]) -> str:
    if not cost:
        return "No layout found yet."
    text = f"The best layout costs ${cost[-1][1]:,.2f} after {cost[-1][0]:.1f} s."
    if bound:
        gap = cost[-1][1] / bound[-1][1] - 1
        text += f" No layout costs less than ${bound[-1][1]:,.2f}; the gap is {gap:.1%}."
    return text


def progress_table(reports: Sequence[Progress]) -> Table:
    """Return cost and bound over time in figures, one row a report."""
    rows = []
    for report in reports:
        cost = "" if report.cost_cents is None else f"${report.cost_cents / 100:,.2f}"
        rows.append((f"{report.seconds:.1f}", cost, f"${report.bound_cents / 100:,.2f}", report.stage))
    return Table(
        caption="Cost and proven bound over time",
        head=("Seconds", "Best layout", "Proven bound", "Stage"),
        rows=tuple(rows),
        figures=(True, True, True, False),
    )


def comparison_bars(bars: Sequence[Bar], *, title: str, paper: Paper = PHONE, key: str = "compare") -> str:
    """Draw bars one under another, each with its words and its figure; every bar has a filling of its own.

    Parameters
    ----------
    bars : sequence of Bar
        Their values are of one unit and at least 0; lengths are drawn from 0.
    title : str
        What is compared.
    paper : Paper
        Only its width is used.
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    room = paper.width - 20 - max((text_width(bar.written) for bar in bars), default=0.0)
    most = max((bar.value for bar in bars), default=0.0) or 1.0
    parts: list[Svg] = []
    y = 6.0
    for i, bar in enumerate(bars):
        for text in folded(bar.label, width=paper.width - 16):
            parts.append(letters(text, x=6, y=y + 6, size=SMALL, anchor="start"))
            y += SMALL * 1.35
        long = max(room * bar.value / most, 0.5)
        parts.append(_bar(i, y + 2, long))
        parts.append(letters(bar.written, x=6 + long + 6, y=y + 11, size=NORMAL, anchor="start", bold=True))
        y += 30
    return finish(
        body=tuple(parts),
        title=title,
        desc="; ".join(f"{bar.label}: {bar.written}" for bar in bars),
        width=paper.width,
        height=y,
        key=key_of(key, title),
    )


def _bar(index: int, y: float, long: float) -> Svg:
    fillings = (
        Svg(""),
        hatch_box(x=6, y=y, w=long, h=18, spacing=4),
        group(
            hatch_box(x=6, y=y, w=long, h=18, spacing=6),
            hatch_box(x=6, y=y, w=long, h=18, spacing=6, angle=-45),
        ),
        hatch_box(x=6, y=y, w=long, h=18, spacing=6, angle=90),
    )
    fill = "ink" if index % 5 == 4 else "paper"
    return group(
        rect(x=6, y=y, w=long, h=18, width=LINE, fill=fill), fillings[index % 5] if index % 5 < 4 else Svg("")
    )


def comparison_table(bars: Sequence[Bar], *, title: str) -> Table:
    """Return the bars in words and figures."""
    return Table(
        caption=title,
        head=("", "Figure"),
        rows=tuple((bar.label, bar.written) for bar in bars),
        figures=(False, True),
    )
