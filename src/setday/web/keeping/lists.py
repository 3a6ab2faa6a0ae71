"""Keeping price lists and stock counts: each as it was entered, the newest in force."""

from typing import TypeVar

from django.db import transaction

from setday.web.keeping.models import PriceList, School, StockCount

__all__ = ["keep_list", "newest"]

Kept = TypeVar("Kept", PriceList, StockCount)


def newest(kind: type[Kept], *, school: School) -> Kept | None:
    """Return the list in force at a school; None before one was kept."""
    found: Kept | None = kind.objects.of(school).order_by("-number").first()
    return found


@transaction.atomic
def keep_list(kind: type[Kept], *, school: School, file_name: str, text: str) -> Kept:
    """Keep another list of a school; the same text as the newest adds none."""
    School.objects.select_for_update().get(pk=school.pk)
    last = kind.objects.of(school).order_by("-number").first()
    if last is not None and last.text == text:
        return last
    number = last.number + 1 if last else 1
    made: Kept = kind.objects.create(school=school, number=number, file_name=file_name[:200], text=text)
    return made
