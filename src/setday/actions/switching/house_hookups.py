"""The hookups of a house's switched groups, picked by circuit or group and written as files."""

import re
from collections.abc import Iterable

from setday.actions.switching.switch_legs import HouseHookup
from setday.errors import SetdayError
from setday.files import write_hookup

__all__ = ["hookup_texts", "picked"]


def picked(hookups: Iterable[HouseHookup], *, circuit: str = "", group: str = "") -> tuple[HouseHookup, ...]:
    """Return the hookups of a circuit or of a group; all of them where neither is named.

    Parameters
    ----------
    hookups : iterable of HouseHookup
    circuit, group : str
        Names as the listing gives them, whatever their case; empty for any.

    Raises
    ------
    SetdayError
        When no switched group bears the names.
    """
    every = tuple(hookups)
    found = tuple(
        each
        for each in every
        if circuit.casefold() in ("", each.group.circuit.casefold())
        and group.casefold() in ("", each.group.name.casefold())
    )
    if found or not (circuit or group):
        return found
    asked = " and ".join(
        f"{what} '{name}'" for what, name in (("circuit", circuit), ("group", group)) if name
    )
    there = "; ".join(f"{each.group.name} (circuit {each.group.circuit})" for each in every)
    raise SetdayError(
        f"The house has no switched group of {asked}.",
        do=f"Its switched groups are: {there}." if there else "It has no switched groups at all.",
    )


def hookup_texts(hookups: Iterable[HouseHookup]) -> dict[str, str]:
    """Return each hookup as a hookup file, by a file name of its own.

    Parameters
    ----------
    hookups : iterable of HouseHookup
    """
    texts: dict[str, str] = {}
    for each in hookups:
        plain = re.sub(r"[\W_]+", "-", each.group.name.lower()).strip("-") or "hookup"
        name, count = f"{plain}.yaml", 1
        while name in texts:
            count += 1
            name = f"{plain}-{count}.yaml"
        texts[name] = write_hookup(each.hookup)
    return texts
