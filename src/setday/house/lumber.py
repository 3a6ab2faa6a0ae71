"""Dimension lumber as it measures."""

from typing import Final

from setday.rules import load_table

__all__ = ["THICK"]


def _thickness() -> float:
    rows = load_table("setday.house", "lumber").rows
    return next(float(row["thickness_in"]) for row in rows if row["nominal"] == "2x")


THICK: Final = _thickness()
"""Thickness of dimension lumber, plates and studs alike [in]."""
