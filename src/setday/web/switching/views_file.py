"""The hookup file: sent in, checked, kept as a version, shown line by line."""

from typing import TYPE_CHECKING

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from setday.web.file_form import as_text, handed_out
from setday.web.houses.found import counts, found_in, only_asks
from setday.web.houses.listing import listed, unplaced
from setday.web.keeping.hookups import add_hookup_version, keep_hookup, read_kept
from setday.web.keeping.models import House
from setday.web.switching.forms import HookupFileForm
from setday.web.switching.sheet import hookup_sheet
from setday.web.switching.standard import standard_circuits

if TYPE_CHECKING:
    from setday.files import HookupFile

__all__ = ["check", "download", "edit", "hookup_file", "new_hookup"]


@require_http_methods(["GET", "HEAD", "POST"])
def new_hookup(request: HttpRequest) -> HttpResponse:
    """Take in a new hookup."""
    house = House.objects.of(request.school).filter(key=request.GET.get("house", "")).first()
    page = {"house": house, "standard": standard_circuits()}
    if request.method != "POST":
        return render(request, "switching/new.html", {**page, "form": _starting_form(request)})
    form = HookupFileForm(request.POST, request.FILES)
    if not form.is_valid():
        return render(request, "switching/new.html", {**page, "form": form}, status=422)
    data, name = form.sent
    text = as_text(data)
    read = read_kept(text, name) if text else _read_bytes(data, name)
    if not _may_be_kept(request, read):
        words = {"form": form.again(text), **found_in(read.findings, text)}
        return render(request, "switching/new.html", {**page, **words}, status=422)
    kept = keep_hookup(school=request.school, house=house, name=read.sound().name, file_name=name, text=text)
    messages.success(request, _("%(hookup)s is kept as version 1.") % {"hookup": kept.name})
    return redirect("switching:hookup", key=kept.key)


def _read_bytes(data: bytes | str, name: str) -> "HookupFile":
    from setday.actions.switching.hookups import open_hookup

    return open_hookup(data, name=name)


def _starting_form(request: HttpRequest) -> HookupFileForm:
    """Return the form empty, or with a standard circuit in it to start from."""
    from setday.actions.switching.hookups import example_names, example_text

    name = request.GET.get("start", "")
    if name not in example_names():
        return HookupFileForm()
    return HookupFileForm(initial={"text": example_text(name), "file_name": f"{name}.yaml"})


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, key: str) -> HttpResponse:
    """Take in another version of a hookup."""
    sheet = hookup_sheet(request, key)
    if request.method != "POST":
        kept = {"text": sheet.version.text, "file_name": sheet.version.file_name}
        words = {"form": HookupFileForm(initial=kept), **found_in(sheet.read.findings, sheet.version.text)}
        return render(request, "switching/edit.html", sheet.context(**words))
    form = HookupFileForm(request.POST, request.FILES)
    if not form.is_valid():
        return render(request, "switching/edit.html", sheet.context(form=form), status=422)
    data, name = form.sent
    text = as_text(data)
    read = read_kept(text, name) if text else _read_bytes(data, name)
    if not _may_be_kept(request, read):
        words = {"form": form.again(text), **found_in(read.findings, text)}
        return render(request, "switching/edit.html", sheet.context(**words), status=422)
    note = form.cleaned_data["note"]
    version = add_hookup_version(sheet.kept, name=read.sound().name, file_name=name, text=text, note=note)
    messages.success(request, _("Kept as version %(number)d.") % {"number": version.number})
    return redirect("switching:hookup", key=key)


@require_POST
def check(request: HttpRequest) -> HttpResponse:
    """Say what is wrong with a file that is being typed; nothing is kept."""
    form = HookupFileForm(request.POST)
    if not form.is_valid():
        return render(request, "houses/part_findings.html", {"form": form})
    text, name = form.sent
    plain = as_text(text)
    words = found_in(_read_bytes(plain, name).findings, plain)
    return render(request, "houses/part_findings.html", {"checked": True, **words})


@require_safe
def hookup_file(request: HttpRequest, key: str) -> HttpResponse:
    """Show the file line by line, with what was found."""
    sheet = hookup_sheet(request, key)
    findings = sheet.read.findings
    words = {
        "rows": listed(sheet.version.text, findings, whole=True),
        "loose": unplaced(findings),
        "counts": counts(findings),
        "listing_words": _("The hookup file, line by line, with what was found beside each line"),
    }
    return render(request, "switching/file.html", sheet.context(**words))


@require_safe
def download(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the file as it was entered, to the letter."""
    sheet = hookup_sheet(request, key)
    return handed_out(sheet.version.text, name=f"{sheet.kept.key}.yaml", kind="application/yaml")


def _may_be_kept(request: HttpRequest, read: "HookupFile") -> bool:
    """Return whether the file has no problem, and every question in it was seen."""
    if read.hookup is None:
        return False
    return not only_asks(read.findings) or request.POST.get("as_meant") == "yes"
