"""The count by area beside the count by layout, for the boards of a room."""

from typing import TYPE_CHECKING, Any

from django.utils.translation import ngettext

from setday.web.boards.figuring import figured, run_in_force
from setday.web.keeping.models import SealedOffer

if TYPE_CHECKING:
    from setday.learning import Diagnoser

__all__ = ["area_and_layout"]


def area_and_layout(offer: SealedOffer, diagnoser: "Diagnoser") -> dict[str, Any] | None:
    """Return both counts of a room's boards; None for another figure, or where nothing is laid out yet."""
    figure = diagnoser.figure
    run = run_in_force(offer.version) if figure.kind == "boards by area" else None
    found = figured(run) if run is not None else None
    if found is None or found.outcome.layout is None:
        return None
    rooms = {surface.id: surface.room for surface in found.prepared.problem.surfaces}
    served: dict[int, set[str]] = {}
    for piece in found.outcome.layout.pieces:
        served.setdefault(piece.board, set()).add(rooms[piece.surface])
    here = [rooms_of for rooms_of in served.values() if figure.room in rooms_of]
    shared = sum(len(rooms_of) > 1 for rooms_of in here)
    words = ngettext(
        "By layout, a board counts for the room where it has a piece; %(n)d serves other rooms, too.",
        "By layout, a board counts for the room where it has a piece; %(n)d serve other rooms, too.",
        shared,
    )
    return {
        "area": f"{diagnoser.right[figure.last.key]:.0f}",
        "layout": len(here),
        "words": words % {"n": shared},
    }
