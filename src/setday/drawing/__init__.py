"""Drawings: results in, SVG text out."""

from setday.drawing.bare_wall import bare_wall
from setday.drawing.behind import behind_surface, behind_table
from setday.drawing.board_marks import piece_marks, piece_size
from setday.drawing.boards import board_layout, board_layout_scale, piece_table, room_piece_table
from setday.drawing.charts import Bar, comparison_bars, comparison_table, progress_picture, progress_table
from setday.drawing.cutting import READ_SHAPED, cutting_diagram, cutting_table, shaped_pieces
from setday.drawing.device_symbols import device_words
from setday.drawing.dot_plot import dot_plot, dot_table
from setday.drawing.gate_plan import STATE_LETTERS, gate_plan, gate_table
from setday.drawing.home_runs import home_run_map, home_run_table
from setday.drawing.hookup import hookup_diagram, hookup_page, hookup_table, position_table
from setday.drawing.hookup_dress import point_key
from setday.drawing.hookup_state import Shown, shown_at
from setday.drawing.house_front import house_front
from setday.drawing.laying import laying_picture
from setday.drawing.overview import house_boards_overview, overview_height
from setday.drawing.paper import LANDSCAPE, LETTER, PHONE, Link, Paper, Scale, css
from setday.drawing.plan import opening_table, plan, plan_scale, room_table
from setday.drawing.sketch import surface_sketch
from setday.drawing.spread import spread_picture, spread_table
from setday.drawing.surface import surface_elevation, surface_table
from setday.drawing.table import Table
from setday.drawing.timetable import (
    PlacedTask,
    TaskState,
    place_chart,
    task_chart,
    task_table,
    trade_codes,
)
from setday.drawing.wall import wall_elevation, wall_table
from setday.drawing.wall_wiring import inside_wall_table, wall_wiring
from setday.drawing.wiring_plan import circuit_table, device_table, wiring_key, wiring_plan

__all__ = [
    "LANDSCAPE",
    "LETTER",
    "PHONE",
    "READ_SHAPED",
    "STATE_LETTERS",
    "Bar",
    "Link",
    "Paper",
    "PlacedTask",
    "Scale",
    "Shown",
    "Table",
    "TaskState",
    "bare_wall",
    "behind_surface",
    "behind_table",
    "board_layout",
    "board_layout_scale",
    "circuit_table",
    "comparison_bars",
    "comparison_table",
    "css",
    "cutting_diagram",
    "cutting_table",
    "device_table",
    "device_words",
    "dot_plot",
    "dot_table",
    "gate_plan",
    "gate_table",
    "home_run_map",
    "home_run_table",
    "hookup_diagram",
    "hookup_page",
    "hookup_table",
    "house_boards_overview",
    "house_front",
    "inside_wall_table",
    "laying_picture",
    "opening_table",
    "overview_height",
    "piece_marks",
    "piece_size",
    "piece_table",
    "place_chart",
    "plan",
    "plan_scale",
    "point_key",
    "position_table",
    "progress_picture",
    "progress_table",
    "room_piece_table",
    "room_table",
    "shaped_pieces",
    "shown_at",
    "spread_picture",
    "spread_table",
    "surface_elevation",
    "surface_sketch",
    "surface_table",
    "task_chart",
    "task_table",
    "trade_codes",
    "wall_elevation",
    "wall_table",
    "wall_wiring",
    "wiring_key",
    "wiring_plan",
]
