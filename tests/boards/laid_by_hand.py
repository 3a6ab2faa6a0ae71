"""A layout made by hand that keeps every rule, with every feature a layout can have; argued line by line."""

from setday.boards import (
    Board,
    BoardProblem,
    BoardRules,
    BoughtBoard,
    Joist,
    Layout,
    OffcutUse,
    Piece,
    Rows,
    Surface,
    SurfaceKind,
    SurfaceRows,
    Void,
)

INCH = 64


def inches(*values: float) -> tuple[int, ...]:
    return tuple(round(v * INCH) for v in values)


def box(width: float, height: float) -> tuple[tuple[int, int], ...]:
    w, h = inches(width, height)
    return ((0, 0), (w, 0), (w, h), (0, h))


def ring(*corners: tuple[float, float]) -> tuple[tuple[int, int], ...]:
    return tuple((round(x * INCH), round(y * INCH)) for x, y in corners)


def studs(*places: float, height: float) -> tuple[Joist, ...]:
    return tuple(Joist(x=round(x * INCH), y_low=0, y_high=round(height * INCH)) for x in places)


def board(key: str, width: float, length: float, cents: int, kind: str = "regular-1/2") -> Board:
    w, n = inches(width, length)
    return Board(key=key, kind=kind, width=w, length=n, price_cents=cents)


def surface(name: str, outline: tuple[tuple[int, int], ...], sequence: int, **more: object) -> Surface:
    given: dict[str, object] = {
        "label": name.replace("/", ", "),
        "room": name.partition("/")[0],
        "kind": SurfaceKind.WALL,
        "voids": (),
        "members": (),
        "board_kind": "regular-1/2",
        "rows": (Rows.ALONG,),
        "longest": 144 * INCH,
        "member_spacing": 16 * INCH,
    }
    return Surface(id=name, outline=outline, sequence=sequence, **(given | more))  # type: ignore[arg-type]


def piece(
    where: str,
    row: int,
    box_in: tuple[float, float, float, float],
    cut: tuple[int, float, float],
    *outline: tuple[float, float],
) -> Piece:
    x, y, w, h = inches(*box_in)
    number, bx, by = cut
    return Piece(
        surface=where, row=row, x=x, y=y, w=w, h=h, board=number,
        board_x=round(bx * INCH), board_y=round(by * INCH), outline=ring(*outline),
    )  # fmt: skip


def rows(where: str, direction: Rows, *edges: float) -> SurfaceRows:
    return SurfaceRows(surface=where, rows=direction, edges=inches(*edges))


BOARDS = (
    board("R8", 48, 96, 1200),
    board("R10", 48, 120, 1500),
    board("R12", 48, 144, 1800),
    board("W8", 48, 96, 1900, kind="wet-area-1/2"),
)

RULES = BoardRules(opening_clear=6 * INCH, least_piece=12 * INCH, least_row=8 * INCH, offcuts=OffcutUse.ROOM)

WINDOW = Void(x=60 * INCH, y=36 * INCH, w=40 * INCH, h=44 * INCH, name="W1")
STUDS = studs(*range(16, 192, 16), height=96)

SURFACES = (
    # 4 ft x 5 ft; the strip of 12 in is an edge row and may be ripped.
    surface("closet/ceiling", box(48, 60), 0, kind=SurfaceKind.CEILING),
    # 16 ft x 8 ft with a window across both rows.
    surface("bedroom/north", box(192, 96), 1, voids=(WINDOW,), members=STUDS),
    surface(
        "bedroom/north:2", box(192, 96), 2, voids=(WINDOW,), members=STUDS, layer=2, over="bedroom/north"
    ),
    # Boards upright, the seam between the two columns on the stud at 48 in.
    surface("hall/east", box(80, 110), 3, rows=(Rows.ACROSS,), members=studs(16, 32, 48, 64, height=110)),
    # A gable over a door as high as its only row would be cut by: none; one row, a joint at the peak.
    surface(
        "loft/gable",
        ring((0, 0), (96, 0), (96, 24), (48, 40), (0, 24)),
        4,
        members=(Joist(x=48 * INCH, y_low=0, y_high=40 * INCH),),
    ),
    # A wet wall of its own kind, a door as high as the row beside it.
    surface(
        "bath/south",
        box(90, 48),
        5,
        board_kind="wet-area-1/2",
        voids=(Void(x=40 * INCH, y=0, w=30 * INCH, h=48 * INCH, name="D1"),),
    ),
)

PROBLEM = BoardProblem(surfaces=SURFACES, boards=BOARDS, rules=RULES)

LAYOUT = Layout(
    surfaces=(
        rows("closet/ceiling", Rows.ALONG, 0, 48, 60),
        rows("bedroom/north", Rows.ALONG, 0, 48, 96),
        rows("bedroom/north:2", Rows.ALONG, 0, 48, 96),
        rows("hall/east", Rows.ACROSS, 0, 48, 80),
        rows("loft/gable", Rows.ALONG, 0, 40),
        rows("bath/south", Rows.ALONG, 0, 48),
    ),
    boards=tuple(
        BoughtBoard(number=n, key=key)
        for n, key in enumerate(
            ("R8", "R12", "R8", "R12", "R12", "R8", "R8", "R12", "R10", "R10", "R8", "W8"), start=1
        )
    ),
    pieces=(
        # One 8 ft board gives both rows of the closet ceiling.
        piece("closet/ceiling", 1, (0, 48, 48, 12), (1, 48, 0)),
        piece("closet/ceiling", 0, (0, 0, 48, 48), (1, 0, 0)),
        # Upper row 12 ft + 4 ft, lower row 12 ft + 4 ft: joints at 48 and 144, 96 in apart; the joint at
        # 48 is 12 in from the window's side at 60.  Board 3 gives both 4 ft pieces.
        piece(
            "bedroom/north", 1, (48, 48, 144, 48), (2, 0, 0),
            (48, 48), (60, 48), (60, 80), (100, 80), (100, 48), (192, 48), (192, 96), (48, 96),
        ),
        piece("bedroom/north", 1, (0, 48, 48, 48), (3, 0, 0)),
        piece(
            "bedroom/north", 0, (0, 0, 144, 48), (4, 0, 0),
            (0, 0), (144, 0), (144, 48), (100, 48), (100, 36), (60, 36), (60, 48), (0, 48),
        ),
        piece("bedroom/north", 0, (144, 0, 48, 48), (3, 48, 0)),
        # Second layer: joints at 112 (upper) and 80 (lower, under the middle of the window).
        piece(
            "bedroom/north:2", 1, (0, 48, 112, 48), (5, 0, 0),
            (0, 48), (60, 48), (60, 80), (100, 80), (100, 48), (112, 48), (112, 96), (0, 96),
        ),
        piece("bedroom/north:2", 1, (112, 48, 80, 48), (6, 0, 0)),
        piece(
            "bedroom/north:2", 0, (0, 0, 80, 48), (7, 0, 0),
            (0, 0), (80, 0), (80, 36), (60, 36), (60, 48), (0, 48),
        ),
        piece(
            "bedroom/north:2", 0, (80, 0, 112, 48), (8, 0, 0),
            (80, 0), (192, 0), (192, 48), (100, 48), (100, 36), (80, 36),
        ),
        piece("hall/east", 0, (0, 0, 48, 110), (9, 0, 0)),
        piece("hall/east", 1, (48, 0, 32, 110), (10, 0, 0)),
        piece("loft/gable", 0, (0, 0, 48, 40), (11, 0, 0), (0, 0), (48, 0), (48, 40), (0, 24)),
        piece("loft/gable", 0, (48, 0, 48, 40), (11, 48, 0), (48, 0), (96, 0), (96, 24), (48, 40)),
        # Both sides of the door from one board.
        piece("bath/south", 0, (0, 0, 40, 48), (12, 0, 0)),
        piece("bath/south", 0, (70, 0, 20, 48), (12, 40, 0)),
    ),
)  # fmt: skip
