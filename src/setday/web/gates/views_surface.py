"""The gate of one surface: what is behind it, what is missing, who did and saw the rest."""

from typing import TYPE_CHECKING, Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from setday.closein import GateState, ItemKind, ItemState, MarkKind, Role
from setday.web.access import Role as SiteRole
from setday.web.access import role_of
from setday.web.entries import fresh_entry, who_enters
from setday.web.gates.house import GateSheet, gate_sheet
from setday.web.gates.pictures import behind_pictures
from setday.web.gates.saying import Typed, signers_of
from setday.web.gates.withheld import only_sketched, sketched, withheld_here
from setday.web.gates.words import added_choices, group_of, group_word, item_word, state_word

if TYPE_CHECKING:
    from setday.closein import Gate, Signer, Stand

__all__ = ["show_surface", "surface"]


@require_safe
def surface(request: HttpRequest, key: str, surface: str) -> HttpResponse:
    """Show the gate of a surface."""
    return show_surface(request, gate_sheet(request, key), surface)


def show_surface(
    request: HttpRequest, sheet: GateSheet, surface: str, *, typed: Typed | None = None
) -> HttpResponse:
    """Show the gate of a surface, with a form that was refused as it was typed."""
    gate = sheet.gate(surface)
    signers = signers_of(request)
    words = {
        "gate": gate,
        "state": state_word(gate.state),
        "typed": typed or Typed(),
        "entry": fresh_entry(),
        "who": who_enters(request),
        "now": timezone.now(),
        "signers": signers,
        **_what_may_be_done(request, sheet, gate, signers),
        **_pictures_and_lists(request, sheet, gate),
    }
    return render(request, "gates/surface.html", sheet.context(request, **words))


def _what_may_be_done(
    request: HttpRequest, sheet: GateSheet, gate: "Gate", signers: "tuple[Signer, ...]"
) -> dict[str, Any]:
    """Return which forms stand on the page, by who looks at it and how far the surface is."""
    role = signers[0].role if signers else Role.READER
    is_open = gate.state is not GateState.CLOSED
    instructor = role is Role.INSTRUCTOR
    return {
        "may_check_off": is_open and role in {Role.STUDENT, Role.HELPER} and bool(gate.missing),
        "may_judge": is_open and (instructor or (role is Role.HELPER and sheet.store.helper_confirms)),
        "may_overrule": is_open and instructor,
        "may_close": instructor and gate.state.may_close,
        "may_open": instructor and not is_open,
        "may_add": is_open and instructor,
        "names_shown": role_of(request) is not SiteRole.READER,
        "records_shown": role in {Role.INSTRUCTOR, Role.HELPER},
        "choices": added_choices(),
        "has_inspection": any(each.item.kind is ItemKind.INSPECTION for each in gate.open_items),
    }


def _pictures_and_lists(request: HttpRequest, sheet: GateSheet, gate: "Gate") -> dict[str, Any]:
    """Return what is behind the surface; without measures to a student for whom they are sealed."""
    from setday.actions.gates.closing import behind_rows

    if only_sketched(withheld_here(request, sheet), sheet, gate):
        return {
            "drawings": sketched(sheet, gate),
            "withheld": True,
            **_lists(request, sheet, gate, spots=False),
        }
    pictures = {"drawings": behind_pictures(sheet, gate), "table": behind_rows(sheet.place, gate)}
    return {**pictures, **_lists(request, sheet, gate, spots=True)}


def _lists(request: HttpRequest, sheet: GateSheet, gate: "Gate", *, spots: bool) -> dict[str, Any]:
    """Return the things of the gate, those in the way first, each with who did and saw it."""
    signers = signers_of(request)
    cards = [
        {**_card(gate, each, signers), "spot": spots and each.item.spot}
        for each in (*gate.items, *gate.behind)
    ]
    order = (ItemState.REFUSED, ItemState.OPEN, ItemState.DONE, ItemState.OVERRULED, ItemState.CONFIRMED)
    cards.sort(key=lambda card: order.index(card["stand"].state))
    return {
        "to_do_groups": _grouped([c for c in cards if c["stand"].missing]),
        "groups": _grouped([c for c in cards if not c["stand"].settled]),
        "to_do": [c for c in cards if c["stand"].missing],
        "to_see": [c for c in cards if not c["stand"].settled and not c["stand"].missing],
        "checked_off": [
            c
            for c in cards
            if c["stand"].state is ItemState.DONE and c["item"].kind is not ItemKind.INSPECTION
        ],
        "in_the_way": [c for c in cards if not c["stand"].settled],
        "settled": [c for c in cards if c["stand"].settled],
        "others": [{"surface": other, "label": sheet.asked.labels[other]} for other in gate.other_sides],
        "closings": _closings(sheet, gate),
    }


def _grouped(cards: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Put like things together, in the order in which the first of each comes."""
    found: dict[str, list[dict[str, Any]]] = {}
    for card in cards:
        found.setdefault(group_of(card["item"]), []).append(card)
    return [{"key": key, "words": group_word(key), "cards": listed} for key, listed in found.items()]


def _card(gate: "Gate", stand: "Stand", signers: "tuple[Signer, ...]") -> dict[str, Any]:
    """Return a thing with what may be told of it: a student sees no other student's name."""
    student = bool(signers) and signers[0].role is Role.STUDENT
    done = stand.done
    held = stand.last_of(MarkKind.OVERRULED) if stand.state is ItemState.OVERRULED else None
    refused = stand.last if stand.state is ItemState.REFUSED else None
    return {
        "stand": stand,
        "item": stand.item,
        "state": item_word(stand.state, kind=stand.item.kind),
        "other_side": stand.item.surface != gate.surface,
        "reason": held or refused,
        "doer": done.by.name if done and (not student or done.by.key in {s.key for s in signers}) else "",
        "photos": list(dict.fromkeys(mark.photo for mark in stand.marks if mark.photo)),
        "added": stand.item.kind is not ItemKind.TRADE
        and stand.item.key.startswith(("blocking/", "added/"))
        and stand.item.key.partition("/")[2],
    }


def _closings(sheet: GateSheet, gate: "Gate") -> list[dict[str, Any]]:
    """Return when the surface was closed, newest first."""
    closed = [
        mark
        for mark in sheet.store.marks({gate.surface})
        if mark.kind in {MarkKind.CLOSED, MarkKind.REOPENED}
    ]
    return [{"mark": mark, "closed": mark.kind is MarkKind.CLOSED} for mark in reversed(closed)]
