"""Figuring the boards of an open house."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from setday.actions.houses import OpenHouse
from setday.boards import (
    Board,
    BoardChoices,
    BoardFigure,
    Limits,
    OffcutUse,
    Progress,
    Solve,
    Variant,
    WhatIf,
    board_rules,
    figure,
    usual_variants,
    what_if,
)
from setday.errors import FileProblem
from setday.materials import PriceList, boards_offered
from setday.measure import Length
from setday.rules import LocalRules, RuleBook

__all__ = ["BoardWish", "compare_variants", "figure_boards", "rules_for"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardWish:
    """What a person asks for one run, over what the house file says.

    Parameters
    ----------
    offcuts : OffcutUse or None
        How far off-cuts may travel; None leaves it to the house file and the rules.
    longest : Length or None
        The longest board to use; None allows every length of the price list.
    rules : mapping
        Rule keys to values as typed; they count as set by the instructor for this run.
    """

    offcuts: OffcutUse | None = None
    longest: Length | None = None
    rules: Mapping[str, str] = field(default_factory=dict)


def rules_for(opened: OpenHouse, wish: BoardWish | None = None) -> RuleBook:
    """Return the rules of boards in force for a house and a wish.

    Raises
    ------
    RuleError
        For a rule that does not exist, cannot be read or is out of range.
    """
    book = board_rules(opened.local)
    if wish is None or not wish.rules:
        return book
    for key in wish.rules:
        book[key]  # names the known ones where it is not one of them
    reasons = dict.fromkeys(wish.rules, "asked for this run")
    return book.with_local(LocalRules(values=dict(wish.rules), reasons=reasons))


def figure_boards(
    opened: OpenHouse,
    *,
    prices: PriceList,
    limits: Limits,
    wish: BoardWish | None = None,
    on_progress: Callable[[Progress], bool] | None = None,
    solve: Solve | None = None,
) -> BoardFigure:
    """Lay the boards of a house out and figure what follows.

    Parameters
    ----------
    opened : OpenHouse
    prices : PriceList
    limits : Limits
    wish : BoardWish or None
    on_progress : callable or None
        Told how the search gets on; answers False to stop it and keep the best layout.
    solve : callable or None
        None takes the layout optimiser; a recorded outcome comes back through here.

    Raises
    ------
    FileProblem
        When the house could not be built, or the price list offers no board.
    RuleError
        For a rule of the wish that cannot be.
    """
    house = opened.built()
    return figure(
        house,
        choices=_choices(opened, wish),
        rules=rules_for(opened, wish),
        boards=_boards(prices, wish),
        limits=limits,
        on_progress=on_progress,
        solve=solve,
    )


def compare_variants(
    opened: OpenHouse,
    *,
    prices: PriceList,
    limits: Limits,
    wish: BoardWish | None = None,
    variants: tuple[Variant, ...] = (),
) -> tuple[WhatIf, ...]:
    """Lay a house out once for each variant, side by side; without variants, for the usual questions."""
    boards = _boards(prices, wish)
    choices = _choices(opened, wish)
    return what_if(
        opened.built(),
        variants or usual_variants(boards, choices),
        choices=choices,
        rules=rules_for(opened, wish),
        boards=boards,
        limits=limits,
    )


def _choices(opened: OpenHouse, wish: BoardWish | None) -> BoardChoices:
    if wish is None or wish.offcuts is None:
        return opened.boards
    return replace(opened.boards, offcuts=wish.offcuts)


def _boards(prices: PriceList, wish: BoardWish | None) -> tuple[Board, ...]:
    offered = boards_offered(prices)
    longest = wish.longest if wish else None
    kept = tuple(b for b in offered if longest is None or b.length <= longest.sixtyfourths)
    if not kept:
        left = f" of {longest} or less" if longest else ""
        raise FileProblem(
            f"The price list offers no board{left} with a kind, a width, a length and a price.",
            do="Add boards to it; docs/materials.md shows the columns.",
            where=prices.name,
        )
    return kept
