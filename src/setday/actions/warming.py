"""Having the searches compiled once, so that the first answer of a class comes as quickly as the next.

Each search is run on the smallest case there is; what numba compiles for it is kept beside the source.
"""

from collections.abc import Callable, Iterator

from setday.solving import Limits
from setday.timetable.classwork import (
    ClassProblem,
    Fixed,
    Period,
    Place,
    Student,
    Task,
    Wait,
    carried_on,
    solve,
)
from setday.timetable.odds import Chances, Simulations, odds
from setday.timetable.repair import repair_at_once

__all__ = ["compile_searches"]

_SECONDS = 0.2
_PLAYS = 64


def compile_searches(*, clock: Callable[[], float]) -> Iterator[str]:
    """Run every compiled search once on a small case, and yield what each is for when it is ready.

    Parameters
    ----------
    clock : callable
        Returns seconds.
    """
    limits = Limits(seconds=_SECONDS, workers=2, clock=clock)
    problem = _smallest()
    found = solve(problem, limits=limits)
    yield "timetables"
    odds(problem, found.rows, Chances.none(), simulations=_PLAYS)
    Simulations.of(problem, found.rows, Chances.none(), since=0, seed=1, workers=1)
    yield "odds"
    happened = found.rows[:1]
    rest = carried_on(problem, happened=happened, left={})
    repair_at_once(rest, happened=happened, old=found.rows)
    solve(rest, limits=limits, fixed=Fixed(happened=happened))
    yield "repairs"
    yield from _boards(limits)


def _boards(limits: Limits) -> Iterator[str]:
    from setday.actions.boards import figure_boards
    from setday.actions.buying import demo_prices, open_prices
    from setday.actions.houses import demo_text, open_house

    shed = open_house(demo_text("shed"), name="shed")
    prices = open_prices(demo_prices().text, name="prices")
    figure_boards(shed, prices=prices, limits=Limits(seconds=1.0, workers=1, clock=limits.clock))
    yield "board layouts"


def _smallest() -> ClassProblem:
    """Return four students with three tasks in six periods: one of everything the searches ask about."""
    names = ("a", "b", "c", "d")
    students = tuple(
        Student(key=name, targets=(("framing", 60),), apart=frozenset({"d"} if name == "a" else ()))
        for name in names
    )
    tasks = (
        Task(key="one", label="one", trade="framing", place="room", work=240, crew_least=2, attention=2),
        Task(
            key="two", label="two", trade="boards", place="room", work=240, after=(Wait(task="one", days=1),)
        ),
        Task(key="bench", label="bench", trade="bench", place="shop", work=0, filler=True),
    )
    periods = tuple(Period(day=day, minutes=60, present=frozenset(names)) for day in range(8))
    places = (Place(key="room", holds=4), Place(key="shop", holds=8))
    return ClassProblem(tasks=tasks, students=students, periods=periods, places=places, set_period=8)
