"""Who may come in: the first-start code, and waiting after wrong tries."""

import secrets
from datetime import datetime, timedelta
from math import ceil

from django.contrib.auth import get_user_model
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.utils.crypto import constant_time_compare, salted_hmac
from django.utils.translation import ngettext

from setday.web.keeping.members import keep_member
from setday.web.keeping.models import FirstCode, Member, MemberRole, WrongTry
from setday.web.keeping.people import first_school

__all__ = [
    "CARD",
    "DEVICE",
    "admit",
    "code_fits",
    "door_of",
    "forget_tries",
    "leads_to_cards",
    "minutes_to_wait",
    "new_code",
    "nobody_yet",
    "note_wrong_try",
    "wait_words",
]

WINDOW = timedelta(minutes=15)
FROM_ONE_PLACE_FOR_ONE_NAME = 5
FROM_ONE_PLACE = 20
FOR_ONE_NAME = 50

CARD = "card"
DEVICE = "device"
_MOST = {
    "password": (FROM_ONE_PLACE_FOR_ONE_NAME, FROM_ONE_PLACE, FOR_ONE_NAME),
    # a class of forty mistypes on one shared tablet; what is guessed at is one card, and that one waits
    CARD: (5, 60, 15),
    # guessed at is whichever code waits, so each place waits for its own tries, and stops nobody elsewhere
    DEVICE: (5, 5, 5),
}
"""Wrong tries that count: of one name from one place, from one place, of one name from anywhere; our own."""

_DOOR_COOKIE = "setday_door"

_WORDS = (
    "anchor",
    "awl",
    "bevel",
    "block",
    "brace",
    "brick",
    "chalk",
    "chisel",
    "clamp",
    "corner",
    "crate",
    "crown",
    "dowel",
    "drill",
    "edge",
    "fence",
    "file",
    "flush",
    "gable",
    "gauge",
    "girder",
    "glove",
    "hammer",
    "hinge",
    "jamb",
    "joist",
    "kerf",
    "knot",
    "ladder",
    "lath",
    "ledger",
    "level",
    "line",
    "lintel",
    "mallet",
    "mitre",
    "mortar",
    "notch",
    "panel",
    "peg",
    "pencil",
    "plank",
    "plumb",
    "post",
    "rafter",
    "rasp",
    "ridge",
    "rung",
    "sash",
    "saw",
    "screw",
    "shim",
    "sill",
    "slate",
    "spade",
    "spline",
    "square",
    "stake",
    "stile",
    "stud",
    "tape",
    "tenon",
    "timber",
    "trestle",
    "trowel",
    "truss",
    "vise",
    "washer",
    "wedge",
)


def door_of(request: HttpRequest) -> str:
    """Return the screen by which somebody comes in: a crew's tablet goes to its cards by itself."""
    if nobody_yet():
        return "desk:begin"
    return "people:card" if request.COOKIES.get(_DOOR_COOKIE) == "card" else "desk:sign-in"


def leads_to_cards(response: HttpResponse, *, yes: bool) -> None:
    """Have the browser remember that it is a crew's tablet, or that it is none."""
    if yes:
        response.set_cookie(_DOOR_COOKIE, "card", max_age=31_536_000, samesite="Lax", httponly=True)
    else:
        response.delete_cookie(_DOOR_COOKIE, samesite="Lax")


def nobody_yet() -> bool:
    """Return whether nobody has ever signed in: the site waits for its first-start code."""
    return not get_user_model().objects.exists()


def new_code() -> str:
    """Make a fresh first-start code, put it in force instead of any earlier one, and return it."""
    code = "-".join([*(secrets.choice(_WORDS) for _ in range(3)), f"{secrets.randbelow(10_000):04d}"])
    with transaction.atomic():
        FirstCode.objects.all().delete()
        FirstCode.objects.create(digest=_digest(code))
    return code


def code_fits(code: str) -> bool:
    """Return whether the code is the one in force."""
    digest = _digest(code)
    return any(constant_time_compare(kept.digest, digest) for kept in FirstCode.objects.all())


def admit(name: str, password: str) -> object:
    """Use up the code: make the instructor of that name, or give them the new password."""
    user_model = get_user_model()
    with transaction.atomic():
        FirstCode.objects.all().delete()
        user, _ = user_model.objects.get_or_create(
            username=name, defaults={"is_superuser": True, "is_staff": True}
        )
        user.set_password(password)
        user.is_active = True
        user.save()
        if user.is_superuser and not Member.objects.filter(user=user).exists():
            keep_member(first_school(), name=name, shown_as=name, role=MemberRole.INSTRUCTOR, user=user)
        WrongTry.objects.all().delete()
    return user


def _digest(code: str) -> str:
    plain = "-".join(code.lower().replace("-", " ").split())
    digest: str = salted_hmac("setday.first-code", plain, algorithm="sha256").hexdigest()
    return digest


def note_wrong_try(*, who: str, address: str, now: datetime, what: str = "password") -> None:
    """Remember a wrong try and forget those too old to count."""
    WrongTry.objects.filter(at__lt=now - WINDOW).delete()
    WrongTry.objects.create(what=what, who=who.casefold()[:150], address=address, at=now)


def forget_tries(*, who: str, address: str | None = None, what: str = "password") -> None:
    """Forget the wrong tries of one name, after a right one from one place; from all where it was reset."""
    tries = WrongTry.objects.filter(what=what, who=who.casefold()[:150])
    (tries if address is None else tries.filter(address=address)).delete()


def minutes_to_wait(*, who: str, address: str, now: datetime, what: str = "password") -> int:
    """Return how many minutes must pass before the next try counts; 0 when it may come now."""
    recent = WrongTry.objects.filter(what=what, at__gte=now - WINDOW)
    name = who.casefold()[:150]
    here_for_one, here, for_one = _MOST[what]
    counted = (
        (recent.filter(who=name, address=address), here_for_one),
        (recent.filter(address=address), here),
        (recent.filter(who=name), for_one),
    )
    waits = [_until_free(tries, most, now) for tries, most in counted]
    return max(ceil(wait.total_seconds() / 60) for wait in waits)


def wait_words(minutes: int) -> str:
    """Return how long somebody has to wait after wrong tries."""
    words: str = ngettext(
        "Too many wrong tries. Wait %(minutes)d minute, then try again.",
        "Too many wrong tries. Wait %(minutes)d minutes, then try again.",
        minutes,
    ) % {"minutes": minutes}
    return words


def _until_free(tries: object, most: int, now: datetime) -> timedelta:
    moments = list(tries.order_by("-at").values_list("at", flat=True)[:most])  # type: ignore[attr-defined]
    if len(moments) < most:
        return timedelta(0)
    return max(moments[-1] + WINDOW - now, timedelta(0))
