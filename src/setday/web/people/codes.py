"""Codes people come in by: digits on a card, an open part that finds the card and a secret part.

A secret of five digits is not kept safe by its digest alone but by the waiting after wrong tries
(`setday.web.desk.door`); the digest also takes in the site's own key, so that the records without the
key file tell nothing.
"""

import secrets
from datetime import datetime

from django.contrib.auth.hashers import PBKDF2PasswordHasher
from django.db import transaction
from django.utils.crypto import salted_hmac

from setday.web.keeping.models import Card, Member

__all__ = ["LOOKUP", "card_of", "code_read", "fits", "make_card", "one_time_code", "one_time_digest"]

LOOKUP, _SECRET = 4, 5
"""Digits of the open part, and of the secret part; our own."""
_MOST_TRIED = 200


class _CardHasher(PBKDF2PasswordHasher):
    """Django's own, quicker: forty cards are made at once, and a class comes in at the bell."""

    algorithm = "pbkdf2_sha256_card"
    iterations = 100_000


_HASHER = _CardHasher()


@transaction.atomic
def make_card(member: Member, *, ends_at: datetime | None = None) -> str:
    """Make a fresh card instead of any earlier one, and return its code: it is shown once, never kept."""
    lookup, secret = _free_lookup(), _digits(_SECRET)
    facts = {"lookup": lookup, "secret": _digest(lookup, secret), "ends_at": ends_at}
    Card.objects.filter(member=member).delete()
    Card.objects.create(member=member, **facts)
    return f"{lookup}-{secret}"


def code_read(typed: str) -> tuple[str, str]:
    """Return the open and the secret part of what was typed; signs that are no digits do not matter."""
    plain = "".join(sign for sign in typed if sign.isascii() and sign.isdigit())
    if len(plain) != LOOKUP + _SECRET:
        return "", ""
    return plain[:LOOKUP], plain[LOOKUP:]


def card_of(lookup: str) -> Card | None:
    """Return the card with this open part."""
    people = Card.objects.select_related("member__school", "member__school_class", "member__user")
    found: Card | None = people.filter(lookup=lookup).first() if lookup else None
    return found


def fits(card: Card | None, secret: str) -> bool:
    """Return whether the secret part is the card's; takes as long where there is no such card."""
    if card is None:
        _digest("", secret)
        return False
    right: bool = _HASHER.verify(_peppered(card.lookup, secret), card.secret)
    return right


def _digest(lookup: str, secret: str) -> str:
    made: str = _HASHER.encode(_peppered(lookup, secret), _HASHER.salt())
    return made


def _peppered(lookup: str, secret: str) -> str:
    mixed: str = salted_hmac("setday.card", f"{lookup}-{secret}", algorithm="sha256").hexdigest()
    return mixed


def _free_lookup() -> str:
    for _ in range(_MOST_TRIED):
        lookup = _digits(LOOKUP)
        if not Card.objects.filter(lookup=lookup).exists():
            return lookup
    taken = set(Card.objects.values_list("lookup", flat=True))
    return secrets.choice([each for number in range(10**LOOKUP) if (each := f"{number:04d}") not in taken])


def _digits(count: int) -> str:
    return f"{secrets.randbelow(10**count):0{count}d}"


def one_time_code() -> str:
    """Return eight digits for a device that is to be chosen."""
    return f"{_digits(4)}-{_digits(4)}"


def one_time_digest(typed: str) -> str:
    """Return the digest of a device's code, whatever stands between its digits; empty without digits."""
    plain = "".join(sign for sign in typed if sign.isascii() and sign.isdigit())
    digest: str = salted_hmac("setday.device-code", plain, algorithm="sha256").hexdigest()
    return digest if plain else ""
