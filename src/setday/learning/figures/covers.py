"""Lines that measure a surface and take its openings off."""

from dataclasses import dataclass

from setday.house import Surface, SurfaceKind, SurfaceOpening
from setday.learning.building import added, feet_area, inch_area, measure
from setday.learning.tree import Line, Part, Role
from setday.measure import ZERO, Area, Length

__all__ = ["SurfaceLines", "is_plain", "peak_of", "surface_lines"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceLines:
    """The lines of one surface, and what goes into a sum of areas: its area, its openings."""

    lines: tuple[Line, ...]
    parts: tuple[Part, ...]


def is_plain(surface: Surface) -> bool:
    """Tell whether a surface is a rectangle."""
    box = Area.rectangle(surface.width, surface.height)
    return len(surface.outline) == 4 and surface.gross_area == box


def peak_of(surface: Surface) -> Length | None:
    """Return the height of the eaves of a wall that is a rectangle with one triangle on it, else None.

    Parameters
    ----------
    surface : Surface
    """
    if surface.kind is not SurfaceKind.WALL or is_plain(surface):
        return None
    eaves = {y for x, y in surface.outline if x in {ZERO, surface.width} and y > ZERO}
    if len(eaves) != 1:
        return None
    low = eaves.pop()
    rest = surface.height - low
    twice = Area.rectangle(surface.width, low) * 2 + Area.rectangle(surface.width, rest)
    return low if surface.gross_area * 2 == twice else None


def surface_lines(surface: Surface, height: Line | None = None) -> SurfaceLines:
    """Return the lines that come to the area of a surface and of its openings.

    Parameters
    ----------
    surface : Surface
        A rectangle, or a rectangle with one triangle on it.
    height : Line or None
        A line that measures its height already.
    """
    name, key = surface.label.split(", ", 1)[-1], surface.id.rsplit("/", 1)[-1]
    peak = peak_of(surface)
    wide = measure(f"{key} w", f"{name}, width", surface.width)
    lines = [wide]
    if height is None:
        high = measure(f"{key} h", f"{name}, height", peak if peak is not None else surface.height)
        lines.append(high)
    else:
        high = height
    area = feet_area(key, f"{name}, area", wide.key, high.key)
    lines.append(area)
    ceiling = surface.kind is SurfaceKind.CEILING
    parts = [added(area, Role.CEILING if ceiling else Role.SIDE)]
    if peak is not None:
        rise = measure(f"{key} rise", f"{name}, rise of the peak", surface.height - peak)
        top = feet_area(f"{key} top", f"{name}, triangle", wide.key, rise.key, half=True)
        lines += [rise, top]
        parts.append(added(top))
    for opening in surface.openings:
        own = _opening(opening, key)
        lines += own
        parts.append(added(own[-1], Role.OPENING, sign=-1, about=opening.name))
    return SurfaceLines(lines=tuple(lines), parts=tuple(parts))


def _opening(opening: SurfaceOpening, key: str) -> list[Line]:
    at = f"{key} {opening.name}"
    wide = measure(f"{at} w", f"{opening.name}, width", opening.w)
    high = measure(f"{at} h", f"{opening.name}, height", opening.h)
    return [wide, high, inch_area(at, f"{opening.name}, area", wide.key, high.key)]
