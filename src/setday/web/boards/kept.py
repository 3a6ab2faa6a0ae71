"""The best layout of a search that has not ended, as JSON for the records."""

from dataclasses import asdict
from typing import Any

from setday.boards import Layout

__all__ = ["so_far"]


def so_far(layout: Layout, *, bound_cents: float) -> dict[str, Any]:
    """Return the best layout of a search that has not ended, as plain words and numbers."""
    return {"so_far": True, "layout": asdict(layout), "bound_cents": bound_cents}
