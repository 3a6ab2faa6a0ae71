"""Walls that boards are laid on, what crews laid on them, and the best layout known."""

import time
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from setday.drawing import laying_picture
from setday.web.houses.drawings import Drawings, both
from setday.web.houses.opening import opened_text
from setday.web.keeping.models import HouseVersion, SealedEntry, SealedOffer

if TYPE_CHECKING:
    from setday.learning import LaidBoard, LaidWall, WallToLay

__all__ = ["best_known", "laid_from", "laid_picture", "laid_row", "wall_of", "written_from"]

_KEPT = 30
_WIDTH_IN, _LENGTH_IN = 54, 96
_SECONDS = 1.5
_MOST = 60


def wall_of(version: HouseVersion, figure: str) -> "WallToLay | None":
    """Return the wall of a figure of boards from a run; None for any other figure."""
    if not (figure.startswith("surface/") and figure.endswith("/run")):
        return None
    return _wall(version.text, version.file_name, figure.removeprefix("surface/").removesuffix("/run"))


@lru_cache(maxsize=_KEPT)
def _wall(text: str, name: str, surface: str) -> "WallToLay | None":
    from setday.boards import Board, board_problem, board_rules
    from setday.learning import wall_to_lay

    opened = opened_text(text, name)
    board = Board(
        key="board-in-hand", kind="regular-1/2", width=_WIDTH_IN * 64, length=_LENGTH_IN * 64, price_cents=1
    )
    rules = board_rules(opened.local)
    prepared = board_problem(opened.built(), choices=opened.boards, rules=rules, boards=(board,))
    return wall_to_lay(prepared, surface, board=board)


def laid_from(written: Any) -> "list[LaidBoard]":
    """Return boards from how they are written down: [row, end, off-cut]; what is not so is left out."""
    from setday.learning import LaidBoard

    listed = written if isinstance(written, list) else []
    shaped = [each for each in listed if isinstance(each, list) and len(each) == 3]
    whole = [each for each in shaped if all(isinstance(n, int) for n in each)]
    return [LaidBoard(row=row, end=end, offcut=bool(offcut)) for row, end, offcut in whole[:_MOST]]


def written_from(laid: "list[LaidBoard]") -> list[list[int]]:
    """Return boards as they are written down."""
    return [[each.row, each.end, int(each.offcut)] for each in laid]


def laid_picture(wall: "WallToLay", laid: "LaidWall", *, key: str, touch: bool) -> Drawings:
    """Draw a wall with the boards laid on it, for a desk and for a phone."""
    return both(
        lambda paper, prefix: laying_picture(wall, laid, paper=paper, key=prefix, touch=touch), key=key
    )


def laid_row(offer: SealedOffer, entry: SealedEntry) -> dict[str, Any]:
    """Return what one crew laid, checked by the verifier of boards."""
    from setday.learning import lay

    wall = wall_of(offer.version, offer.figure)
    if wall is None:
        return {"entry": entry}
    laid = lay(wall, laid_from(entry.boards))
    drawings = laid_picture(wall, laid, key=f"laid-{entry.pk}", touch=False)
    return {"entry": entry, "laid": laid, "drawings": drawings}


def best_known(offer: SealedOffer) -> dict[str, Any]:
    """Return the boards of the best layout found in a short search, and how many are proven needed."""
    return _best(offer.version.text, offer.version.file_name, offer.figure)


@lru_cache(maxsize=_KEPT)
def _best(text: str, name: str, figure: str) -> dict[str, Any]:
    from setday.boards import BoardProblem, Limits, totals, verify_outcome
    from setday.boards.layout import solve

    wall = _wall(text, name, figure.removeprefix("surface/").removesuffix("/run"))
    if wall is None:
        return {}
    problem = BoardProblem(surfaces=(wall.surface,), boards=(wall.board,), rules=wall.rules)
    outcome = solve(problem, limits=Limits(seconds=_SECONDS, clock=time.monotonic, workers=1))
    if outcome.layout is None or any(
        each.severity.value == "problem" for each in verify_outcome(problem, outcome)
    ):
        return {}
    counted = totals(problem, outcome.layout)
    return {
        "boards": counted.boards,
        "pieces": counted.pieces,
        "butt_ft": counted.butt_joint / 768,
        "least": -(-round(outcome.bound.cost_cents * 1000) // 1000),
    }
