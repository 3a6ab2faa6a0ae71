"""Accounts of members: made without a password, so that a card or a one-time code is the only way in."""

import secrets
from typing import Any

from django.contrib.auth import get_user_model, login
from django.db import transaction
from django.http import HttpRequest

from setday.web.keeping.models import Member, MemberRole

__all__ = ["account_of", "admit", "end_sessions", "free_name", "may_come_in"]

_BACKEND = "django.contrib.auth.backends.ModelBackend"


@transaction.atomic
def account_of(member: Member) -> Any:
    """Return the account of a member; one that nobody can sign in to by a password is made if missing."""
    if member.user is None:
        name = f"{member.role.replace(' ', '-')}-{secrets.token_hex(8)}"
        member.user = get_user_model().objects.create_user(name)
        member.save(update_fields=["user"])
    return member.user


def end_sessions(member: Member) -> None:
    """End every session of a crew member: Django drops one whose password changed, and nobody knows this."""
    user = account_of(member)
    user.set_unusable_password()
    user.save(update_fields=["password"])


def may_come_in(member: Member) -> bool:
    """Return whether a member is of an open class, or needs none."""
    if not member.active:
        return False
    if member.role != MemberRole.CREW:
        return True
    return member.school_class is not None and not member.school_class.put_away


def admit(request: HttpRequest, member: Member) -> None:
    """Sign a member in; whoever was signed in before is out, and the session has another key."""
    user = account_of(member)
    request.session.flush()
    login(request, user, backend=_BACKEND)


def free_name(name: str) -> bool:
    """Return whether nobody signs in under a name yet."""
    return not get_user_model().objects.filter(username__iexact=name).exists()
