"""A hookup drawn by hand: the stage is given, joins are made and undone step by step."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from setday.switching.hookup import Hookup, Join, Point

__all__ = ["Step", "drawn", "parted", "stage_of", "step_to_join"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the hand.

    Parameters
    ----------
    act : str
        "join" brings the points together with all they are joined to; "part" takes each point out of
        its join; "mark" marks the white of a cable as no longer white, or takes the mark off; "clear"
        takes everything apart.
    points : tuple of Point
    cable : str
        For "mark".
    """

    act: str
    points: tuple[Point, ...] = ()
    cable: str = ""


def stage_of(hookup: Hookup) -> Hookup:
    """Return the boxes, cables and devices of a hookup with nothing joined and nothing marked."""
    cables = tuple(replace(cable, remarked=()) for cable in hookup.cables)
    return replace(hookup, joins=(), cables=cables)


def drawn(hookup: Hookup, steps: Sequence[Step]) -> Hookup:
    """Return the stage of a hookup with the joins and marks that steps leave.

    Points and cables that the stage does not have (any more) are passed over.
    """
    stage = stage_of(hookup)
    known = {point for box in stage.boxes for point in stage.points_in(box.name)}
    groups: list[tuple[Point, ...]] = []
    marked: list[str] = []
    for step in steps:
        points = tuple(point for point in step.points if point in known)
        if step.act == "join":
            groups = _joined(groups, points)
        elif step.act == "part":
            groups = [left for group in groups if len(left := _without(group, points)) > 1]
        elif step.act == "mark":
            marked = [c for c in marked if c != step.cable] + (
                [step.cable] if step.cable not in marked else []
            )
        elif step.act == "clear":
            groups, marked = [], []
    cables = tuple(
        replace(cable, remarked=("white",)) if cable.name in marked else cable for cable in stage.cables
    )
    return replace(stage, cables=cables, joins=tuple(Join(points=group) for group in groups))


def _joined(groups: list[tuple[Point, ...]], points: tuple[Point, ...]) -> list[tuple[Point, ...]]:
    if len(set(points)) < 2 or len({point.box for point in points}) > 1:
        return groups
    met = [group for group in groups if set(group) & set(points)]
    one = tuple(dict.fromkeys([*(point for group in met for point in group), *points]))
    return [*(group for group in groups if group not in met), one]


def _without(group: tuple[Point, ...], points: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple(point for point in group if point not in points)


def step_to_join(hookup: Hookup, first: Point, second: Point) -> Step | None:
    """Return the step that joins two points; None where they cannot be or already are joined."""
    if first == second or first.box != second.box:
        return None
    if any({first, second} <= set(join.points) for join in hookup.joins):
        return None
    return Step(act="join", points=(first, second))


def parted(hookup: Hookup, point: Point) -> Step | None:
    """Return the step that takes the whole join of a point apart; None where it is in none."""
    join = next((join for join in hookup.joins if point in join.points), None)
    return Step(act="part", points=join.points) if join else None
