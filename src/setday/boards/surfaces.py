"""From the house's surfaces to the board layout problem, on the grid of sixty-fourths."""

from dataclasses import dataclass, replace

from setday.boards.choices import BoardChoices
from setday.boards.floor import floor_gap, wide_gap_findings
from setday.boards.hanging import HungSurface, corner_losses, hanging_order
from setday.boards.members import edge_findings, joists
from setday.boards.outline import Ring, bounds, clipped, lengthened, lowered, shifted, slant
from setday.boards.problem import (
    Board,
    BoardProblem,
    BoardRules,
    OffcutUse,
    SurfaceKind,
    Void,
)
from setday.boards.problem import Surface as BoardSurface
from setday.boards.returns import return_strips
from setday.boards.rows import allowed_rows
from setday.boards.specified import Cover, covers, spacing_findings
from setday.boards.supply import longest_carried, supply_findings
from setday.findings import Finding, Severity, in_order
from setday.house import House, Surface, WetPatch
from setday.house import SurfaceKind as HouseSurfaceKind
from setday.measure import Length, write_inches
from setday.rules import Rule, RuleBook

__all__ = ["Prepared", "SurfaceNote", "board_problem", "layout_rules"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceNote:
    """How one surface of the problem came from the house.

    Parameters
    ----------
    surface : str
        Id in the problem.
    house_surface : str
        Id of the house's surface it lies on.
    dx, dy : int
        Add to house surface coordinates to get coordinates of the problem [1/64 in].
    floor_gap, left, right, top : int
        What was left off at the floor, at the two ends (negative: added) and at the ceiling [1/64 in].
    thickness : Length
        Of the layer.
    patch : str
        Name of the wet area, or of the return at an opening, that the surface is; empty for the rest.
    why_rows : str
        Why the rows run as they may, in words.
    """

    surface: str
    house_surface: str
    dx: int
    dy: int
    floor_gap: int
    left: int
    right: int
    top: int
    thickness: Length
    patch: str = ""
    why_rows: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """A board layout problem, with where each of its surfaces came from and what was noticed.

    `bare` names the house's surfaces that take no board by choice; `class_factor` is the instructor's.
    """

    problem: BoardProblem
    findings: tuple[Finding, ...]
    notes: tuple[SurfaceNote, ...]
    covers: tuple[Cover, ...]
    settings: tuple[Rule, ...]
    bare: tuple[str, ...] = ()
    class_factor: float = 1.0

    def note(self, surface_id: str) -> SurfaceNote:
        """Return the note on one surface of the problem."""
        return next(note for note in self.notes if note.surface == surface_id)

    @property
    def stands_in_the_way(self) -> tuple[Finding, ...]:
        """The findings that must be put right before anything can be laid out."""
        return tuple(f for f in self.findings if f.severity is Severity.PROBLEM)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Task:
    """What is known of one house surface before it becomes a surface of the problem."""

    surface: Surface
    cover: Cover
    day: int
    loss: tuple[int, int]
    drop: int
    longest: int
    widths: tuple[int, ...]


def board_problem(
    house: House, *, choices: BoardChoices, rules: RuleBook, boards: tuple[Board, ...]
) -> Prepared:
    """Turn the walls and ceilings of a house into a board layout problem.

    Parameters
    ----------
    house : House
    choices : BoardChoices
        What the instructor chose; choices outrank the rules on kinds, layers and direction.
    rules : RuleBook
        From `setday.boards.board_rules`, local rules put in.
    boards : tuple of Board
        The boards of the price list.

    Returns
    -------
    Prepared
        The problem, with every finding; a finding of severity "problem" means that no layout of the
        whole house can come of it.
    """
    decided, idle = covers(house, choices=choices, rules=rules)
    order, day_findings = hanging_order(house, choices=choices, rules=rules)
    losses = corner_losses(order, decided)
    surfaces: list[BoardSurface] = []
    notes: list[SurfaceNote] = []
    findings: list[Finding] = [*idle, *day_findings]
    for hung in order:
        task = _task(hung, house, decided, losses, choices, boards)
        if task.cover.layers <= 0:
            continue
        made, made_notes, made_findings = _made(task, house, rules, len(surfaces))
        surfaces += made
        notes += made_notes
        findings += made_findings
    labels = {surface.id: surface.label for surface in surfaces}
    findings += wide_gap_findings({labels[note.surface]: note.floor_gap for note in notes}, rules)
    findings += supply_findings(tuple(surfaces), boards, choices, house)
    return Prepared(
        problem=BoardProblem(surfaces=tuple(surfaces), boards=boards, rules=layout_rules(rules, choices)),
        findings=in_order(findings),
        notes=tuple(notes),
        covers=tuple(decided.values()),
        settings=tuple(rules),
        bare=tuple(c.surface for c in decided.values() if c.layers <= 0),
        class_factor=choices.class_factor,
    )


def layout_rules(rules: RuleBook, choices: BoardChoices) -> BoardRules:
    """Return the rules of layout as numbers for solver and verifier."""
    return BoardRules(
        stagger=rules.length("boards.stagger").sixtyfourths,
        stagger_one_spacing=rules.flag("boards.stagger_one_spacing"),
        opening_clear=rules.length("boards.opening_clear").sixtyfourths,
        least_piece=rules.length("boards.least_piece").sixtyfourths,
        least_row=rules.length("boards.least_row").sixtyfourths,
        butt_on_member=rules.flag("boards.butt_on_member"),
        trim_cut=rules.length("boards.trim_cut").sixtyfourths,
        offcuts=choices.offcuts or OffcutUse(rules.choice("boards.offcuts")),
        factory_edge_between_rows=rules.flag("boards.factory_edges"),
    )


def _task(
    hung: HungSurface,
    house: House,
    decided: dict[str, Cover],
    losses: dict[str, tuple[int, int]],
    choices: BoardChoices,
    boards: tuple[Board, ...],
) -> _Task:
    surface, cover = hung.surface, decided[hung.surface.id]
    return _Task(
        surface=surface,
        cover=cover,
        day=hung.day,
        loss=losses.get(surface.id, (0, 0)),
        drop=_ceiling_drop(surface, house, decided),
        longest=longest_carried(surface.room, cover.board_kind, choices, boards),
        widths=tuple(sorted({b.width for b in boards if b.kind == cover.board_kind})),
    )


def _ceiling_drop(surface: Surface, house: House, decided: dict[str, Cover]) -> int:
    """How far the ceiling boards of a room reach down on a wall, plumb [1/64 in]."""
    if surface.kind is HouseSurfaceKind.CEILING or not surface.top_meets_ceiling:
        return 0
    over = [s for s in house.surfaces if s.room == surface.room and s.kind is HouseSurfaceKind.CEILING]
    thick = max((decided[s.id].total.sixtyfourths for s in over), default=0)
    rises = [c.rise.sixtyfourths for c in house.description.ceilings if c.room == surface.room]
    return slant(thick, max(rises, default=0))


def _made(
    task: _Task, house: House, rules: RuleBook, start: int
) -> tuple[list[BoardSurface], list[SurfaceNote], list[Finding]]:
    outline, gap = _outline(task, rules)
    if not outline:
        return [], [], [_nothing_left(task.surface)]
    patches = [p for p in task.surface.wet if p.board != "none"]
    surfaces: list[BoardSurface] = []
    notes: list[SurfaceNote] = []
    findings: list[Finding] = list(edge_findings(task.surface))
    parts: list[WetPatch | None] = [None, *patches]
    for layer in range(1, task.cover.layers + 1):
        for part in parts:
            made = _part(task, house, rules, outline, part=part, layer=layer)
            if made is None:
                continue
            surface, note = made
            note = replace(note, floor_gap=gap)
            surfaces.append(replace(surface, sequence=start + len(surfaces)))
            notes.append(note)
    if surfaces:
        base = surfaces[0]
        for strip in return_strips(task.surface, house, base, thickness=task.cover.thickness, rules=rules):
            surfaces.append(replace(strip, sequence=start + len(surfaces)))
            notes.append(replace(notes[0], surface=strip.id, patch=strip.label))
        findings += spacing_findings(task.surface, task.cover, surfaces[0].rows[0], rules)
    return surfaces, notes, findings


def _outline(task: _Task, rules: RuleBook) -> tuple[Ring, int]:
    """Return what is to be covered, in house surface coordinates, and the floor gap."""
    ring: Ring = tuple((x.sixtyfourths, y.sixtyfourths) for x, y in task.surface.outline)
    if task.surface.kind is HouseSurfaceKind.CEILING:
        return ring, 0
    ring = lowered(ring, task.drop)
    left, right = task.loss
    ring = lengthened(ring, max(-left, 0), max(-right, 0))
    low, bottom, high, top = bounds(ring)
    gap = 0
    if bottom == 0 and task.surface.kind is HouseSurfaceKind.WALL:
        gap = floor_gap(top, task.widths, rules)
    box = (low + max(left, 0), max(bottom, gap), high - max(right, 0), top)
    return clipped(ring, box), gap


def _part(
    task: _Task, house: House, rules: RuleBook, outline: Ring, *, part: WetPatch | None, layer: int
) -> tuple[BoardSurface, SurfaceNote] | None:
    """One layer of the surface, or of one wet area on it."""
    ring = outline if part is None else clipped(outline, _patch_box(part))
    if not ring:
        return None
    left, bottom, _, _ = bounds(ring)
    dx, dy = -left, -bottom
    moved = shifted(ring, dx, dy)
    base = task.surface.id if part is None else f"{task.surface.id}:{_slug(part.name)}"
    kind = task.cover.board_kind if part is None else replace(task.cover, kind=part.board).board_kind
    rows, why = allowed_rows(task.surface, task.cover, bounds(moved), task.widths, task.longest, rules)
    surface = BoardSurface(
        id=_layer_id(base, layer),
        label=_label(task.surface, part, layer),
        room=task.surface.room,
        kind=SurfaceKind.CEILING if task.surface.kind is HouseSurfaceKind.CEILING else SurfaceKind.WALL,
        outline=moved,
        voids=_voids(task.surface, part, moved, dx, dy),
        members=joists(task.surface, house, moved, dx, dy),
        board_kind=kind,
        rows=rows,
        longest=task.longest,
        member_spacing=task.surface.member_spacing.sixtyfourths,
        sequence=0,
        day=task.day,
        layer=layer,
        over=_layer_id(base, layer - 1) if layer > 1 else "",
    )
    return surface, _note(task, surface, (dx, dy), part, why)


def _note(
    task: _Task, surface: BoardSurface, moved: tuple[int, int], part: WetPatch | None, why: str
) -> SurfaceNote:
    return SurfaceNote(
        surface=surface.id,
        house_surface=task.surface.id,
        dx=moved[0],
        dy=moved[1],
        floor_gap=0,
        left=task.loss[0],
        right=task.loss[1],
        top=task.drop,
        thickness=task.cover.thickness,
        patch=part.name if part else "",
        why_rows=why,
    )


def _layer_id(base: str, layer: int) -> str:
    return base if layer == 1 else f"{base}:{layer}"


def _slug(name: str) -> str:
    """Return the name of a wet area as part of an id; never just a number, which names a layer."""
    plain = "-".join("".join(c if c.isalnum() else " " for c in name.lower()).split())
    return f"wet-{plain}" if plain.isdigit() or not plain else plain


def _label(surface: Surface, part: WetPatch | None, layer: int) -> str:
    label = surface.label if part is None else f"{surface.label}, {part.name}"
    return label if layer == 1 else f"{label}, layer {layer}"


def _patch_box(patch: WetPatch) -> tuple[int, int, int, int]:
    x, y = patch.x.sixtyfourths, patch.y.sixtyfourths
    return (x, y, x + patch.w.sixtyfourths, y + patch.h.sixtyfourths)


def _voids(surface: Surface, part: WetPatch | None, outline: Ring, dx: int, dy: int) -> tuple[Void, ...]:
    """Return openings and bare places, and around wet areas those too, cut to the outline's box."""
    boxes = [(o.name, o.x, o.y, o.w, o.h) for o in surface.openings]
    boxes += [(p.name, p.x, p.y, p.w, p.h) for p in surface.wet if part is None or p.board == "none"]
    left, bottom, right, top = bounds(outline)
    found = []
    for name, x, y, w, h in boxes:
        a, b = max(x.sixtyfourths + dx, left), max(y.sixtyfourths + dy, bottom)
        c, d = min((x + w).sixtyfourths + dx, right), min((y + h).sixtyfourths + dy, top)
        if a < c and b < d and clipped(outline, (a, b, c, d)):
            found.append(Void(x=a, y=b, w=c - a, h=d - b, name=name))
    return tuple(found)


def _nothing_left(surface: Surface) -> Finding:
    return Finding(
        rule="boards.nothing-to-cover",
        about=surface.label,
        found=f"nothing of it is left once neighbouring boards and the floor gap are taken off "
        f"(it is {write_inches(surface.width)} wide).",
        do="Leave it bare by choice (layers: 0), or check its size.",
        severity=Severity.ASK,
    )
