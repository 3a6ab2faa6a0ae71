"""Chosen devices, closing the site to all others, and how soon a crew's tablet is signed out."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from setday.web.keeping.models import Device, School
from setday.web.people.devices import device_here, know_this_one, offer
from setday.web.people.forms import DeviceForm, SettingsForm

__all__ = ["device_away", "devices"]


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def devices(request: HttpRequest) -> HttpResponse:
    """Show the chosen devices; choose another, close the site to the rest, open it again."""
    school, do = request.school, request.POST.get("do", "")
    if do in {"close", "open"}:
        return _closed(request, school, yes=do == "close")
    form = DeviceForm(request.POST if do == "offer" else None)
    idle = SettingsForm(request.POST if do == "idle" else None, initial={"idle_minutes": school.idle_minutes})
    made: tuple[Device, str] | None = None
    if do == "offer" and form.is_valid():
        made = offer(school, name=form.cleaned_data["name"])
        form = DeviceForm()
    if do == "idle" and idle.is_valid():
        school.idle_minutes = idle.cleaned_data["idle_minutes"]
        school.save(update_fields=["idle_minutes"])
        messages.success(request, _("Kept."))
        return redirect("people:devices")
    words = {"form": form, "idle": idle, "school": school, "made": made, "this": device_here(request, school)}
    words["devices"] = [{"device": each, "state": _state(each)} for each in Device.objects.of(school)]
    status = 422 if request.method == "POST" and made is None else 200
    return render(request, "people/devices.html", words, status=status)


def _state(device: Device) -> str:
    if device.digest:
        return _("chosen")
    if device.code_ends_at and device.code_ends_at > timezone.now():
        return _("its code was not typed yet")
    return _("its code has run out: take it off, and add it again")


def _closed(request: HttpRequest, school: School, *, yes: bool) -> HttpResponse:
    """Close the site to all but the chosen devices, the one at hand among them; or open it."""
    response = redirect("people:devices")
    if yes:
        know_this_one(request, response, school=school, name=_("the instructor's device"))
    school.only_devices = yes
    school.save(update_fields=["only_devices"])
    messages.success(
        request,
        _("Now only the chosen devices are served.")
        if yes
        else _("Now every device on the network is served."),
    )
    return response


@require_POST
def device_away(request: HttpRequest, number: int) -> HttpResponse:
    """Take a device off the list; not the one at hand while the site is closed to others."""
    school = request.school
    found = get_object_or_404(Device.objects.of(school), pk=number)
    if school.only_devices and found == device_here(request, school):
        messages.info(request, _("This is the device you are at: open the site to all devices first."))
    else:
        found.delete()
        messages.info(request, _("%(name)s was taken off.") % {"name": found.name})
    return redirect("people:devices")
