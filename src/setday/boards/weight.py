"""What boards weigh, and what their stacks put on a floor."""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from setday.boards.laidout import LaidOut
from setday.boards.problem import Board
from setday.findings import Finding, Severity
from setday.measure import Area, Length
from setday.rules import RuleBook

__all__ = ["RoomStack", "board_weight", "stack_findings", "stacks"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomStack:
    """The boards first used in one room, stacked flat in it.

    Parameters
    ----------
    room : str
    boards : int
    weight_lb : float
    spread : float
        How much lighter or heavier boards run, as a part of the weight.
    stacks : int
        So many that none holds more boards than the rule allows.
    load_psf : float
        Weight of one stack over its longest board's footprint [lb/ft2].
    """

    room: str
    boards: int
    weight_lb: float
    spread: float
    stacks: int
    load_psf: float


def board_weight(board: Board, rules: RuleBook) -> float | None:
    """Return the weight of one board [lb], or None where none is known for its thickness.

    Examples
    --------
    >>> from setday.boards.rulebook import board_rules
    >>> twelve = Board(key="b", kind="regular-5/8", width=48 * 64, length=144 * 64, price_cents=1)
    >>> round(board_weight(twelve, board_rules()), 1)
    105.6
    """
    key = f"boards.weight_{board.kind.rpartition('-')[2]}"
    if key not in rules.rules:
        return None
    area = Area.rectangle(Length(board.width), Length(board.length))
    return area.sqft * rules.number(key)


def stacks(laid: LaidOut, rules: RuleBook) -> tuple[RoomStack, ...]:
    """Return the stack of each room, in the order the rooms are hung."""
    most = round(rules.number("boards.stack_most"))
    by_room: dict[str, list[Board]] = {}
    for pieces in laid.pieces_from.values():
        room = laid.surfaces[pieces[0].surface].room
        by_room.setdefault(room, []).append(laid.board_of(pieces[0]))
    found = []
    for room, boards in by_room.items():
        weight = sum(board_weight(board, rules) or 0.0 for board in boards)
        number = ceil(Fraction(len(boards), most))
        footprint = max(Area.rectangle(Length(b.width), Length(b.length)).sqft for b in boards)
        found.append(
            RoomStack(
                room=room,
                boards=len(boards),
                weight_lb=weight,
                spread=rules.number("boards.weight_spread") / 100,
                stacks=number,
                load_psf=weight / number / footprint,
            )
        )
    return tuple(found)


def stack_findings(laid: LaidOut, rules: RuleBook) -> tuple[Finding, ...]:
    """Ask about stacks heavier than a house floor is commonly designed for, and unknown weights."""
    findings = []
    limit = rules.number("boards.floor_load")
    for stack in stacks(laid, rules):
        heaviest = stack.load_psf * (1 + stack.spread)
        if heaviest > limit:
            findings.append(
                Finding(
                    rule="boards.stack-on-floor",
                    about=f"boards stacked in {stack.room}",
                    found=f"{stack.boards} boards, {-(-stack.boards // stack.stacks)} to a stack, come to "
                    f"about {heaviest:.0f} lb/ft2 under a stack.",
                    expected=f"{limit:.0f} lb/ft2, what a house floor is commonly designed for.",
                    do="Spread the boards over several places, along walls and across joists; "
                    "who designed the floor decides.",
                    severity=Severity.ASK,
                    source=rules["boards.floor_load"].source,
                )
            )
    unknown = {b.kind: b for b in laid.problem.boards if board_weight(b, rules) is None}
    findings += [_unknown(kind) for kind in sorted(unknown)]
    return tuple(findings)


def _unknown(kind: str) -> Finding:
    return Finding(
        rule="boards.weight-unknown",
        about=f"board of kind {kind}",
        found="its weight is not in the table; it was left out of the weights.",
        do="Take the weight from its label.",
        severity=Severity.NOTE,
    )
