"""Members of one wall: what stands upright, what lies, and where there is room for it."""

from dataclasses import dataclass

from setday.house.description import TypedOpening
from setday.house.lumber import THICK
from setday.house.model import FramingMember, MemberKind, Opening
from setday.house.placing import PlacedWall, from_inches
from setday.house.rulebook import FramingHabits
from setday.house.wall_top import Top, height_at
from setday.measure import Length

__all__ = ["Frame", "clash", "has_room", "in_opening", "layout_centers", "level", "upright"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What a wall's framing is figured from: run and openings in inches along the framing."""

    wall: PlacedWall
    openings: tuple[Opening, ...]
    typed: dict[str, TypedOpening]
    top: Top
    habits: FramingHabits

    @property
    def run(self) -> float:
        """Length of the framing [in]."""
        return self.wall.frame_end - self.wall.frame_start

    @property
    def base(self) -> float:
        """Top of the bottom plates [in]."""
        return THICK * self.wall.kind.plates_below

    def under_plates(self, along: float) -> float:
        """Return the height of the underside of the top plates [in]."""
        return height_at(self.top, along) - THICK * self.wall.kind.plates_above


def upright(kind: MemberKind, center: float, frame: Frame, *, bottom: float | None = None) -> FramingMember:
    """Return a member that stands from the bottom plates, or from `bottom`, to the top plates [in]."""
    left, right = center - THICK / 2, center + THICK / 2
    return FramingMember(
        kind=kind,
        left=from_inches(left),
        right=from_inches(right),
        bottom=from_inches(frame.base if bottom is None else bottom),
        top_left=from_inches(frame.under_plates(left)),
        top_right=from_inches(frame.under_plates(right)),
    )


def level(kind: MemberKind, left: float, right: float, bottom: float, top: float) -> FramingMember:
    """Return a member that lies level [in]."""
    return FramingMember(
        kind=kind,
        left=from_inches(left),
        right=from_inches(right),
        bottom=from_inches(bottom),
        top_left=from_inches(top),
        top_right=from_inches(top),
    )


def has_room(member: FramingMember, standing: list[FramingMember], frame: Frame) -> bool:
    """Tell whether a member fits between the wall's ends, its openings and what stands there."""
    inside = Length(0) <= member.left and member.right <= from_inches(frame.run)
    return inside and not in_opening(member, frame) and not any(clash(member, m) for m in standing)


def in_opening(member: FramingMember, frame: Frame) -> bool:
    """Tell whether a member would stand in an opening."""
    return any(
        member.right > o.along and member.left < o.along + o.width and member.top_left > o.sill
        for o in frame.openings
    )


def clash(a: FramingMember, b: FramingMember) -> bool:
    """Tell whether two members take the same place along the wall."""
    return a.left < b.right and b.left < a.right


def layout_centers(wall: PlacedWall) -> list[float]:
    """Return the centres of the stud layout along a wall's framing [in]."""
    run = wall.frame_end - wall.frame_start
    spacing = (wall.typed.spacing or wall.kind.spacing).inches
    offset = wall.typed.layout_offset.inches
    from_start = [offset + n * spacing for n in range(-1, int(run / spacing) + 2)]
    marks = [run - at for at in from_start] if wall.typed.layout_from_end else from_start
    return sorted(at for at in marks if THICK <= at <= run - THICK)
