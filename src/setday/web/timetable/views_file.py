"""The class file of a house: sent in, checked, kept as a version, shown line by line, handed out."""

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from setday.web.file_form import handed_out
from setday.web.half_filled import TYPED, refill
from setday.web.houses.found import counts, found_in
from setday.web.houses.listing import listed, unplaced
from setday.web.keeping.class_files import add_class_file, class_file_of
from setday.web.timetable.forms import ClassFileForm
from setday.web.timetable.past import passed
from setday.web.timetable.sheet import TimetableSheet, timetable_sheet

if TYPE_CHECKING:
    from setday.files import ClassFile

__all__ = ["check", "download", "edit", "file"]

_KEPT = 12


@lru_cache(maxsize=_KEPT)
def _read(data: bytes | str, name: str) -> "ClassFile":
    from setday.files import read_class

    return read_class(data, name=name)


@require_safe
def file(request: HttpRequest, key: str) -> HttpResponse:
    """Show the class file line by line, with what was found, and its versions."""
    sheet = timetable_sheet(request, key)
    kept = class_file_of(sheet.house, request.GET.get("version"))
    if kept is None:
        if request.GET.get("version"):
            raise Http404
        return redirect("timetable:edit", key=key)
    findings = _read(kept.text, kept.file_name).findings
    words = {
        "shown": kept,
        "rows": listed(kept.text, findings, whole=True),
        "loose": unplaced(findings),
        "counts": counts(findings),
        "versions": sheet.house.class_files.order_by("-number"),
    }
    return render(request, "timetable/file.html", sheet.context(**words))


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, key: str) -> HttpResponse:
    """Take in a class file, the first or another version."""
    sheet = timetable_sheet(request, key)
    if request.method != "POST":
        return _form_page(request, sheet)
    form = ClassFileForm(request.POST, request.FILES)
    if not form.is_valid():
        return render(request, "timetable/edit.html", sheet.context(form=form, **TYPED), status=422)
    data, name = form.sent
    read = _read(data, name)
    asked = found_in((*read.findings, *passed(read)), read.text)
    as_meant = request.POST.get("as_meant") == "yes"
    if read.plan is None or (asked["only_asks"] and not as_meant):
        again = form.again(read.text if isinstance(data, bytes) else "")
        words = {"form": again, **asked, "as_meant": as_meant, **TYPED}
        return render(request, "timetable/edit.html", sheet.context(**words), status=422)
    note = form.cleaned_data["note"]
    made = add_class_file(sheet.house, file_name=name, text=read.text, note=note)
    messages.success(request, _("Kept as version %(number)d.") % {"number": made.number})
    return redirect("timetable:file", key=key)


def _form_page(request: HttpRequest, sheet: TimetableSheet) -> HttpResponse:
    form = ClassFileForm(initial=_begun_with(request, sheet))
    half = refill(form, request)
    text = form.initial.get("text") or ""
    found: dict[str, Any] = {}
    if text and (half or sheet.class_file is not None):
        found = found_in(_read(text, form.initial["file_name"]).findings, text)
    return render(request, "timetable/edit.html", sheet.context(form=form, **found, **TYPED))


def _begun_with(request: HttpRequest, sheet: TimetableSheet) -> dict[str, str]:
    """Return the text a form begins with: the version in force, the demo's, or none."""
    from setday.actions.classes import demo_class_text

    if request.GET.get("start") == "demo":
        return {"text": demo_class_text(), "file_name": "class.yaml"}
    kept = class_file_of(sheet.house, request.GET.get("version"))
    return {"text": kept.text, "file_name": kept.file_name} if kept else {}


@require_POST
def check(request: HttpRequest, key: str) -> HttpResponse:
    """Say what is wrong with a class file that is being typed; nothing is kept."""
    timetable_sheet(request, key)
    form = ClassFileForm(request.POST)
    if not form.is_valid():
        return render(request, "houses/part_findings.html", {"form": form})
    data, name = form.sent
    read = _read(data, name)
    found = (*read.findings, *passed(read))
    words = {"checked": True, **found_in(found, read.text)}
    return render(request, "houses/part_findings.html", words)


@require_safe
def download(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the class file as it was entered, to the letter."""
    sheet = timetable_sheet(request, key)
    kept = class_file_of(sheet.house, request.GET.get("version"))
    if kept is None:
        raise Http404
    return handed_out(kept.text, name=f"{sheet.house.key}-class.yaml", kind="application/yaml")
