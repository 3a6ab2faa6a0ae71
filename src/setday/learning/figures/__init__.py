"""The figures of a house that students can try, each with its correct working."""

from setday.learning.figures.cable import cable_figures
from setday.learning.figures.choosing import figure_of, figures_of
from setday.learning.figures.rooms import room_figures
from setday.learning.figures.walls import wall_figures

__all__ = ["cable_figures", "figure_of", "figures_of", "room_figures", "wall_figures"]
