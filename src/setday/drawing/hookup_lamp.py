"""The rays around what a circuit feeds: long when it is full, short when it is dim; a page shows them."""

from setday.drawing.ink import LINE, Svg, group, number, path

__all__ = ["rays"]

_GAP, _SHORT, _LONG = 2.5, 2.5, 6.0
_EVERY = 11.0


def rays(*, x: float, y: float, w: float, h: float) -> Svg:
    """Draw rays left, right and below a device; classes tell the short ones from the long."""
    parts = []
    for name, long in (("dim", _SHORT), ("full", _LONG)):
        d = "".join(_side(x, y, w, h, long))
        parts.append(path(d, width=LINE, class_=f"sd-ray-{name}"))
    return group(*parts, class_="sd-rays")


def _side(x: float, y: float, w: float, h: float, long: float) -> list[str]:
    found = []
    steps = max(2, int((h - 16) / _EVERY))
    for step in range(steps):
        level = number(y + 14 + step * (h - 18) / max(1, steps - 1))
        found.append(f"M{number(x - _GAP)} {level}h{number(-long)}")
        found.append(f"M{number(x + w + _GAP)} {level}h{number(long)}")
    across = max(2, int(w / _EVERY))
    for step in range(across):
        at = number(x + 5 + step * (w - 10) / (across - 1))
        found.append(f"M{at} {number(y + h + 2)}v{number(min(long, 5.0))}")
    return found
