"""Boards: gypsum board on walls and ceilings, laid out board by board."""
