"""Who says what at a gate with a form, and when; what was typed is kept where it is refused."""

from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, Any

from django.http import HttpRequest
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.utils.translation import gettext as _

from setday.closein import GateRefusal, Role, Signer
from setday.web.access import Role as SiteRole
from setday.web.access import role_of
from setday.web.entries import entered_at
from setday.web.people.who import members_present

if TYPE_CHECKING:
    from setday.actions.gates.marks import Said
    from setday.web.keeping.models import Member

__all__ = ["Typed", "said_of", "signer_of", "signers_of"]

_ROLES = {
    SiteRole.MEMBER: Role.STUDENT,
    SiteRole.HELPER: Role.HELPER,
    SiteRole.INSTRUCTOR: Role.INSTRUCTOR,
    SiteRole.KEEPER: Role.INSTRUCTOR,
    SiteRole.READER: Role.READER,
}
_FIELDS = ("words", "at", "by", "what", "x", "y", "w", "h", "notice", "everywhere")
"""What the forms of a gate have fields for, besides things that are ticked."""


@dataclass(slots=True, kw_only=True)
class Typed:
    """What was typed into a form that was refused: shown again, with why."""

    refused: list[Any] = field(default_factory=list)
    values: dict[str, str] = field(default_factory=lambda: dict.fromkeys(_FIELDS, ""))
    ticked: frozenset[str] = frozenset()
    groups: frozenset[str] = frozenset()
    photo_gone: bool = False

    @classmethod
    def of(cls, request: HttpRequest, refused: list[Any]) -> "Typed":
        """Return what a request typed."""
        return cls(
            refused=refused,
            values={name: request.POST.get(name, "") for name in _FIELDS},
            ticked=frozenset(request.POST.getlist("item")),
            groups=frozenset(request.POST.getlist("group")),
            photo_gone=bool(request.FILES),
        )


def signers_of(request: HttpRequest) -> tuple[Signer, ...]:
    """Return who may be meant by whoever uses this tablet: its members present, or the person signed in."""
    role = role_of(request)
    if role is SiteRole.MEMBER:
        return tuple(_signer(each, Role.STUDENT) for each in members_present(request))
    member: Member | None = request.member
    if member is not None:
        return (_signer(member, _ROLES[role]),)
    user = request.user
    name = user.get_full_name() or user.get_username()
    return (Signer(key=f"user-{user.pk}", name=name, role=_ROLES.get(role, Role.READER)),)


def _signer(member: "Member", role: Role) -> Signer:
    name = member.shown_as if role is Role.STUDENT else member.name
    return Signer(key=f"member-{member.pk}", name=name, role=role)


def signer_of(request: HttpRequest) -> Signer:
    """Return who a form says did it; it must be somebody at this tablet.

    Raises
    ------
    GateRefusal
    """
    every = signers_of(request)
    wanted = request.POST.get("by", "")
    if not wanted and len(every) > 1:
        raise GateRefusal(_("It is not said who did it."), do=_("Choose a name."))
    found = next((each for each in every if each.key == wanted), None) if wanted else every[0]
    if found is None:
        raise GateRefusal(
            _("Whoever you chose is not at this tablet any more."), do=_("Choose a name that is on the list.")
        )
    return found


def said_of(request: HttpRequest, *, entry: str, photo: str = "") -> "Said":
    """Return what a form says.

    Raises
    ------
    GateRefusal
        When the time cannot be read, or who did it is not said.
    """
    from setday.actions.gates.marks import Said

    at = _time(request.POST.get("at", "").strip()) or entered_at(request)
    return Said(
        entry=entry,
        by=signer_of(request),
        at=at,
        now=timezone.now(),
        words=request.POST.get("words", ""),
        photo=photo,
    )


def _time(typed: str) -> datetime | None:
    if not typed:
        return None
    try:
        found = parse_datetime(typed)
        if found is not None and timezone.is_naive(found):
            found = timezone.make_aware(found)
    except (ValueError, OverflowError):
        found = None
    if found is None:
        raise GateRefusal(
            _("%(time)s cannot be read as a date and a time of day.") % {"time": typed[:40]},
            do=_("Write it like 2026-09-14 10:30, or leave it empty for now."),
        )
    return found
