"""Under whose sign-in a classmate was ticked as being here, or named as having done something at a gate."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _

from setday.web.keeping.models import ClassPeriod, GateMark, Member, PresenceTick

__all__ = ["Named", "named_in", "signed"]

_MARK_WORDS = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """Somebody named under the sign-in of another: when, what of them, whose sign-in, at which device."""

    at: datetime
    words: str
    by: str


def named_in(period: ClassPeriod) -> list[Named]:
    """Return who was named under another's sign-in while a period was open, in order of time."""
    return sorted([*_ticks(period), *_marks(period)], key=lambda each: (each.at, each.words))


def _ticks(period: ClassPeriod) -> Iterator[Named]:
    found = PresenceTick.objects.filter(signed_in__school_class=period.school_class, at__gte=period.begins)
    if period.closed_at is not None:
        found = found.filter(at__lte=period.closed_at)
    for tick in found.select_related("signed_in", "member").order_by("pk"):
        words = _("%(who)s ticked as being here") if tick.here else _("%(who)s ticked off again")
        by = signed(tick.signed_in.name, tick.device)
        yield Named(at=tick.at, words=words % {"who": tick.member.name}, by=by)


def _marks(period: ClassPeriod) -> Iterator[Named]:
    """Yield marks at the gates of the period's house that a student made in a classmate's name."""
    members = Member.objects.filter(school_class=period.school_class).values_list("pk", flat=True)
    keys = [f"member-{pk}" for pk in members]
    found = GateMark.objects.filter(
        house=period.house, signed_in_key__in=keys, made_at__gte=period.begins
    ).order_by("pk")
    if period.closed_at is not None:
        found = found.filter(made_at__lte=period.closed_at)
    for mark in found:
        if mark.by_key != mark.signed_in_key:
            told = {"who": mark.by_name, "what": mark.label[:_MARK_WORDS]}
            words = _("%(who)s named at a gate: %(what)s") % told
            yield Named(at=mark.made_at, words=words, by=signed(mark.signed_in_name, mark.device))


def signed(name: str, device: str) -> str:
    """Return whose sign-in it was, with the chosen device where one is known."""
    return _("%(name)s, at %(device)s") % {"name": name, "device": device} if device else name
