"""What the gates must not show a student while figures of the house are sealed for their class."""

from typing import TYPE_CHECKING

from django.http import HttpRequest

from setday.drawing import surface_sketch
from setday.web.access import Role, role_of
from setday.web.houses.drawings import Drawings, both

if TYPE_CHECKING:
    from setday.actions.bells.sealed import Withheld
    from setday.closein import Gate
    from setday.web.gates.house import GateSheet

__all__ = ["only_sketched", "sketched", "withheld_here"]


def withheld_here(request: HttpRequest, sheet: "GateSheet") -> "Withheld":
    """Return what sealed figures keep from whoever looks: nothing but from students."""
    from setday.actions.bells.sealed import NOTHING
    from setday.web.period.bells import withheld_from

    if role_of(request) is not Role.MEMBER:
        return NOTHING
    return withheld_from(sheet.sheet.version, request.member.school_class)


def only_sketched(withheld: "Withheld", sheet: "GateSheet", gate: "Gate") -> bool:
    """Return whether what is behind a surface is shown without measures: its own, or those of the wiring."""
    return withheld.wiring or withheld.sketches(sheet.place.house.surface(gate.surface))


def sketched(sheet: "GateSheet", gate: "Gate") -> Drawings:
    """Draw a surface without its measures."""
    surface = sheet.place.house.surface(gate.surface)
    return both(lambda paper, key: surface_sketch(surface, paper=paper, key=key), key="behind")
