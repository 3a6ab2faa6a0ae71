"""The pull list, the labels for the cables' ends, and where the home runs lie coiled for the set."""

from dataclasses import dataclass

from setday.cable.routes.passages import Passages
from setday.cable.routes.routing import Routing
from setday.cable.run import PANEL, Pull, Run
from setday.house import Point
from setday.measure import Length

__all__ = ["HomeRun", "home_runs", "pull_list"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeRun:
    """A home run under the floor, for the map of the set.

    Parameters
    ----------
    number, circuit, kind : str
    drop : Point
        Where it comes down through the floor, or its coil's place where it does not.
    way : tuple of Point
        On the plan, from the drop to the coil.
    coil : Point
        Where it lies coiled.
    slack : Length
        In the coil.
    """

    number: str
    circuit: str
    kind: str
    drop: Point
    way: tuple[Point, ...]
    coil: Point
    slack: Length


def pull_list(routing: Routing, passages: Passages) -> tuple[Pull, ...]:
    """Return one line for every run, in the order of the runs.

    Parameters
    ----------
    routing : Routing
    passages : Passages
        For the names of the boxes.
    """
    return tuple(_pull(run, passages) for run in routing.runs)


def _pull(run: Run, passages: Passages) -> Pull:
    cable = run.cable
    start, end = (passages.by_name[name].label or name for name in (cable.start, cable.end))
    home = "HOME RUN " if cable.home else ""
    return Pull(
        number=cable.number,
        circuit=cable.circuit,
        kind=cable.kind,
        start=start,
        end=end,
        cut=run.cut,
        passes=run.passes,
        staples=run.staples,
        label=f"{cable.number}  {cable.kind}  {home}{cable.circuit}: {cable.start} to {cable.end}",
        start_label=f"{cable.number} {cable.circuit} to {cable.end}",
        end_label=f"{cable.number} {cable.circuit} to {cable.start}",
        home=cable.home,
        reserve=Length(passages.rules.cut_reserve),
    )


def home_runs(routing: Routing) -> tuple[HomeRun, ...]:
    """Return the home runs with their ways under the floor and the coils at the panel's corner."""
    return tuple(_home(run) for run in routing.runs if run.cable.home)


def _home(run: Run) -> HomeRun:
    points = run.points if run.cable.end == PANEL else run.points[::-1]
    under = [point.plan for point in points if point.up < Length(0)]
    way = tuple(dict.fromkeys(under)) or (points[-1].plan,)
    return HomeRun(
        number=run.number,
        circuit=run.circuit,
        kind=run.cable.kind,
        drop=way[0],
        way=way,
        coil=points[-1].plan,
        slack=run.slack,
    )
