"""The house file: sent in, checked, kept as a version, shown line by line."""

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from setday.web.file_form import handed_out
from setday.web.half_filled import TYPED, refill
from setday.web.houses.forms import HouseFileForm
from setday.web.houses.found import counts, found_in
from setday.web.houses.keys import key_sections
from setday.web.houses.listing import listed, unplaced
from setday.web.houses.opening import read
from setday.web.houses.sheet import house_sheet
from setday.web.keeping.houses import houses_of

if TYPE_CHECKING:
    from setday.actions.houses import OpenHouse

__all__ = ["check", "download", "edit", "house_file", "keys", "new_house"]


@require_http_methods(["GET", "HEAD", "POST"])
def new_house(request: HttpRequest) -> HttpResponse:
    """Take in a new house."""
    from setday.actions.taking_in import Twin, take_in_house

    if request.method != "POST":
        form = _starting_form(request)
        refill(form, request)
        return render(request, "houses/new.html", {"form": form, **TYPED})
    form = HouseFileForm(request.POST, request.FILES)
    if not form.is_valid():
        return render(request, "houses/new.html", {"form": form, **TYPED}, status=422)
    data, name = form.sent
    opened = read(data, name=name)
    as_meant, answer = request.POST.get("as_meant") == "yes", request.POST.get("twin")
    twin_is = Twin(answer) if answer in set(Twin) else Twin.UNSAID
    taken = take_in_house(opened, store=houses_of(request.school), as_meant=as_meant, twin=twin_is)
    if taken.kept is None:
        words = {"form": _form_again(form, opened), **_found(opened), **TYPED}
        asked = {"twin": taken.twin, "as_meant": True} if taken.twin else {}
        return render(request, "houses/new.html", {**words, **asked}, status=422)
    house, version = taken.kept
    words = _("%(house)s is kept as version %(number)d.") % {"house": house, "number": version.number}
    messages.success(request, words)
    return redirect("houses:house", key=house.key)


def _starting_form(request: HttpRequest) -> HouseFileForm:
    """Return the form empty, or with the practice shed in it to start from."""
    from setday.actions.houses import demo_text

    if request.GET.get("start") != "shed":
        return HouseFileForm()
    return HouseFileForm(initial={"text": demo_text("shed"), "file_name": "house.yaml"})


@require_safe
def keys(request: HttpRequest) -> HttpResponse:
    """Show every key of the house file, and what it says."""
    return render(request, "houses/keys.html", {"sections": key_sections()})


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, key: str) -> HttpResponse:
    """Take in another version of a house."""
    from setday.actions.taking_in import take_in_version

    sheet = house_sheet(request, key)
    if request.method != "POST":
        kept = {"text": sheet.version.text, "file_name": sheet.version.file_name}
        form = HouseFileForm(initial=kept)
        half = refill(form, request)
        opened = read(form.initial["text"], name=form.initial["file_name"]) if half else sheet.opened
        return render(request, "houses/edit.html", sheet.context(form=form, **_found(opened), **TYPED))
    form = HouseFileForm(request.POST, request.FILES)
    if not form.is_valid():
        return render(request, "houses/edit.html", sheet.context(form=form, **TYPED), status=422)
    data, name = form.sent
    opened = read(data, name=name)
    as_meant, note = request.POST.get("as_meant") == "yes", form.cleaned_data["note"]
    taken = take_in_version(
        opened, store=houses_of(request.school), house=sheet.house, as_meant=as_meant, note=note
    )
    if taken.kept is None:
        words = {"form": _form_again(form, opened), **_found(opened), **TYPED}
        return render(request, "houses/edit.html", sheet.context(**words), status=422)
    messages.success(request, _("Kept as version %(number)d.") % {"number": taken.kept[1].number})
    return redirect("houses:house", key=key)


@require_POST
def check(request: HttpRequest) -> HttpResponse:
    """Say what is wrong with a file that is being typed; nothing is kept."""
    form = HouseFileForm(request.POST)
    if not form.is_valid():
        return render(request, "houses/part_findings.html", {"form": form})
    data, name = form.sent
    opened = read(data, name=name)
    return render(request, "houses/part_findings.html", {"checked": True, **_found(opened)})


@require_safe
def house_file(request: HttpRequest, key: str) -> HttpResponse:
    """Show the file line by line, with what was found."""
    sheet = house_sheet(request, key)
    rows = listed(sheet.version.text, sheet.opened.findings, whole=True)
    words = {"rows": rows, "loose": unplaced(sheet.opened.findings), "counts": counts(sheet.opened.findings)}
    return render(request, "houses/file.html", sheet.context(**words))


@require_safe
def download(request: HttpRequest, key: str) -> HttpResponse:
    """Hand out the file as it was entered, to the letter."""
    sheet = house_sheet(request, key)
    return handed_out(sheet.version.text, name=f"{sheet.house.key}.yaml", kind="application/yaml")


def _form_again(form: HouseFileForm, opened: "OpenHouse") -> HouseFileForm:
    """Return the form with everything that was typed; a file that was picked is laid open in it."""
    data, _ = form.sent
    return form.again(data if isinstance(data, str) else opened.text)


def _found(opened: "OpenHouse") -> dict[str, Any]:
    found = found_in(opened.findings, opened.text)
    return {**found, "only_asks": opened.house is not None and found["only_asks"]}
