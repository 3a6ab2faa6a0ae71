"""The layout optimiser: which boards to buy, how to cut them, where each piece hangs."""

from setday.boards.layout.greedy import greedy
from setday.boards.layout.solve import solve

__all__ = ["greedy", "solve"]
