"""Drawings: results in, SVG text out."""

from setday.drawing.boards import board_layout, piece_table
from setday.drawing.paper import LANDSCAPE, LETTER, PHONE, Link, Paper, css
from setday.drawing.plan import opening_table, plan, room_table
from setday.drawing.surface import surface_elevation, surface_table
from setday.drawing.table import Table

__all__ = [
    "LANDSCAPE",
    "LETTER",
    "PHONE",
    "Link",
    "Paper",
    "Table",
    "board_layout",
    "css",
    "opening_table",
    "piece_table",
    "plan",
    "room_table",
    "surface_elevation",
    "surface_table",
]
