"""Tape, bead and compound: lengths from the real joints and corners, beside the rules of thumb."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, hypot

from setday.boards.corners import corners
from setday.boards.joints import butt_joints, row_joints
from setday.boards.laidout import LaidOut, Ring
from setday.boards.problem import Surface as BoardSurface
from setday.boards.surfaces import Prepared
from setday.house import CeilingShape, House, OpeningKind, Surface, SurfaceKind
from setday.measure import Length
from setday.rules import RuleBook

__all__ = ["BeadLength", "FinishLengths", "RuleOfThumb", "finish_lengths", "tape_by_area"]

_INCHES_PER_FOOT = 12 * 64


@dataclass(frozen=True, slots=True, kw_only=True)
class BeadLength:
    """One piece of corner bead: where it goes and how long it is."""

    place: str
    label: str
    length: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishLengths:
    """What is taped and beaded, in feet of the outermost layer.

    Parameters
    ----------
    butt_ft, tapered_ft : float
        Butt joints, and joints between rows [ft].
    corner_ft, ceiling_ft, ridge_ft : float
        Upright inner corners, walls against ceilings, ridges of vaults [ft].
    bead : tuple of BeadLength
        Outer corners, lower edges of soffits, and boarded returns of openings.
    """

    butt_ft: float
    tapered_ft: float
    corner_ft: float
    ceiling_ft: float
    ridge_ft: float
    bead: tuple[BeadLength, ...]

    @property
    def tape_ft(self) -> float:
        """All tape, nothing added [ft]."""
        return self.butt_ft + self.tapered_ft + self.corner_ft + self.ceiling_ft + self.ridge_ft

    @property
    def bead_ft(self) -> float:
        """All bead, nothing added [ft]."""
        return sum(piece.length.feet for piece in self.bead)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleOfThumb:
    """What a rule of thumb says for an area: as read, with what is added, and in packages."""

    quantity: float
    with_extra: float
    packages: int


def tape_by_area(area_sqft: float, rules: RuleBook) -> RuleOfThumb:
    """Return the tape for an area by the rule of thumb [ft], and rolls.

    Parameters
    ----------
    area_sqft : float
        Board hung [ft2].
    rules : RuleBook

    References
    ----------
    Dagostino and Peterson, Estimating in Building Construction, page 203.
    """
    quantity = area_sqft * rules.number("boards.tape_per_1000") / 1000
    with_extra = quantity * (1 + rules.number("boards.tape_extra") / 100)
    rolls = ceil(round(with_extra / rules.number("boards.tape_roll"), 9))
    return RuleOfThumb(quantity=quantity, with_extra=with_extra, packages=rolls)


def finish_lengths(laid: LaidOut, prepared: Prepared, house: House, rules: RuleBook) -> FinishLengths:
    """Measure joints and corners on the layout and on the house."""
    covered = {note.house_surface for note in prepared.notes}
    outer = _outermost(laid)
    boarded = [surface for surface in house.surfaces if surface.id in covered]
    upright = [s for s in boarded if s.kind is not SurfaceKind.CEILING]
    met = corners(upright)
    under = {surface.id for surface in upright if surface.top_meets_ceiling}
    house_of = {note.surface: note.house_surface for note in prepared.notes if not note.patch}
    tops = sum(_upward(s.outline) for s in outer if house_of.get(s.id) in under)
    return FinishLengths(
        butt_ft=_feet(j.length for j in butt_joints(laid) if j.surface in {s.id for s in outer}),
        tapered_ft=_feet(j.length for j in row_joints(laid) if j.surface in {s.id for s in outer}),
        corner_ft=_feet(corner.height for corner in met if corner.inside),
        ceiling_ft=tops / _INCHES_PER_FOOT,
        ridge_ft=sum(_ridge_ft(room.name, house, boarded) for room in house.rooms),
        bead=(
            *(_corner_bead(c.left, c.height) for c in met if not c.inside and c.height),
            *(_soffit_bead(s) for s in upright if s.kind is SurfaceKind.SOFFIT_SIDE),
            *_return_beads(boarded, rules),
        ),
    )


def _outermost(laid: LaidOut) -> list[BoardSurface]:
    below = {surface.over for surface in laid.problem.surfaces}
    return [surface for surface in laid.problem.surfaces if surface.id not in below]


def _feet(lengths: Iterable[int]) -> float:
    return sum(lengths) / _INCHES_PER_FOOT


def _upward(ring: Ring) -> float:
    """Return the length of the edges that look up: those a counter-clockwise ring runs leftward."""
    pairs = zip(ring, (*ring[1:], *ring[:1]), strict=True)
    return sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairs if x1 < x0)


def _ridge_ft(room: str, house: House, boarded: list[Surface]) -> float:
    """Return the length of a vault's ridge: the side along it that its two planes share."""
    typed = next((c for c in house.description.ceilings if c.room == room), None)
    planes = [s for s in boarded if s.room == room and s.kind is SurfaceKind.CEILING]
    if typed is None or typed.shape is not CeilingShape.VAULT or len(planes) < 2:
        return 0.0
    across = typed.framing_runs is not typed.ridge_runs
    return min((s.width if across else s.height).feet for s in planes)


def _corner_bead(surface: Surface, height: int) -> BeadLength:
    return BeadLength(
        place=surface.room, label=f"outer corner at the right end of {surface.label}", length=Length(height)
    )


def _soffit_bead(surface: Surface) -> BeadLength:
    return BeadLength(place=surface.room, label=f"lower edge of {surface.label}", length=surface.width)


def _return_beads(boarded: list[Surface], rules: RuleBook) -> Iterable[BeadLength]:
    if rules.choice("boards.returns") != "board":
        return
    for surface in boarded:
        for opening in surface.openings:
            if opening.kind == OpeningKind.DOOR.value:
                continue
            for label, length in (("head", opening.w), ("left side", opening.h), ("right side", opening.h)):
                yield BeadLength(
                    place=surface.room, label=f"{label} of {opening.name}, {surface.label}", length=length
                )
