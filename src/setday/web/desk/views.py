"""The first start, signing in and out, the language, help."""

from django.contrib.auth import authenticate, login, logout
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from setday.web.access import Role, role_of
from setday.web.desk.door import (
    admit,
    code_fits,
    door_of,
    forget_tries,
    leads_to_cards,
    minutes_to_wait,
    nobody_yet,
    note_wrong_try,
    wait_words,
)
from setday.web.desk.forms import BeginForm, SignInForm
from setday.web.half_filled import TYPED, refill, remember
from setday.web.keeping.models import FirstCode
from setday.web.people.devices import from_chosen_device

__all__ = ["begin", "help_sheet", "language", "sign_in", "sign_out"]

_CODE = "first-start code"


@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def begin(request: HttpRequest) -> HttpResponse:
    """Let the holder of the first-start code choose a name and a password."""
    if not FirstCode.objects.exists():
        return render(request, "desk/no_code.html") if nobody_yet() else redirect("desk:sign-in")
    if request.method != "POST":
        form = BeginForm(initial={"code": request.GET.get("code", "")})
        refill(form, request)
        return render(request, "desk/begin.html", {"form": form, **TYPED})
    form = BeginForm(request.POST)
    address = _address(request)
    wait = minutes_to_wait(who=_CODE, address=address, now=timezone.now())
    if wait:
        form.add_error(None, wait_words(wait))
    elif "code" in _read(form) and not code_fits(form.cleaned_data["code"]):
        note_wrong_try(who=_CODE, address=address, now=timezone.now())
        form.add_error("code", _("This is not the code printed at the last start. Read it once more."))
    if not form.is_valid():
        return render(request, "desk/begin.html", {"form": form, **TYPED}, status=422)
    login(request, admit(form.cleaned_data["name"], form.cleaned_data["password"]))
    return redirect(_back(request))


def _read(form: BeginForm) -> dict[str, str]:
    """Return what could be read of a form, right or wrong as a whole."""
    form.is_valid()
    entered: dict[str, str] = form.cleaned_data
    return entered


@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """Let somebody in who has a name and a password."""
    if nobody_yet():
        return redirect("desk:begin")
    if request.method != "POST":
        if role_of(request) not in {Role.OUTSIDER, Role.CREW, Role.BENCH}:
            return redirect("houses:list")
        form = SignInForm()
        refill(form, request)
        words = {"form": form, "next": request.GET.get("next", ""), **TYPED}
        return render(request, "desk/sign_in.html", words)
    form = SignInForm(request.POST)
    if form.is_valid():
        _try_door(request, form)
    if form.is_valid():
        response = redirect(_back(request))
        leads_to_cards(response, yes=False)
        return response
    words = {"form": form, "next": request.POST.get("next", ""), **TYPED}
    return render(request, "desk/sign_in.html", words, status=422)


def _try_door(request: HttpRequest, form: SignInForm) -> None:
    """Sign the person in, or say in the form why not."""
    who, address, now = form.cleaned_data["name"], _address(request), timezone.now()
    wait = minutes_to_wait(who=who, address=address, now=now)
    if wait:
        form.add_error(None, wait_words(wait))
        return
    user = authenticate(request, username=who, password=form.cleaned_data["password"])
    if user is None:
        note_wrong_try(who=who, address=address, now=now)
        form.add_error(
            None, _("This name and this password do not belong together. Check both and try again.")
        )
        return
    forget_tries(who=who, address=address)
    if not from_chosen_device(request, user):
        form.add_error(None, _("This device was not chosen. Ask the instructor for a device code."))
        return
    login(request, user)


@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """Let the person go."""
    screen = door_of(request)
    logout(request)
    return redirect(screen)


@sensitive_post_parameters()
@require_POST
def language(request: HttpRequest) -> HttpResponse:
    """Change the language and return to the page; what was typed there comes along, but no password."""
    from django.conf import settings

    back = _back(request)
    remember(request, address=back)
    response = HttpResponseRedirect(back)
    wanted = request.POST.get("language", "")
    if translation.check_for_language(wanted) and wanted in dict(settings.LANGUAGES):
        response.set_cookie(
            settings.LANGUAGE_COOKIE_NAME,
            wanted,
            max_age=settings.LANGUAGE_COOKIE_AGE,
            samesite=settings.LANGUAGE_COOKIE_SAMESITE,
            httponly=settings.LANGUAGE_COOKIE_HTTPONLY,
            secure=settings.SESSION_COOKIE_SECURE,
        )
    return response


@require_safe
def help_sheet(request: HttpRequest) -> HttpResponse:
    """Show how the site is used, in plain words."""
    return render(request, "desk/help.html")


def _address(request: HttpRequest) -> str:
    address: str = request.META.get("REMOTE_ADDR", "")
    return address


def _back(request: HttpRequest) -> str:
    asked = (request.GET.get("back"), request.POST.get("next"), request.GET.get("next"))
    wanted: str = next(filter(None, asked), "")
    ours = url_has_allowed_host_and_scheme(
        wanted, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    )
    address: str = wanted if ours else reverse("houses:list")
    return address
