"""Quick solves for the tests: the optimiser stopped at its first layout."""

import time

from setday.boards import (
    BoardChoices,
    BoardFigure,
    Limits,
    Outcome,
    Progress,
    board_rules,
    figure,
)
from setday.house import HouseDescription, build_house
from setday.rules import LocalRules
from tests.boards.houses import price_list

LIMITS = Limits(seconds=20.0, clock=time.monotonic, workers=1)


def stop_at_first(progress: Progress) -> bool:
    """Go on until there is a layout and a bound."""
    return progress.bound_cents <= 0


def figured(description: HouseDescription, **given: object) -> BoardFigure:
    """Figure a house with the real optimiser, stopped at its first layout."""
    built = build_house(description)
    assert built.house is not None, [str(f) for f in built.findings]
    options: dict[str, object] = {
        "choices": BoardChoices(),
        "rules": board_rules(LocalRules(values=given.pop("local", {}))),
        "boards": price_list(),
        "limits": LIMITS,
        "on_progress": stop_at_first,
    }
    return figure(built.house, **(options | given))  # type: ignore[arg-type]


def solving_to(outcome: Outcome):
    """An optimiser that always comes to the same outcome."""

    def solve(problem, *, limits, on_progress=None):
        if on_progress is not None:
            on_progress(
                Progress(cost_cents=1, bound_cents=0.0, seconds=0.0, stage="test", layout=outcome.layout)
            )
        return outcome

    return solve
