"""The rules that ways of cables follow in one house, as bare numbers."""

from dataclasses import dataclass

from setday.cable.routes.bit import refusal
from setday.house import House, Wall
from setday.rules import RuleBook

__all__ = ["RouteRules", "route_rules"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteRules:
    """What a way must keep to; lengths in 1/64 in.

    Parameters
    ----------
    hole_height : int
        Of the line of holes along the walls, above the subfloor.
    over_header, least_gap, end_wood, hole_apart : int
        As in the rules `cable.over_header` and so on.
    hole_diameter : int
    cables_in_hole : int
    joists : bool
        True when the ceilings hang on joists, which may be bored; False for trusses, which may not.
    joist_depth : int
    under_floor : str
        "never", "home runs" or "any".
    under_floor_depth : int
    box_tail, set_slack, cut_mark, cut_reserve : int
    drape_percent : float
    closed : frozenset of str
        Walls that no cable may run in.
    book : RuleBook
        Where all this was read.
    """

    hole_height: int
    over_header: int
    least_gap: int
    end_wood: int
    hole_apart: int
    hole_diameter: int
    cables_in_hole: int
    joists: bool
    joist_depth: int
    under_floor: str
    under_floor_depth: int
    box_tail: int
    set_slack: int
    cut_mark: int
    cut_reserve: int
    drape_percent: float
    closed: frozenset[str]
    book: RuleBook

    def bore_through(self, wall: Wall) -> str | None:
        """Say why a wall's studs may not be bored with the chosen bit; None where they may."""
        return refusal(
            self.hole_diameter, wall.kind.depth.sixtyfourths, bearing=wall.kind.bearing, book=self.book
        )

    @property
    def from_below(self) -> bool:
        """Whether any run may go under the floor."""
        return self.under_floor != "never"


def route_rules(house: House, book: RuleBook) -> RouteRules:
    """Return the rules of ways for one house.

    Parameters
    ----------
    house : House
        Its file may set the height of the holes, walls to stay out of, and the slack for the set; a slab
        leaves no way under the floor.
    book : RuleBook
        The rules of cable in force.
    """

    def sixtyfourths(key: str) -> int:
        return book.length(f"cable.{key}").sixtyfourths

    height, panel = house.wiring.hole_height, house.wiring.panel
    slack = panel.set_slack if panel else None
    slab = house.foundation.kind == "slab"
    return RouteRules(
        hole_height=sixtyfourths("hole_height") if height is None else height.sixtyfourths,
        over_header=sixtyfourths("over_header"),
        least_gap=sixtyfourths("least_gap"),
        end_wood=sixtyfourths("end_wood"),
        hole_apart=sixtyfourths("hole_apart"),
        hole_diameter=sixtyfourths("hole_diameter"),
        cables_in_hole=int(book.number("cable.cables_in_hole")),
        joists=book.choice("cable.ceiling_framing") == "joists",
        joist_depth=sixtyfourths("ceiling_joist_depth"),
        under_floor="never" if slab else book.choice("cable.under_floor"),
        under_floor_depth=sixtyfourths("under_floor_depth"),
        box_tail=sixtyfourths("box_tail"),
        set_slack=sixtyfourths("set_slack") if slack is None else slack.sixtyfourths,
        cut_mark=sixtyfourths("cut_mark"),
        cut_reserve=sixtyfourths("cut_reserve"),
        drape_percent=book.number("cable.drape_percent"),
        closed=frozenset(house.wiring.closed_walls),
        book=book,
    )
