"""Keeping hookups: every version as it was entered, none ever written over.

For every group of screens that works on hookups:

* `hookups_kept(school)` lists those not put away;
  `hookup_of(school, key)` finds one, None when there is none;
* `opened_hookup(kept)` reads the newest version into a `HookupFile` (its hookup, or its findings);
* `keep_hookup` keeps a new one, `add_hookup_version` another version;
* `take_again` keeps what a newer version of the house makes of it;
* `open_plan` and `seal_plan` open and seal the answer (the kept joins and the plan).
"""

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from django.db.models import QuerySet

from setday.actions.versions import add_version, keep_new, version_of
from setday.web.keeping.models import HookupDrawing, HookupVersion, House, KeptHookup, School
from setday.web.keeping.versions import DjangoVersions

if TYPE_CHECKING:
    from setday.files import HookupFile

__all__ = [
    "HOOKUPS",
    "add_hookup_version",
    "drawing_of",
    "give_to_house",
    "hookup_of",
    "hookup_version_of",
    "hookups_kept",
    "keep_hookup",
    "open_plan",
    "opened_hookup",
    "read_kept",
    "seal_plan",
    "take_again",
]

_READ_AT_ONCE = 64

HOOKUPS = DjangoVersions(
    things=KeptHookup,
    versions=HookupVersion,
    link="hookup",
    usual_key="hookup",
    taken_keys=frozenset({"new", "check", "put-away", "build", "hunts"}),
)
"""The store of hookups that actions work on."""


def hookups_kept(school: School, *, house: House | None = None) -> QuerySet[KeptHookup]:
    """Return the hookups of a school that were not put away, those of one house where one is given."""
    found = KeptHookup.objects.of(school).filter(put_away=False)
    return found if house is None else found.filter(house=house)


def hookup_of(school: School, key: str) -> KeptHookup | None:
    """Return the hookup of a school that has a key; None when there is none."""
    found: KeptHookup | None = KeptHookup.objects.of(school).filter(key=key).first()
    return found


def keep_hookup(
    *,
    school: School,
    name: str,
    file_name: str,
    text: str,
    house: House | None = None,
    group: str = "",
    of_version: int = 0,
) -> KeptHookup:
    """Keep a new hookup with its first version; its plan is sealed.

    `group` and `of_version` say from which switched group and version of the house it was taken.
    """
    facts = {"school": school, "house": house, "house_group": group, "house_version": of_version or None}
    of_house = replace(HOOKUPS, more=facts, within={"school": school})
    return keep_new(of_house, name=name, file_name=file_name, text=text)[0]


def take_again(kept: KeptHookup, *, text: str, file_name: str, of_version: int, note: str) -> None:
    """Keep what a newer house file makes of the hookup's group; another version seals the plan again."""
    with HOOKUPS.together():
        if not kept.versions.filter(text=text).exists():
            add_hookup_version(kept, name=kept.name, file_name=file_name, text=text, note=note)
            kept.plan_opened = False
        kept.house_version = of_version
        kept.save(update_fields=["house_version", "plan_opened"])


def add_hookup_version(
    kept: KeptHookup, *, name: str, file_name: str, text: str, note: str = ""
) -> HookupVersion:
    """Keep another version; the same text as the newest adds none."""
    return add_version(HOOKUPS, kept, name=name, file_name=file_name, text=text, note=note)


def hookup_version_of(kept: KeptHookup, number: str | None) -> HookupVersion | None:
    """Return the version of that number, the newest without a number, None when there is no such."""
    return version_of(HOOKUPS, kept, number)


def opened_hookup(kept: KeptHookup) -> "HookupFile":
    """Return the newest version of a hookup as read, with everything found in it."""
    newest = kept.newest
    return read_kept(newest.text, newest.file_name)


@lru_cache(maxsize=_READ_AT_ONCE)
def read_kept(text: str, name: str) -> "HookupFile":
    """Return a hookup file as read; read once while its text is the same."""
    from setday.actions.switching.hookups import open_hookup

    return open_hookup(text, name=name)


def give_to_house(kept: KeptHookup, house: House | None) -> None:
    """Say which house a hookup belongs to; at another one it is taken from no switched group any more."""
    if kept.house != house:
        kept.house, kept.house_group, kept.house_version = house, "", None
        kept.save(update_fields=["house", "house_group", "house_version"])


def open_plan(kept: KeptHookup) -> None:
    """Open the answer: from now on the kept joins and the plan may be shown."""
    kept.plan_opened = True
    kept.save(update_fields=["plan_opened"])


def seal_plan(kept: KeptHookup) -> None:
    """Seal the answer again."""
    kept.plan_opened = False
    kept.save(update_fields=["plan_opened"])


def drawing_of(kept: KeptHookup, *, by: str = "") -> HookupDrawing:
    """Return what somebody has drawn on a hookup; nothing joined yet where they have not begun."""
    found: HookupDrawing | None = kept.drawings.filter(by=by).first()
    return found or HookupDrawing(hookup=kept, by=by)
