"""The table beneath a picture: the same facts in words and figures."""

from dataclasses import dataclass

__all__ = ["Table"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table a page or a sheet prints beneath a drawing.

    Parameters
    ----------
    caption : str
    head : tuple of str
    rows : tuple of tuples of str
        As many cells as `head`.
    figures : tuple of bool
        True for columns of figures, set to the right; empty for none.
    """

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    figures: tuple[bool, ...] = ()

    def __post_init__(self) -> None:
        if any(len(row) != len(self.head) for row in self.rows):
            raise ValueError(f"a row of {self.caption!r} has not {len(self.head)} cells")
