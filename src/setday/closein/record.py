"""What was inside a surface when it was closed: written once, and the same whatever the house becomes."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime, tzinfo
from typing import Any

from setday.closein.gate import Gate, ItemState, Stand
from setday.closein.marks import Mark, MarkKind

__all__ = ["BehindItem", "BehindRecord", "behind_record", "record_document", "record_from"]

_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class BehindItem:
    """One thing of the record: what it is, where, who did and saw it, and when, in words.

    Parameters
    ----------
    label, where, state : str
    done_by, done_at, seen_by, seen_at : str
        Empty where nobody did or saw it.
    words : str
        The reason where it was overruled, else what was last said of it.
    photos : tuple of str
        Keys of the photos.
    other_side : bool
        True for what belongs to the other side of the wall.
    """

    label: str
    where: str
    state: str
    done_by: str
    done_at: str
    seen_by: str
    seen_at: str
    words: str
    photos: tuple[str, ...]
    other_side: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BehindRecord:
    """What is behind a surface.

    Parameters
    ----------
    house : str
        Its name.
    version : int
        Number of the house file.
    digest : str
        SHA-256 of the house file.
    surface, label : str
    closed_by, closed_at, words : str
    items : tuple of BehindItem
    drawing : str
        SVG.
    head : tuple of str
        What the columns of `rows` are called.
    rows : tuple of tuples of str
        Everything inside with its measures, as the drawing shows it.
    """

    house: str
    version: int
    digest: str
    surface: str
    label: str
    closed_by: str
    closed_at: str
    words: str
    items: tuple[BehindItem, ...]
    drawing: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def photos(self) -> tuple[str, ...]:
        """Keys of all its photos, each once."""
        return tuple(dict.fromkeys(photo for item in self.items for photo in item.photos))


def behind_record(
    gate: Gate,
    closing: Mark,
    *,
    house: str,
    version: int,
    digest: str,
    drawing: str,
    head: tuple[str, ...],
    rows: tuple[tuple[str, ...], ...],
    zone: tzinfo | None = None,
) -> BehindRecord:
    """Return the record of a surface at the moment it is closed.

    Parameters
    ----------
    gate : Gate
        As it was just before.
    closing : Mark
    house : str
    version : int
    digest : str
    drawing : str
    head : tuple of str
    rows : tuple of tuples of str
    zone : tzinfo or None
        In whose time of day it is written; None leaves times as they came.
    """
    return BehindRecord(
        house=house,
        version=version,
        digest=digest,
        surface=gate.surface,
        label=gate.label,
        closed_by=closing.by.name,
        closed_at=_time(closing.at, zone),
        words=closing.words,
        items=(
            *(_item(stand, zone, other_side=False) for stand in gate.items),
            *(_item(stand, zone, other_side=True) for stand in gate.behind),
        ),
        drawing=drawing,
        head=head,
        rows=rows,
    )


def _item(stand: Stand, zone: tzinfo | None, *, other_side: bool) -> BehindItem:
    done, seen = stand.done, stand.seen
    held = stand.last_of(MarkKind.OVERRULED) if stand.state is ItemState.OVERRULED else None
    told = held or next((mark for mark in (seen, done) if mark is not None and mark.words), None)
    return BehindItem(
        label=stand.item.label,
        where=str(stand.item.spot or ""),
        state=stand.state.value,
        done_by=done.by.name if done else "",
        done_at=_time(done.at, zone) if done else "",
        seen_by=seen.by.name if seen else "",
        seen_at=_time(seen.at, zone) if seen else "",
        words=told.words if told else "",
        photos=tuple(dict.fromkeys(mark.photo for mark in stand.marks if mark.photo)),
        other_side=other_side,
    )


def _time(at: datetime, zone: tzinfo | None) -> str:
    return (at if zone is None else at.astimezone(zone)).isoformat(timespec="minutes")


def record_document(record: BehindRecord) -> dict[str, Any]:
    """Return a record as plain values, to be kept as JSON.

    Parameters
    ----------
    record : BehindRecord
    """
    return {"setday behind": _FORMAT, **asdict(record)}


def record_from(document: Mapping[str, Any]) -> BehindRecord:
    """Return the record that was kept as plain values.

    Parameters
    ----------
    document : mapping
        As from `record_document`, once through JSON or not.
    """
    facts = {key: value for key, value in document.items() if key != "setday behind"}
    items = tuple(BehindItem(**{**each, "photos": tuple(each["photos"])}) for each in facts.pop("items"))
    rows = tuple(tuple(row) for row in facts.pop("rows"))
    return BehindRecord(**{**facts, "items": items, "rows": rows, "head": tuple(facts["head"])})
