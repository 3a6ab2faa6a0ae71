"""Where things stand in the two arrays the compiled search works on.

A compiled function takes every array apart into its arguments, so the search keeps everything in one array
of whole numbers, `m`, and one of money and worth, `v`.  The first places of `m` are counters and the
beginnings of the tables that follow; a table is a row of records of equal size.
"""

from typing import Final

# What does not change
TRIM: Final = 0
LEAST_HEIGHT: Final = 1
LEAST_STEPS: Final = 2
N_WIDTHS: Final = 3
N_STEPS: Final = 4
N_ITEMS: Final = 5
N_HEIGHTS: Final = 6
N_BOARDS: Final = 7
N_ROWS: Final = 8
N_FACES: Final = 9
DIVISION_SIZE: Final = 10
HUNG_SIZE: Final = 11

# Counters
OPENED: Final = 12
JOINTS: Final = 13
PIECES: Final = 14
DICE: Final = 15
STAMP: Final = 16
TOUCHED_BOARDS: Final = 17
TOUCHED_ROWS: Final = 18
TOUCHED_FACES: Final = 19
FINISHING: Final = 20
LOOK: Final = 21
SPACED_BOARDS: Final = 22
BEST_CENTS: Final = 23
BEST_JOINTS: Final = 24
BEST_PIECES: Final = 25
BETTERED: Final = 26
FOUND_FACES: Final = 27
"""Six places: the surfaces a round touches, and their divisions before it."""

# Beginnings of tables in `m`
WIDTHS: Final = 34
LOW: Final = 35
ITEM: Final = 36
ARC: Final = 37
ROW: Final = 38
FACE: Final = 39
DIVISION: Final = 40
CLASH: Final = 41
BOARD: Final = 42
HUNG: Final = 43
KEPT_BOARD: Final = 44
KEPT_ROW: Final = 45
HITS: Final = 46
BACK: Final = 47
BOARD_OF: Final = 48
KNOWN: Final = 49
REACHED_KNOWN: Final = 50
LEVELS: Final = 51
LEVEL_KNOWN: Final = 52
LANES: Final = 53
SPACED: Final = 54
SOME: Final = 55
BEST: Final = 56
BEST_HUNG: Final = 57

# Beginnings of tables in `v`
PRICE: Final = 58
STRIP: Final = 59
LANE: Final = 60
REST: Final = 61
VALUE: Final = 62
MONEY: Final = 63
DIST: Final = 64
COST: Final = 65
REACHED: Final = 66
ROW_COST: Final = 67
SUMS: Final = 68
HEADER: Final = 72

# Records
ITEM_HEIGHT, ITEM_EDGES, ITEM_STEPS, ITEM_SIZE = 0, 1, 2, 3
ARC_TAIL, ARC_HEAD, ARC_ITEM, ARC_JOINT, ARC_ROW, ARC_SIZE = 0, 1, 2, 3, 4, 5
ROW_FIRST, ROW_LAST, ROW_ARCS, ROW_ARCS_END, ROW_FACE, ROW_SIZE = 0, 1, 2, 3, 4, 5
FACE_DIVISIONS, FACE_DIVISIONS_END, FACE_ROWS, FACE_ROWS_END, FACE_TAKEN, FACE_BEST, FACE_SIZE = range(7)
MOST_PIECES, MOST_SPACES, MOST_SECTIONS, MOST_LANES = 48, 24, 24, 8
"""Most that is written down of one board; a piece that would be one more is laid elsewhere."""
B_N, B_WIDTH, B_USED, B_SPACES, B_STAMP, B_PIECE = 0, 1, 2, 3, 4, 5
B_SPACE = B_PIECE + 3 * MOST_PIECES
B_SIZE = B_SPACE + 5 * MOST_SPACES
P_ARC, P_SECTION, P_LANE = 0, 1, 2
S_SECTION, S_LANE, S_HIGH, S_LEFT, S_EDGE = 0, 1, 2, 3, 4
H_STAMP, H_N, H_ARC = 0, 1, 2
MONEY_SIZE = 3
"""Of a board: its price, what is left of it is worth, and what it loses."""
TABLES = 4
"""Tables of worth: three shares of what is left, by which pieces are laid, and the whole, which judges."""
JUDGING = 3
TOTAL, LEFT, JOINT_PRICE = 0, 1, 2
"""In the sums: money, what is left, and what a joint counts for."""
