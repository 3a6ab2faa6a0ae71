"""Keeping people: classes and members of a school, each under a key of its own."""

from typing import Any

from django.db.models import Model
from django.utils.text import slugify

from setday.web.keeping.models import Member, MemberRole, School, SchoolClass

__all__ = ["keep_class", "keep_member", "keep_school", "shown_name"]

_LONGEST_KEY = 50
_LONGEST_SHOWN = 60


def keep_school(*, name: str) -> School:
    """Keep another school of the installation."""
    wanted = slugify(name)[:_LONGEST_KEY].strip("-") or "school"
    key, count = wanted, 1
    while School.objects.filter(key=key).exists():
        count += 1
        key = f"{wanted}-{count}"
    made: School = School.objects.create(key=key, name=name)
    return made


def keep_class(school: School, *, name: str) -> SchoolClass:
    """Keep a new class of a school."""
    key = _free_key(SchoolClass, school, name=name, usual="class")
    made: SchoolClass = SchoolClass.objects.create(school=school, key=key, name=name)
    return made


def keep_member(school: School, *, name: str, role: Any = MemberRole.CREW, **facts: Any) -> Member:
    """Keep a new member of a school; `facts` are further fields of the record."""
    key = _free_key(Member, school, name=shown_name(name), usual="member")
    shown = facts.pop("shown_as", "") or shown_name(name)
    made: Member = Member.objects.create(
        school=school, key=key, name=name, role=role, shown_as=shown[:_LONGEST_SHOWN], **facts
    )
    return made


def shown_name(name: str) -> str:
    """Return how crews read a name: the first name and the first letter of the last, "Ana R."."""
    words = name.split()
    if len(words) < 2:
        return name[:_LONGEST_SHOWN]
    return f"{words[0][: _LONGEST_SHOWN - 3]} {words[-1][0]}."


def _free_key(kind: type[Model], school: School, *, name: str, usual: str) -> str:
    wanted = slugify(name)[:_LONGEST_KEY].strip("-") or usual
    key, count = wanted, 1
    while kind.objects.filter(school=school, key=key).exists():
        count += 1
        key = f"{wanted}-{count}"
    return key
