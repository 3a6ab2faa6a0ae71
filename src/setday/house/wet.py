"""Wet stretches put on the surfaces they are seen on."""

from dataclasses import replace

from setday.findings import Finding
from setday.house.description import HouseDescription, TypedWet
from setday.house.model import Surface, WetPatch
from setday.house.placing import PlacedWall
from setday.house.stretches import stretch_finding, stretch_on
from setday.measure import ZERO

__all__ = ["place_wets"]


def place_wets(
    surfaces: tuple[Surface, ...], description: HouseDescription, walls: tuple[PlacedWall, ...]
) -> tuple[tuple[Surface, ...], tuple[Finding, ...]]:
    """Put every wet stretch on its surface.

    Returns
    -------
    surfaces : tuple of Surface
        With their wet patches.
    findings : tuple of Finding
    """
    by_name = {wall.name: wall for wall in walls}
    patches: dict[str, list[WetPatch]] = {}
    findings = []
    for typed in description.wets:
        patch = _patch(typed, surfaces, by_name)
        if isinstance(patch, Finding):
            findings.append(patch)
        else:
            surface, wet = patch
            patches.setdefault(surface.id, []).append(wet)
    placed = tuple(replace(s, wet=tuple(patches.get(s.id, ()))) for s in surfaces)
    return placed, tuple(findings)


def _patch(
    typed: TypedWet, surfaces: tuple[Surface, ...], walls: dict[str, PlacedWall]
) -> tuple[Surface, WetPatch] | Finding:
    stretch = stretch_on(typed, surfaces, walls)
    if isinstance(stretch, Finding):
        return stretch
    if typed.top <= typed.bottom:
        return stretch_finding(
            typed,
            f"its top at {typed.top} is not above its bottom at {typed.bottom}.",
            "a top above it.",
            "Check both.",
        )
    surface, x = stretch.surface, stretch.x
    left = max(x, ZERO)
    patch = WetPatch(
        name=typed.name,
        board=typed.board,
        x=left,
        y=typed.bottom,
        w=min(x + typed.width, surface.width) - left,
        h=min(typed.top, surface.height) - typed.bottom,
    )
    return surface, patch
