"""Bringing in a roster: read, held against the class, kept once the instructor has looked."""

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.core import signing
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from setday.web.houses.found import counts
from setday.web.keeping.models import SchoolClass
from setday.web.people.forms_roster import RosterForm
from setday.web.people.roster import held_against, keep_roster
from setday.web.people.views_classes import class_of

if TYPE_CHECKING:
    from setday.files import RosterList

__all__ = ["roster"]

_SALT = "setday.people.roster"
_SHOWN_FOR = 60 * 60


@require_http_methods(["GET", "HEAD", "POST"])
def roster(request: HttpRequest, key: str) -> HttpResponse:
    """Take in a roster: first it is shown what would change, then it is kept."""
    shown = class_of(request, key)
    if request.method == "POST" and request.POST.get("do") == "keep":
        return _kept(request, shown)
    form = RosterForm(request.POST, request.FILES) if request.method == "POST" else RosterForm()
    if request.method != "POST":
        return render(request, "people/roster.html", {"form": form, "school_class": shown})
    if not form.is_valid():
        return render(request, "people/roster.html", {"form": form, "school_class": shown}, status=422)
    read = _read(form.cleaned_data["text"], form.cleaned_data["file"])
    words = _looked_at(read, shown)
    again = RosterForm(initial={"text": read.text or form.cleaned_data["text"]})
    status = 200 if words["rows"] else 422
    return render(
        request, "people/roster.html", {"form": again, "school_class": shown, **words}, status=status
    )


def _read(text: str, files: list[UploadedFile]) -> "RosterList":
    from setday.files import read_roster, read_roster_files

    if not files:
        return read_roster(text, name="roster")
    return read_roster_files({str(each.name): each.read() for each in files}, name=_("the files"))


def _looked_at(read: "RosterList", shown: SchoolClass) -> dict[str, Any]:
    """Return what the page says of a roster before anything is kept."""
    coming = held_against(read.entries, school_class=shown)
    titles = {each.key: each.title for each in read.classes}
    signed = signing.dumps(
        {"class": shown.pk, "rows": [each.record() for each in coming]}, salt=_SALT, compress=True
    )
    return {
        "read_as": read.kind,
        "rows": [
            {"at": at, "coming": each, "classes": [titles.get(key, key) for key in each.classes]}
            for at, each in enumerate(coming)
        ],
        "choices": [(each.key, each.title, each.students) for each in read.classes]
        if len(read.classes) > 1
        else [],
        "signed": signed,
        "found": read.findings,
        "counts": counts(read.findings),
    }


def _kept(request: HttpRequest, shown: SchoolClass) -> HttpResponse:
    """Keep what was ticked, or everybody of the class that was picked in the file."""
    try:
        sent = signing.loads(request.POST.get("signed", ""), salt=_SALT, max_age=_SHOWN_FOR)
    except signing.BadSignature:
        messages.warning(request, _("This list was looked at too long ago. Bring it in once more."))
        return redirect("people:roster", key=shown.key)
    picked, wanted = request.POST.get("of_class"), set(request.POST.getlist("row"))
    rows = sent["rows"] if sent["class"] == shown.pk else []
    chosen = [
        row for at, row in enumerate(rows) if str(at) in wanted and (not picked or picked in row["classes"])
    ]
    new, changed = keep_roster(chosen, school_class=shown)
    words = ngettext("%(n)d student is new in the class.", "%(n)d students are new in the class.", new) % {
        "n": new
    }
    more = ngettext("%(n)d was changed.", "%(n)d were changed.", changed) % {"n": changed}
    messages.success(request, f"{words} {more}" if changed else words)
    return redirect("people:class", key=shown.key)
