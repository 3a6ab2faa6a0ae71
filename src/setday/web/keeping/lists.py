"""Keeping price lists and stock counts: each as it was entered, the newest in force."""

from typing import TypeVar

from django.db import transaction

from setday.web.keeping.models import PriceList, StockCount

__all__ = ["keep_list", "newest"]

Kept = TypeVar("Kept", PriceList, StockCount)


def newest(kind: type[Kept]) -> Kept | None:
    """Return the list in force; None before one was kept."""
    found: Kept | None = kind.objects.order_by("-number").first()
    return found


@transaction.atomic
def keep_list(kind: type[Kept], *, file_name: str, text: str) -> Kept:
    """Keep another list; the same text as the newest adds none."""
    last = kind.objects.select_for_update().order_by("-number").first()
    if last is not None and last.text == text:
        return last
    number = last.number + 1 if last else 1
    made: Kept = kind.objects.create(number=number, file_name=file_name[:200], text=text)
    return made
