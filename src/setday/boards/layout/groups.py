"""The house taken apart: surfaces whose boards can be shared, and layers that wait for the one below."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

from setday.boards.layout.emit import Done
from setday.boards.layout.giving import Hung, ease_until_hung
from setday.boards.layout.network import Network
from setday.boards.layout.rows import Avoid
from setday.boards.problem import Board, BoardProblem, OffcutUse, Surface

__all__ = ["Group", "joints_of", "stages", "surfaces_hung"]

Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Group:
    """Surfaces of one board kind among which an off-cut may travel."""

    surfaces: tuple[Surface, ...]
    boards: tuple[Board, ...]


def stages(problem: BoardProblem) -> list[list[Group]]:
    """Return the groups, in stages: a surface over another layer of another group comes a stage later."""
    members: dict[Key, list[Surface]] = {}
    for s in sorted(problem.surfaces, key=lambda s: s.sequence):
        members.setdefault((s.board_kind, _scope(s, problem.rules.offcuts)), []).append(s)
    depth = _depths(members)
    out: list[list[Group]] = [[] for _ in range(max(depth.values(), default=0) + 1)]
    for key, surfaces in members.items():
        boards = tuple(b for b in problem.boards if b.kind == key[0])
        out[depth[key]].append(Group(tuple(surfaces), boards))
    return out


def _scope(surface: Surface, use: OffcutUse) -> str:
    return {
        OffcutUse.NONE: surface.id,
        OffcutUse.ROOM: surface.room,
        OffcutUse.DAY: str(surface.day),
        OffcutUse.HOUSE: "",
    }[use]


def _depths(members: dict[Key, list[Surface]]) -> dict[Key, int]:
    """Count for every group how many groups of layers below it must come first."""
    home = {s.id: key for key, surfaces in members.items() for s in surfaces}
    below = {
        key: {home[s.over] for s in surfaces if s.over in home} - {key} for key, surfaces in members.items()
    }
    depth = Counter[Key]()
    for _ in members:
        for key, under in below.items():
            depth[key] = max((depth[u] + 1 for u in under), default=0)
    return {key: min(depth[key], len(members) - 1) for key in members}


def surfaces_hung(
    group: Group,
    problem: BoardProblem,
    avoid: dict[str, tuple[Avoid, ...]],
    *,
    each: Callable[[], None] = lambda: None,
) -> tuple[list[Hung], list[str]]:
    """Return every surface of a group under the rules it can keep, and why any cannot be hung.

    `each` is called before every surface.
    """
    hung, none = [], []
    for s in group.surfaces:
        each()
        made = ease_until_hung(s, boards=group.boards, rules=problem.rules, avoid=avoid.get(s.over, ()))
        if isinstance(made, Hung):
            hung.append(made)
        else:
            none.append(made)
    return hung, none


def network_of(hung: list[Hung]) -> Network:
    """Return the network of a group, layers over each other within it linked."""
    at = {h.face.surface.id: i for i, h in enumerate(hung)}
    links = [(at[h.face.surface.over], i) for i, h in enumerate(hung) if h.face.surface.over in at]
    return Network([h.face for h in hung], links=links)


def joints_of(done: Done) -> dict[str, tuple[Avoid, ...]]:
    """Return the butt joints of every surface of a finished group."""
    net = done.network
    out: dict[str, tuple[Avoid, ...]] = {}
    for f, face in enumerate(net.faces):
        found = []
        for r in done.taken[f]:
            for a in done.cuts[r]:
                node = net.rows[r].nodes[net.arcs[a].head]
                if node.joint:
                    found.append(Avoid(net.rows[r].rows, node.low, node.high, node.u))
        out[face.surface.id] = tuple(found)
    return out
