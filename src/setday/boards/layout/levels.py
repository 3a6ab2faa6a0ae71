"""Where the edges between the rows of a surface may lie.

Rows are full boards except at one edge of the surface, where the last row is ripped to what is
left.  Where that would leave a row narrower than the least row, the rip is shared between the two
edge rows instead: one takes exactly the least row.
"""

from setday.boards.problem import Joist, Rows, Surface

__all__ = ["bands", "on_a_path"]

Band = tuple[int, int]


def bands(
    surface: Surface, *, rows: Rows, widths: tuple[int, ...], least_row: int, factory: bool, backed: bool
) -> tuple[Band, ...]:
    """Return every row (low, high) that may be part of a division of `surface` [1/64 in].

    Parameters
    ----------
    surface : Surface
    rows : Rows
        The direction of the rows.
    widths : tuple of int
        Widths of the boards that serve the surface, ascending.
    least_row : int
        Narrowest row, except where the surface itself is narrower.
    factory : bool
        Whether only the rows at the edges of the surface may be ripped.
    backed : bool
        Whether long edges of rows across must stand on members.
    """
    whole = surface.height if rows is Rows.ALONG else surface.width
    if not widths or whole <= 0:
        return ()
    if rows is Rows.ACROSS and backed:
        levels = {m.x for m in _standing(surface) if 0 < m.x < whole}
        found = _between(levels, whole=whole, widths=widths, least_row=least_row, factory=factory)
        return on_a_path(found, whole)
    least = min(least_row, whole)
    sums = _sums(whole, widths)
    levels = sums | {whole - s for s in sums}
    found = on_a_path(_between(levels, whole=whole, widths=widths, least_row=least, factory=True), whole)
    if not found or _sliver(whole, sums, least):
        shifted = {s + least for s in sums} | {whole - least - s for s in sums}
        levels |= {s for s in shifted | {least, whole - least} if 0 < s < whole}
        found = on_a_path(_between(levels, whole=whole, widths=widths, least_row=least, factory=True), whole)
    return found


def _standing(surface: Surface) -> list[Joist]:
    return [m for m in surface.members if m.y_low < m.y_high]


def _sums(whole: int, widths: tuple[int, ...]) -> set[int]:
    out, fresh = set[int](), {0}
    while fresh:
        fresh = {s + w for s in fresh for w in widths if s + w < whole} - out
        out |= fresh
    return out


def _sliver(whole: int, sums: set[int], least: int) -> bool:
    return any(0 < whole - s < least for s in sums)


def _between(
    levels: set[int], *, whole: int, widths: tuple[int, ...], least_row: int, factory: bool
) -> tuple[Band, ...]:
    """Rows between two of the `levels`: an inner row is a whole board wide, an edge row no wider."""
    places = sorted({0, whole} | levels)
    out = []
    for i, low in enumerate(places):
        for high in places[i + 1 :]:
            size = high - low
            at_edge = low == 0 or high == whole
            fits = size <= widths[-1] and (size >= least_row or size == whole)
            if fits and (at_edge or not factory or size in widths):
                out.append((low, high))
    return tuple(out)


def on_a_path(found: tuple[Band, ...], whole: int) -> tuple[Band, ...]:
    """Return those rows that belong to some division of the surface from 0 to `whole`."""
    up, down = {0}, {whole}
    for low, high in sorted(found):
        if low in up:
            up.add(high)
    for low, high in sorted(found, key=lambda b: -b[1]):
        if high in down:
            down.add(low)
    return tuple(sorted(b for b in found if b[0] in up and b[1] in down))
