"""From a choice of cables to the hookup: colors, and the joins in every box."""

from collections import defaultdict
from dataclasses import replace

from setday.switching.choice import Choice, Half
from setday.switching.hookup import FEED, Cable, Hookup, Join, Point
from setday.switching.kinds import BARE, GREEN, DeviceKind, cable_kind
from setday.switching.roles import HOT, NEUTRAL, Group, PlanProblem, Role

__all__ = ["laid"]

Strand = tuple[Role, int]
"""One conductor of a role: 0, or 1 for the second traveler of a pair."""


def laid(problem: PlanProblem, choice: Choice) -> Hookup:
    """Return the hookup of a choice of cables.

    Parameters
    ----------
    problem : PlanProblem
    choice : Choice
    """
    joins: dict[tuple[Half, Strand], list[Point]] = defaultdict(list)
    grounds: dict[str, list[Point]] = defaultdict(list)
    feed = problem.hookup.feed
    root: Half = (feed.box, 0)
    joins[root, (HOT, 0)].append(Point(box=feed.box, holder=FEED, part="black"))
    joins[root, (NEUTRAL, 0)].append(Point(box=feed.box, holder=FEED, part="white"))
    grounds[feed.box].append(Point(box=feed.box, holder=FEED, part=BARE))
    cables: list[Cable] = []
    for run in choice.runs:
        a, b = run.near, run.far
        for kind, strands in _shared_out(run.kinds, _strands(run.roles)):
            cable, colors = _cable(f"N{len(cables) + 1}", kind, (a, b, run.length_ft), strands)
            cables.append(cable)
            for strand, color in colors.items():
                joins[a, strand].append(Point(box=a[0], holder=cable.name, part=color))
                joins[b, strand].append(Point(box=b[0], holder=cable.name, part=color))
            for box in (a[0], b[0]):
                grounds[box].append(Point(box=box, holder=cable.name, part=BARE))
    hookup = _with_tabs(problem)
    for half, strand, point in _terminals(problem, hookup, choice):
        joins[half, strand].append(point)
    for each in hookup.boxes:
        greens = [device.point(GREEN) for device in hookup.devices if device.box == each.name]
        metal = [Point(box=each.name, holder="box", part=GREEN)] if each.metal else []
        grounds[each.name] += greens + metal
    groups = [*joins.values(), *grounds.values()]
    written = tuple(Join(points=tuple(points)) for points in groups if len(points) > 1)
    order = {box.name: place for place, box in enumerate(hookup.boxes)}
    return replace(
        hookup, cables=tuple(cables), joins=tuple(sorted(written, key=lambda join: order[join.box]))
    )


def _strands(roles: tuple[Role, ...]) -> list[Strand]:
    return [(role, n) for role in roles for n in range(role.conductors)]


def _shared_out(kinds: tuple[str, ...], strands: list[Strand]) -> list[tuple[str, list[Strand]]]:
    """Share strands out over the cables of one run; pairs of travelers stay together."""
    if len(kinds) == 1:
        return [(kinds[0], strands)]
    rooms = [len(cable_kind(kind).insulated) for kind in kinds]
    shares: list[list[Strand]] = [[] for _ in kinds]
    by_role = sorted({strand[0] for strand in strands}, key=lambda role: (-role.conductors, role.name))
    for role in by_role:
        mine = [strand for strand in strands if strand[0] == role]
        whole = next((n for n, room in enumerate(rooms) if room - len(shares[n]) >= len(mine)), None)
        for strand in mine:
            n = (
                whole
                if whole is not None
                else next(n for n, room in enumerate(rooms) if len(shares[n]) < room)
            )
            shares[n].append(strand)
    return list(zip(kinds, shares, strict=True))


def _cable(
    name: str, kind: str, way: tuple[Half, Half, float], strands: list[Strand]
) -> tuple[Cable, dict[Strand, str]]:
    """Choose a color for every strand: white for the neutral, or else re-marked for supply or traveler."""
    colors = [color for color in cable_kind(kind).insulated if color != "white"]
    white = next((s for s in strands if s[0] == NEUTRAL), None)
    remarked: tuple[str, ...] = ()
    if white is None and len(strands) > len(colors):
        white = min(strands, key=_white_rank)
        remarked = ("white",)
    chosen = {white: "white"} if white is not None else {}
    for strand in sorted((s for s in strands if s != white), key=_black_rank):
        chosen[strand] = colors.pop(0)
    a, b, feet = way
    return Cable(name=name, kind=kind, a=a[0], b=b[0], length_ft=feet, remarked=remarked), chosen


def _white_rank(strand: Strand) -> tuple[int, int]:
    """Supply before traveler before switched return, which a white may not be."""
    role = strand[0]
    return (0 if role == HOT else 1 if role.conductors == 2 else 2, -strand[1])


def _black_rank(strand: Strand) -> tuple[int, str, int]:
    """Black for the supply or a switched return, then red for what is left."""
    role = strand[0]
    return (0 if role == HOT else 2 if role.conductors == 2 else 1, role.name, strand[1])


def _with_tabs(problem: PlanProblem) -> Hookup:
    """Break the tabs of receptacles whose halves are switched apart."""
    source = {load: group.switched for group in problem.groups for load in group.loads}
    devices = tuple(
        replace(device, brass_tab=len({source[name] for name, _, _ in device.loads}) == 1)
        if device.kind is DeviceKind.RECEPTACLE
        else device
        for device in problem.hookup.devices
    )
    return replace(problem.hookup, devices=devices)


def _terminals(problem: PlanProblem, hookup: Hookup, choice: Choice) -> list[tuple[Half, Strand, Point]]:
    half_of, chains = dict(choice.halves), dict(choice.chains)
    found: list[tuple[Half, Strand, Point]] = []
    done: set[Point] = set()

    def put(device_name: str, terminal: str, strand: Strand) -> None:
        device = hookup.device(device_name)
        point = device.point(terminal)
        held = {other for tab in device.tabs if point in tab for other in tab}
        if not held & done and point not in done:
            done.add(point)
            found.append(((device.box, half_of[device_name]), strand, point))

    for group in problem.groups:
        for load in group.loads:
            device = problem.device_of(load)
            part = load[len(device.name) :].strip()
            put(device.name, f"{part} brass".strip(), (group.switched, 0))
            put(device.name, f"{part} silver".strip(), (NEUTRAL, 0))
        for place, name in enumerate(chains[group.name]):
            for terminal, strand in _switch_terminals(hookup.device(name).kind, group, place):
                put(name, terminal, strand)
    return found


def _switch_terminals(kind: DeviceKind, group: Group, place: int) -> list[tuple[str, Strand]]:
    """Return what belongs on each terminal of the switch at a place of the chain."""
    last = len(group.switches) - 1
    if last == 0:
        first, second = ("brass 1", "brass 2") if kind is DeviceKind.SINGLE_POLE else ("common", "traveler 1")
        return [(first, (HOT, 0)), (second, (group.switched, 0))]
    if place in (0, last):
        pair = group.travelers(0 if place == 0 else last - 1)
        common = (HOT, 0) if place == 0 else (group.switched, 0)
        return [("common", common), ("traveler 1", (pair, 0)), ("traveler 2", (pair, 1))]
    before, after = group.travelers(place - 1), group.travelers(place)
    return [("in 1", (before, 0)), ("in 2", (before, 1)), ("out 1", (after, 0)), ("out 2", (after, 1))]
