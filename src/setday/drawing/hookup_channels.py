"""Where the cables of a hookup drawing run between the boxes: side by side, or one below the other."""

from collections.abc import Sequence

__all__ = ["channels"]

_APART = 22.0


def channels(spans: Sequence[tuple[str, float, float, float]]) -> tuple[dict[str, float], float]:
    """Give each cable a place across, sharing one where cables end above others.

    Parameters
    ----------
    spans : sequence of (name, top, bottom, width)

    Returns
    -------
    places : mapping of name to distance from the first channel [drawing units]
    width : float
        Of all channels together.

    Examples
    --------
    >>> channels([("N1", 0, 100, 30), ("N2", 50, 200, 40), ("N3", 150, 300, 30)])
    ({'N1': 0, 'N2': 30, 'N3': 0}, 70)
    """
    taken: list[list[tuple[float, float]]] = []
    widths: list[float] = []
    lane: dict[str, int] = {}
    for name, top, bottom, width in spans:
        free = (
            place
            for place, others in enumerate(taken)
            if all(bottom + _APART <= t or b + _APART <= top for t, b in others)
        )
        place = next(free, len(taken))
        if place == len(taken):
            taken.append([])
            widths.append(0)
        taken[place].append((top, bottom))
        widths[place] = max(widths[place], width)
        lane[name] = place
    return {name: sum(widths[:place]) for name, place in lane.items()}, sum(widths)
