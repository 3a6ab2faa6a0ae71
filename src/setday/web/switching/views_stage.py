"""The stage built from forms: boxes, cables, devices, the feed, paths and wants."""

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from setday.errors import SetdayError
from setday.findings import Finding, Severity
from setday.web.keeping.hookups import add_hookup_version, keep_hookup, read_kept
from setday.web.keeping.models import House
from setday.web.switching.forms_stage import (
    BoxForm,
    CableForm,
    DeviceForm,
    FeedForm,
    PathForm,
    StagePart,
    WantForm,
)
from setday.web.switching.pictures import rest_pictures
from setday.web.switching.sheet import HookupSheet, sound_sheet

if TYPE_CHECKING:
    from setday.switching import Hookup

__all__ = ["build", "stage"]

_FORMS: dict[str, type[StagePart]] = {
    form.part: form for form in (BoxForm, DeviceForm, FeedForm, CableForm, PathForm, WantForm)
}
_NEW = """setday hookup: 1
name: {name}
feed:
  box: box 1
  cable: 14/2
  length: 30 ft
  breaker: 15 A
boxes:
  box 1: {{}}
"""


@require_http_methods(["GET", "HEAD", "POST"])
def build(request: HttpRequest) -> HttpResponse:
    """Build a new hookup; nothing is kept before the button that says so."""
    return _building(request, None)


@require_http_methods(["GET", "HEAD", "POST"])
def stage(request: HttpRequest, key: str) -> HttpResponse:
    """Change what stands on the stage of a hookup."""
    return _building(request, sound_sheet(request, key))


def _building(request: HttpRequest, sheet: HookupSheet | None) -> HttpResponse:
    text = request.POST.get("text", "") or (
        sheet.version.text if sheet else _NEW.format(name=_("New hookup"))
    )
    read = read_kept(text[:200_000], "hookup.yaml")
    if read.hookup is None:
        messages.warning(request, _("That draft could not be read; the stage begins as it was kept."))
        return redirect(sheet.address("switching:stage") if sheet else "switching:build")
    draft = read.hookup
    refused: tuple[Finding, ...] = ()
    bound: StagePart | None = None
    if request.method == "POST":
        if request.POST.get("do") == "keep":
            return _kept(request, sheet, _renamed(draft, request.POST.get("called", "")))
        draft, refused, bound = _changed(request, draft)
    words = _words(draft, refused, bound, changed=request.method == "POST")
    page = sheet.context(**words) if sheet else words
    status = 422 if refused or (bound and not bound.is_valid()) else 200
    return render(request, "switching/stage.html" if sheet else "switching/build.html", page, status=status)


def _changed(request: HttpRequest, draft: "Hookup") -> "tuple[Hookup, tuple[Finding, ...], StagePart | None]":
    """Put a thing on the stage, or take one off; what would not fit together is refused in words."""
    from setday.switching import check

    draft = _renamed(draft, request.POST.get("called", ""))
    bound: StagePart | None = None
    if request.POST.get("add") in _FORMS:
        bound = _FORMS[request.POST["add"]](draft, request.POST)
        if not bound.is_valid():
            return draft, (), bound
        wanted = bound.put()
    else:
        wanted = _taken_off(draft, request.POST.get("off", ""))
    problems = tuple(f for f in check(wanted) if f.severity is Severity.PROBLEM)
    return (draft, problems, bound) if problems else (wanted, (), None)


def _renamed(draft: "Hookup", name: str) -> "Hookup":
    from dataclasses import replace

    plain = " ".join(name.split())[:200]
    return replace(draft, name=plain) if plain else draft


def _taken_off(draft: "Hookup", named: str) -> "Hookup":
    from setday.switching import without_box, without_cable, without_device, without_path, without_want

    kind, _colon, name = named.partition(":")
    if kind == "path":
        return without_path(draft, int(name)) if name.isdecimal() and len(name) < 5 else draft
    remove = {"box": without_box, "cable": without_cable, "device": without_device, "want": without_want}
    return remove[kind](draft, name) if kind in remove else draft


def _words(
    draft: "Hookup", refused: tuple[Finding, ...], bound: StagePart | None, *, changed: bool
) -> dict[str, Any]:
    from setday.files import write_hookup
    from setday.switching import check

    return {
        "draft": draft,
        "text": write_hookup(draft),
        "refused": refused,
        "changed": changed,
        "asks": [] if refused else check(draft),
        "forms": {part: _form(form, draft, bound) for part, form in _FORMS.items()},
        "open_part": bound.part if bound else "",
        "drawings": rest_pictures(draft, key="stage"),
        "paths": list(enumerate(draft.paths)),
    }


def _form(form: type[StagePart], draft: "Hookup", bound: StagePart | None) -> StagePart:
    if bound is not None and bound.part == form.part:
        return bound
    return form(draft, initial=_initial(form.part, draft))


def _initial(part: str, draft: "Hookup") -> dict[str, Any]:
    feed = draft.feed
    size = feed.kind.partition("/")[0]
    return {
        "cable": {"name": f"N{len(draft.cables) + 1}", "kind": f"{size}/3"},
        "feed": {
            "box": feed.box,
            "kind": feed.kind,
            "length": str(feed.length),
            "breaker": f"{feed.breaker_a:g}",
        },
    }.get(part, {})


def _kept(request: HttpRequest, sheet: HookupSheet | None, draft: "Hookup") -> HttpResponse:
    from setday.files import write_hookup

    text = write_hookup(draft)
    read = read_kept(text, "hookup.yaml")
    if read.hookup is None:
        raise SetdayError(
            "\n".join(str(finding) for finding in read.problems), do=_("Go back and put it right.")
        )
    if sheet is None:
        house = House.objects.of(request.school).filter(key=request.GET.get("house", "")).first()
        kept = keep_hookup(
            school=request.school, house=house, name=draft.name, file_name="hookup.yaml", text=text
        )
        messages.success(request, _("%(hookup)s is kept as version 1.") % {"hookup": kept.name})
        return redirect("switching:draw", key=kept.key)
    version = add_hookup_version(
        sheet.kept, name=draft.name, file_name=sheet.version.file_name, text=text, note=_("stage changed")
    )
    messages.success(request, _("Kept as version %(number)d.") % {"number": version.number})
    return redirect("switching:draw", key=sheet.kept.key)
