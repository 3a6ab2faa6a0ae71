"""Check-offs, confirmations, refusals and overrulings: every form counts once, however often it is sent."""

from typing import TYPE_CHECKING

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST

from setday.closein import GateRefusal, MarkKind
from setday.errors import SetdayError
from setday.web.entries import entry_of, kept, not_theirs, refused
from setday.web.gates.house import GateSheet, gate_sheet
from setday.web.gates.saying import Typed, said_of
from setday.web.gates.views_surface import show_surface
from setday.web.gates.words import group_of
from setday.web.keeping.turns import in_turn
from setday.web.photos.keeping import keep_photo, photo_key
from setday.web.photos.reading import read_photo

if TYPE_CHECKING:
    from setday.actions.gates.marks import Wish
    from setday.closein import Gate

__all__ = ["judge", "mark", "overrule", "refused_again"]


@require_POST
def mark(request: HttpRequest, key: str, surface: str) -> HttpResponse:
    """Check things off, or take a check-off back."""
    return _marked(request, key, surface, {"done": MarkKind.DONE, "back": MarkKind.TAKEN_BACK})


@require_POST
def judge(request: HttpRequest, key: str, surface: str) -> HttpResponse:
    """Confirm or refuse what was checked off."""
    return _marked(request, key, surface, {"confirm": MarkKind.CONFIRMED, "refuse": MarkKind.REFUSED})


@require_POST
def overrule(request: HttpRequest, key: str, surface: str) -> HttpResponse:
    """Let a surface be closed without something, or take that back."""
    return _marked(request, key, surface, {"overrule": MarkKind.OVERRULED, "withdraw": MarkKind.WITHDRAWN})


def _marked(request: HttpRequest, key: str, surface: str, kinds: dict[str, MarkKind]) -> HttpResponse:
    sheet = gate_sheet(request, key)
    gate = sheet.gate(surface)
    turned = not_theirs(request)
    if turned is not None:
        return turned
    wanted = request.POST.get("do", "")
    if wanted not in kinds:
        unsaid = GateRefusal(_("The form does not say what to do."), do=_("Press a button."))
        return refused_again(request, sheet, surface, unsaid)
    items = _meant(request, gate, kinds[wanted])
    try:
        wish = _made(request, sheet, surface, items, kinds[wanted])
    except SetdayError as error:
        return refused_again(request, sheet, surface, error)
    if wish.refused:
        return refused_again(request, sheet, surface, *wish.refused, made=len(wish.made))
    to = reverse("gates:surface", kwargs={"key": key, "surface": surface})
    return kept(request, to, said=_told(kinds[wanted], len(wish.made) + len(wish.again)))


def _meant(request: HttpRequest, gate: "Gate", kind: MarkKind) -> list[str]:
    """Return the things that a form means: ticked one by one, or all of a group that the mark can be for."""
    groups = set(request.POST.getlist("group"))
    able = {MarkKind.DONE: gate.missing, MarkKind.REFUSED: gate.waiting, MarkKind.TAKEN_BACK: gate.waiting}
    every = [s.item.key for s in able.get(kind, gate.open_items) if group_of(s.item) in groups]
    return [*request.POST.getlist("item"), *every]


def _made(request: HttpRequest, sheet: GateSheet, surface: str, items: list[str], kind: MarkKind) -> "Wish":
    from setday.actions.gates.marks import make_marks

    if not items:
        raise GateRefusal(_("Nothing is ticked."), do=_("Tick what you mean, then press the button."))
    photo = read_photo(request.FILES.get("photo"))
    entry, house = str(entry_of(request)), sheet.sheet.house
    name = photo_key(house, entry)
    said = said_of(request, entry=entry, photo=str(name) if photo else "")
    whole = request.POST.get("everywhere") == "yes"
    with in_turn():
        wish = make_marks(sheet.store, sheet.place, surface, items, kind=kind, said=said, whole_house=whole)
        if photo is not None and wish.made:
            keep_photo(house, photo, key=name, by=said.by.name)
    return wish


def refused_again(
    request: HttpRequest, sheet: GateSheet, surface: str, *whys: SetdayError, made: int = 0
) -> HttpResponse:
    """Show the sheet again with what was typed and why it is refused; to the tablets' script, say why."""
    told = [str(each) for each in whys]
    if made:
        told.insert(0, ngettext("%(n)d mark was made.", "%(n)d marks were made.", made) % {"n": made})
        messages.success(request, told[0])
    page = show_surface(request, GateSheet(sheet.sheet), surface, typed=Typed.of(request, list(whys)))
    return refused(request, page, said=" ".join(dict.fromkeys(told)))


def _told(kind: MarkKind, count: int) -> str:
    words = {
        MarkKind.DONE: ngettext("%(n)d thing is checked off.", "%(n)d things are checked off.", count),
        MarkKind.TAKEN_BACK: ngettext(
            "%(n)d check-off is taken back.", "%(n)d check-offs are taken back.", count
        ),
        MarkKind.CONFIRMED: ngettext("%(n)d thing is confirmed.", "%(n)d things are confirmed.", count),
        MarkKind.REFUSED: ngettext("%(n)d thing is refused.", "%(n)d things are refused.", count),
        MarkKind.OVERRULED: ngettext("%(n)d thing is overruled.", "%(n)d things are overruled.", count),
        MarkKind.WITHDRAWN: ngettext(
            "%(n)d overruling is taken back.", "%(n)d overrulings are taken back.", count
        ),
    }
    return words[kind] % {"n": count}
