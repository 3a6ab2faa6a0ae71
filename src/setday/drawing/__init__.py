"""Drawings: results in, SVG text out."""

from setday.drawing.paper import LANDSCAPE, LETTER, PHONE, Link, Paper, css
from setday.drawing.plan import opening_table, plan, room_table
from setday.drawing.table import Table

__all__ = [
    "LANDSCAPE",
    "LETTER",
    "PHONE",
    "Link",
    "Paper",
    "Table",
    "css",
    "opening_table",
    "plan",
    "room_table",
]
