"""A house at a glance: its walls and rooms, small, without words."""

from collections.abc import Iterable

from setday.house import House, Point

__all__ = ["thumbnail"]

_MARGIN = 12.0


def thumbnail(house: House) -> str:
    """Return the plan of a house as a small SVG; beside its name it says nothing new and is not read out."""
    every = [point for ring in house.footprint for point in ring]
    if not every:
        return ""
    west, east = min(p.x.inches for p in every), max(p.x.inches for p in every)
    south, north = min(p.y.inches for p in every), max(p.y.inches for p in every)
    wide, deep = east - west + 2 * _MARGIN, north - south + 2 * _MARGIN
    walls = _path(house.footprint, west, north)
    rooms = _path((room.outline for room in house.rooms), west, north)
    return (
        f'<svg viewBox="0 0 {wide:g} {deep:g}" aria-hidden="true" focusable="false" class="thumbnail">'
        f'<path d="{walls}" fill="currentColor" fill-rule="evenodd"/>'
        f'<path d="{rooms}" fill="#fff"/></svg>'
    )


def _path(rings: Iterable[Iterable[Point]], west: float, north: float) -> str:
    parts = []
    for ring in rings:
        corners = [f"{p.x.inches - west + _MARGIN:g} {north - p.y.inches + _MARGIN:g}" for p in ring]
        parts.append(f"M{' L'.join(corners)}Z")
    return " ".join(parts)
