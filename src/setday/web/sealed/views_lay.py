"""Boards laid by finger on the drawn wall: nothing is kept until it is handed in."""

import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.errors import SetdayError
from setday.web.entries import fresh_entry, kept, not_theirs, refused, who_enters
from setday.web.keeping.models import Member, SealedEntry, SealedOffer
from setday.web.people.who import members_present
from setday.web.sealed.entering import Handed, hand_in, sealed_for
from setday.web.sealed.figures import figure_in
from setday.web.sealed.views_crew import state_of
from setday.web.sealed.walls import best_known, laid_from, laid_picture, laid_row, wall_of, written_from

if TYPE_CHECKING:
    from setday.learning import LaidBoard, LaidWall, WallToLay

__all__ = ["sheet"]


@dataclass(slots=True, kw_only=True)
class Bench:
    """The boards on a wall as a form has them, and why the last one is not among them."""

    wall: "WallToLay"
    laid: "list[LaidBoard]" = field(default_factory=list)
    refused: list[str] = field(default_factory=list)

    @property
    def done(self) -> "LaidWall":
        """What the boards come to."""
        from setday.learning import lay

        return lay(self.wall, self.laid)


@require_http_methods(["GET", "HEAD", "POST"])
def sheet(request: HttpRequest, number: int) -> HttpResponse:
    """Show the wall with the boards laid so far; lay one more, take one back, hand in."""
    here = members_present(request)
    if not here:
        return redirect("houses:list")
    offer = get_object_or_404(sealed_for(here[0]), pk=number, by_layout=True)
    wall = wall_of(offer.version, offer.figure)
    if wall is None:
        raise Http404
    bench = Bench(wall=wall, laid=_typed(request, wall))
    do = request.POST.get("do", "")
    if do == "lay":
        _lay_one(request, bench)
    elif do == "back":
        bench.laid = bench.laid[:-1]
    elif do == "anew":
        bench.laid = []
    elif do == "hand-in":
        return _told(request, offer, here[0], bench)
    return _shown(request, offer, here[0], bench)


def _told(request: HttpRequest, offer: SealedOffer, member: Member, bench: Bench) -> HttpResponse:
    """Take a wall that is handed in, which may have waited on the tablet, and say what came of it."""
    turned = not_theirs(request)
    if turned is not None:
        return turned
    if _handed_in(request, offer, bench):
        return kept(request, reverse("sealed:lay", kwargs={"number": offer.pk}), said=_("Handed in."))
    return refused(request, _shown(request, offer, member, bench), said=" ".join(bench.refused))


def _typed(request: HttpRequest, wall: "WallToLay") -> "list[LaidBoard]":
    """Return the boards that a form carries; those that cannot lie there are dropped."""
    from setday.learning import lay

    try:
        laid = laid_from(json.loads(request.POST.get("laid", "[]")[:4000]))
        lay(wall, laid)
    except (ValueError, SetdayError):
        return []
    return laid


def _lay_one(request: HttpRequest, bench: Bench) -> None:
    from setday.learning import LaidBoard, lay

    row, end = request.POST.get("row", ""), request.POST.get("end", "")
    if not (row.isdecimal() and end.isdecimal() and len(row) < 4 and len(end) < 9):
        bench.refused.append(_("Choose a row and where the board ends."))
        return
    one = LaidBoard(row=int(row), end=int(end), offcut=request.POST.get("offcut") == "yes")
    try:
        lay(bench.wall, [*bench.laid, one])
    except SetdayError as error:
        bench.refused.append(f"{_(error.message)} {_(error.do)}".strip())
        return
    bench.laid.append(one)


def _handed_in(request: HttpRequest, offer: SealedOffer, bench: Bench) -> bool:
    done = bench.done
    if not done.complete:
        bench.refused.append(_("The wall is not covered yet."))
        return False
    handed = Handed(answer=f"{done.boards}", boards=written_from(bench.laid))
    try:
        hand_in(request, offer, handed)
    except SetdayError as error:
        bench.refused.append(str(error))
        return False
    return True


def _shown(request: HttpRequest, offer: SealedOffer, member: Member, bench: Bench) -> HttpResponse:
    entries = list(SealedEntry.objects.filter(offer=offer, member=member).order_by("pk"))
    state, done = state_of(offer, member), bench.done
    words: dict[str, Any] = {
        "offer": offer,
        "title": figure_in(offer).title,
        "state": state,
        "member": member,
        "entries": entries,
        "bench": bench,
        "done": done,
        "waste": round(100 * done.waste_share),
        "butt_ft": done.butt_joint / 768,
        "row_ft": done.row_joint / 768,
        "drawings": laid_picture(bench.wall, done, key="lay", touch=state.may_try),
        "rows": [(row, row + 1) for row in range(bench.wall.rows)],
        "ends": _ends(bench.wall),
        "chosen_row": _next_row(bench, done),
        "chosen_offcut": request.POST.get("offcut") == "yes",
        "laid": json.dumps(written_from(bench.laid)),
        "entry": request.POST.get("entry") or fresh_entry(),
        "who": who_enters(request),
    }
    if state.may_see:
        words |= {"best": best_known(offer), "shown": [laid_row(offer, entry) for entry in entries]}
    return render(request, "sealed/lay.html", words, status=422 if bench.refused else 200)


def _next_row(bench: Bench, done: "LaidWall") -> int:
    """Return the row that is chosen beforehand: the last one laid in, or the next that is open."""
    open_rows = [n for n, x in enumerate(done.reached) if x < bench.wall.surface.width]
    last = bench.laid[-1].row if bench.laid else 0
    return last if last in open_rows else next(iter(open_rows), 0)


def _ends(wall: "WallToLay") -> list[tuple[int, str]]:
    from setday.measure import Length

    places = [(x, f"{n}: {Length(x)}") for n, x in enumerate(wall.snaps[:-1], start=1)]
    return [*places, (wall.snaps[-1], _("the end of the wall: %(at)s") % {"at": Length(wall.snaps[-1])})]
