"""Lines of words under a drawing, folded to its width."""

from collections.abc import Sequence

from setday.drawing.ink import Svg, group
from setday.drawing.lettering import SMALL, letters, text_width

__all__ = ["folded", "key_below", "notes_below"]

_LEADING = SMALL * 1.4
_MARGIN = 12.0


def folded(text: str, *, width: float, size: float = SMALL) -> list[str]:
    """Break a note into lines no wider than `width` drawing units."""
    lines: list[str] = []
    current = ""
    for word in text.split():
        longer = f"{current} {word}".strip()
        if current and text_width(longer, size=size) > width:
            lines.append(current)
            current = word
        else:
            current = longer
    return [*lines, current] if current else lines


def notes_below(notes: Sequence[str], *, y: float, width: float, size: float = SMALL) -> tuple[Svg, float]:
    """Letter notes one under another from `y`; return them and where they end."""
    parts = []
    for text in (line for note in notes for line in folded(note, width=width - 2 * _MARGIN, size=size)):
        parts.append(letters(text, x=_MARGIN, y=y, size=size, anchor="start"))
        y += size * 1.4
    return group(*parts), y + 4


def key_below(entries: Sequence[str], *, y: float, width: float) -> tuple[Svg, float]:
    """Letter short entries in as many columns as fit, read downward; return them and where they end."""
    widest = max((text_width(entry, size=SMALL) for entry in entries), default=0.0) + 2 * _MARGIN
    columns = max(1, min(len(entries), int((width - _MARGIN) / widest)))
    if columns < 2:
        return notes_below(entries, y=y, width=width) if entries else (Svg(""), y)
    deep = -(-len(entries) // columns)
    parts = [
        letters(
            entry,
            x=_MARGIN + (i // deep) * (width - _MARGIN) / columns,
            y=y + (i % deep) * _LEADING,
            size=SMALL,
            anchor="start",
        )
        for i, entry in enumerate(entries)
    ]
    return group(*parts), y + deep * _LEADING
