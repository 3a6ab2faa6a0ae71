"""The switched groups of a house's circuits, beside the hookups that were taken from them."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from setday.errors import SetdayError
from setday.web.cable.figured import cable_of
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.hookups import hookups_kept, keep_hookup, take_again
from setday.web.keeping.models import KeptHookup

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable
    from setday.actions.switching.switch_legs import HouseHookup

__all__ = ["GroupRow", "group_words", "rows_of", "taken"]

_LONGEST = 200
"""Letters of a group's name that the records hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupRow:
    """A switched group of the house as looked at, and the hookup that was taken from it.

    Parameters
    ----------
    found : HouseHookup
    number : int
        Of its circuit.
    text, file_name : str
        Its hookup as a file.
    kept : KeptHookup or None
    older : bool
        What was kept is from an older version of the house file.
    otherwise : bool
        The version looked at makes another hookup of the group than every one that was kept.
    """

    found: "HouseHookup"
    number: int
    text: str
    file_name: str
    kept: KeptHookup | None
    older: bool
    otherwise: bool


def group_words(sheet: HouseSheet) -> dict[str, Any]:
    """Return the switched groups for the sheet, or why there are none to show."""
    if sheet.opened.house is None:
        return {"not_built": True}
    try:
        cable = cable_of(sheet)
    except SetdayError as error:
        return {"no_groups": error}
    return {"groups": rows_of(sheet, cable), "unplanned": cable.unplanned, "proposed": cable.proposed}


def rows_of(sheet: HouseSheet, cable: "HouseCable") -> list[GroupRow]:
    """Return every switched group of a house, circuit by circuit."""
    from setday.actions.switching.house_hookups import hookup_texts

    of_house = hookups_kept(sheet.house.school, house=sheet.house)
    kept = {each.house_group: each for each in of_house.exclude(house_group="")}
    texts = hookup_texts(cable.hookups)
    rows = [
        _row(sheet, cable, each, file_name, text, kept.get(each.group.name[:_LONGEST]))
        for each, (file_name, text) in zip(cable.hookups, texts.items(), strict=True)
    ]
    return sorted(rows, key=lambda row: row.number)


def _row(
    sheet: HouseSheet,
    cable: "HouseCable",
    found: "HouseHookup",
    file_name: str,
    text: str,
    kept: KeptHookup | None,
) -> GroupRow:
    return GroupRow(
        found=found,
        number=cable.figure.number_of(found.group.circuit),
        text=text,
        file_name=file_name,
        kept=kept,
        older=kept is not None and (kept.house_version or 0) < sheet.version.number,
        otherwise=kept is not None and not kept.versions.filter(text=text).exists(),
    )


def taken(sheet: HouseSheet, row: GroupRow, *, note: str) -> KeptHookup:
    """Keep a group as a hookup of its house, or as the next version of the one that was kept."""
    number = sheet.version.number
    if row.kept is None:
        return keep_hookup(
            school=sheet.house.school,
            name=row.found.hookup.name,
            file_name=row.file_name,
            text=row.text,
            house=sheet.house,
            group=row.found.group.name[:_LONGEST],
            of_version=number,
        )
    if row.older:
        take_again(row.kept, text=row.text, file_name=row.file_name, of_version=number, note=note)
    return row.kept
