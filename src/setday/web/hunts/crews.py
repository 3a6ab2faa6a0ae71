"""Crews of a hunt: the codes they come in by, and their log in the records."""

import secrets
from typing import TYPE_CHECKING, Any

from django.db import IntegrityError, transaction
from django.http import HttpRequest

from setday.web.access import HUNT_CREW
from setday.web.hunts.sources import ground_of, hookup_in
from setday.web.keeping.models import Hunt, HuntCrew

if TYPE_CHECKING:
    from setday.actions.switching.hunts import CrewLog
    from setday.actions.switching.naming import Named
    from setday.switching import HuntGround

__all__ = [
    "MOST_CREWS",
    "code_read",
    "come_back",
    "come_in",
    "crew_here",
    "free_code",
    "ground_in",
    "keep_log",
    "log_of",
    "name_given",
]

_SIGNS = "23456789BCDFGHJKMNPQRSTVWXZ"
"""Without those that are read as one another, and without vowels, so that no code is a word."""
_CODE, _KEY = 5, 4
MOST_CREWS = 30


def free_code() -> str:
    """Return a code no hunt has; chance alone decides it."""
    while True:
        code = _drawn(_CODE)
        if not Hunt.objects.filter(code=code).exists():
            return code


def _drawn(length: int) -> str:
    return "".join(secrets.choice(_SIGNS) for _ in range(length))


def code_read(typed: str) -> tuple[str, str]:
    """Return the hunt's code and the crew's own signs, from what was typed; the latter may be empty."""
    plain = "".join(sign for sign in typed.upper() if sign.isalnum())
    return plain[:_CODE], plain[_CODE : _CODE + _KEY]


def come_in(code: str, name: str) -> HuntCrew | None:
    """Write a new crew down; None where the name is taken or the hunt has its most crews."""
    hunt = Hunt.objects.get(code=code)
    if hunt.crews.count() >= MOST_CREWS:
        return None
    hookup = hookup_in(hunt.text, hunt.file_name)
    try:
        with transaction.atomic():
            crew: HuntCrew = hunt.crews.create(
                key=_drawn(_KEY), name=name, position=[0] * len(hookup.switches)
            )
    except IntegrityError:
        return None
    return crew


def come_back(code: str, key: str) -> HuntCrew | None:
    """Return the crew of a hunt that has these signs."""
    return HuntCrew.objects.filter(hunt__code=code, key=key).first()


def crew_here(request: HttpRequest) -> HuntCrew | None:
    """Return the crew at this tablet; None when nobody came in, or the crew is no longer there."""
    number = request.session.get(HUNT_CREW)
    if number is None:
        return None
    crew: HuntCrew | None = HuntCrew.objects.select_related("hunt").filter(pk=number).first()
    return crew


def ground_in(hunt: Hunt) -> "HuntGround":
    """Return the plan of a hunt with every fault that can be planted in it."""
    return ground_of(hunt.text, hunt.file_name, hunt.likely)


def log_of(crew: HuntCrew) -> "CrewLog":
    """Return what a crew has done so far."""
    from setday.actions.switching.hunts import logged

    hookup = hookup_in(crew.hunt.text, crew.hunt.file_name)
    return logged(hookup, position=crew.position, opened=crew.opened, lines=crew.lines)


def keep_log(crew: HuntCrew, log: "CrewLog") -> None:
    """Write down what a crew has done so far."""
    hookup = hookup_in(crew.hunt.text, crew.hunt.file_name)
    crew.position, crew.opened = list(log.position), list(log.opened)
    crew.lines = list(log.lines(hookup))
    crew.save(update_fields=["position", "opened", "lines", "changed_at"])


def name_given(crew: HuntCrew) -> "Named | None":
    """Return the fault a crew named."""
    from setday.actions.switching.naming import Named
    from setday.switching import ChangeKind

    given: dict[str, Any] | None = crew.named
    if not given:
        return None
    return Named(kind=ChangeKind(given["kind"]), first=given["first"], second=given["second"])
