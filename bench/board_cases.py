"""Invented houses, straight to the board layout problem, so that it can be measured alone.

A seeded generator: rooms of odd sizes with doors, windows, closets, studs at 16 in with kings at
openings, ceiling joists at 16 or 24 in.  The prices are invented: nearly constant per square foot,
the wide boards a little dearer.
"""

import random
from dataclasses import dataclass

from setday.boards.problem import (
    Board,
    BoardProblem,
    BoardRules,
    Joist,
    OffcutUse,
    Rows,
    Surface,
    SurfaceKind,
    Void,
)

INCH = 64
FOOT = 12 * INCH

KIND = "regular-1/2"
PRICES = {
    (48, 8): 1180, (48, 9): 1340, (48, 10): 1465, (48, 12): 1725, (48, 14): 2060, (48, 16): 2310,
    (54, 8): 1395, (54, 9): 1560, (54, 10): 1710, (54, 12): 2025, (54, 14): 2395, (54, 16): 2695,
}  # fmt: skip


def boards(*, kind: str = KIND, only: tuple[tuple[int, int], ...] | None = None) -> tuple[Board, ...]:
    """Return the invented price list."""
    return tuple(
        Board(key=f"{w}x{ft}", kind=kind, width=w * INCH, length=ft * FOOT, price_cents=cents)
        for (w, ft), cents in PRICES.items()
        if only is None or (w, ft) in only
    )


def rules(*, offcuts: OffcutUse = OffcutUse.HOUSE) -> BoardRules:
    """Return the rules every case is laid out by."""
    return BoardRules(
        opening_clear=4 * INCH,
        least_piece=16 * INCH,
        least_row=8 * INCH,
        offcuts=offcuts,
        stagger_one_spacing=True,
    )


@dataclass(frozen=True)
class Opening:
    at: int
    sill: int
    width: int
    head: int


def wall(
    name: str,
    room: str,
    *,
    length: int,
    height: int,
    openings: list[Opening],
    first: int,
    sequence: int,
    longest: int = 16 * FOOT,
    spacing: int = 16 * INCH,
) -> Surface:
    """Return a wall with studs on centre from `first`, kings and cripples at its openings."""
    studs: dict[int, list[tuple[int, int]]] = {}
    for x in range(first, length, spacing):
        over = [o for o in openings if o.at - 2 * INCH < x < o.at + o.width + 2 * INCH]
        stretches = [(0, height)]
        for o in over:
            stretches = [(0, o.sill), (o.head, height)] if o.sill else [(o.head, height)]
        studs.setdefault(x, []).extend(s for s in stretches if s[0] < s[1])
    for o in openings:
        for x in (o.at - 2 * INCH, o.at + o.width + 2 * INCH):
            if 0 < x < length:
                studs[x] = [(0, height)]
    members = tuple(Joist(x=x, y_low=a, y_high=b) for x in sorted(studs) for a, b in studs[x])
    voids = tuple(Void(x=o.at, y=o.sill, w=o.width, h=o.head - o.sill) for o in openings)
    return Surface(
        id=f"{room}-{name}",
        label=f"{room}, {name} wall",
        room=room,
        kind=SurfaceKind.WALL,
        outline=((0, 0), (length, 0), (length, height), (0, height)),
        voids=voids,
        members=members,
        board_kind=KIND,
        rows=(Rows.ALONG,),
        longest=longest,
        member_spacing=spacing,
        sequence=sequence,
    )


def ceiling(
    room: str, *, length: int, width: int, sequence: int, spacing: int, longest: int = 16 * FOOT
) -> Surface:
    """Return a flat ceiling, joists across its longer or its shorter side as they are framed."""
    members = tuple(Joist(x=x, y_low=0, y_high=width) for x in range(spacing, length, spacing))
    return Surface(
        id=f"{room}-ceiling",
        label=f"{room}, ceiling",
        room=room,
        kind=SurfaceKind.CEILING,
        outline=((0, 0), (length, 0), (length, width), (0, width)),
        voids=(),
        members=members,
        board_kind=KIND,
        rows=(Rows.ALONG,),
        longest=longest,
        member_spacing=spacing,
        sequence=sequence,
    )


def room(
    name: str, *, length: int, width: int, height: int, dice: random.Random, sequence: int, outside: int = 1
) -> list[Surface]:
    """Return the ceiling and four walls of a room with a door and `outside` windows."""
    turned = length < width
    spacing = dice.choice((16, 24)) * INCH
    span = (width, length) if turned else (length, width)
    out = [ceiling(name, length=span[0], width=span[1], sequence=sequence, spacing=spacing)]
    door = dice.randrange(4)
    windows = set(dice.sample(range(4), k=outside))
    for i, (side, size) in enumerate(
        zip(("north", "east", "south", "west"), (length, width) * 2, strict=True)
    ):
        openings = []
        if i == door:
            openings.append(_door(size, dice))
        if i in windows and size >= 6 * FOOT and (i != door or size >= 11 * FOOT):
            openings.append(_window(size, dice, after=openings[0].at + openings[0].width if openings else 0))
        first = dice.randrange(2 * 8, 16 * 4) * INCH // 4
        out.append(
            wall(
                side,
                name,
                length=size,
                height=height,
                openings=openings,
                first=first,
                sequence=sequence + 1 + i,
            )
        )
    return out


def _door(size: int, dice: random.Random) -> Opening:
    width = dice.choice((28, 30, 32)) * INCH + 2 * INCH
    width = min(width, size - 8 * INCH)
    spare = max(size // 2 - width - 6 * INCH, 0)
    return Opening(
        at=4 * INCH + dice.randrange(0, spare // INCH + 1) * INCH, sill=0, width=width, head=82 * INCH
    )


def _window(size: int, dice: random.Random, *, after: int) -> Opening:
    width = min(dice.choice((24, 36, 48, 60)) * INCH, size - after - 24 * INCH)
    sill = dice.choice((24, 36, 42)) * INCH
    low, high = after + 8 * INCH, size - width - 8 * INCH
    return Opening(
        at=low + dice.randrange(0, max((high - low) // INCH, 1)) * INCH,
        sill=sill,
        width=width,
        head=82 * INCH,
    )


ROOMS = (
    ("living", 17.0, 14.5), ("kitchen", 12.5, 11.0), ("bedroom", 12.0, 11.2), ("bath", 8.6, 5.1),
    ("closet", 6.0, 2.2), ("hall", 14.0, 3.6), ("bedroom", 13.4, 11.6), ("entry", 7.0, 5.0),
    ("closet", 7.4, 2.0), ("dining", 12.0, 10.5), ("laundry", 7.5, 6.0), ("study", 10.5, 9.7),
)  # fmt: skip


def house(
    area_sqft: int, *, seed: int = 1, height: int = 8 * FOOT, offcuts: OffcutUse = OffcutUse.HOUSE
) -> BoardProblem:
    """Return an invented house of about `area_sqft` of floor."""
    dice = random.Random(seed)
    surfaces: list[Surface] = []
    floor, count = 0.0, 0
    while floor < area_sqft:
        kind, length_ft, width_ft = ROOMS[count % len(ROOMS)]
        length = round(length_ft * 12 * dice.uniform(0.9, 1.12) * 4) * INCH // 4
        width = round(width_ft * 12 * dice.uniform(0.9, 1.12) * 4) * INCH // 4
        small = kind in {"closet", "hall", "bath"}
        surfaces += room(
            f"{kind} {count}",
            length=length,
            width=width,
            height=height,
            dice=dice,
            sequence=len(surfaces),
            outside=0 if small else 1 + (kind == "living"),
        )
        floor += length * width / FOOT**2
        count += 1
    return BoardProblem(surfaces=tuple(surfaces), boards=boards(), rules=rules(offcuts=offcuts))


def one_room(*, seed: int = 1) -> BoardProblem:
    """Return one room of 12 by 16 ft with 8 ft walls, a door and a window."""
    made = room(
        "room",
        length=16 * FOOT,
        width=12 * FOOT,
        height=8 * FOOT,
        dice=random.Random(seed),
        sequence=0,
        outside=1,
    )
    return BoardProblem(surfaces=tuple(made), boards=boards(), rules=rules())
