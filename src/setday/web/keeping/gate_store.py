"""The gates of a house in the database: what `setday.actions.gates.store` asks of a store."""

import json
from collections.abc import Collection
from contextlib import AbstractContextManager
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from setday.closein import Added, BlockingFor, ItemKind, Mark, MarkKind, Role, Signer, Spot
from setday.measure import Length
from setday.web.entries import NOBODY, SignIn
from setday.web.keeping.models import ClosedSurface, GateAdded, GateMark, GateSettings, House
from setday.web.keeping.turns import in_turn

__all__ = ["DjangoGates"]


@dataclass(frozen=True, kw_only=True)
class DjangoGates:
    """The gates of one house, and under whose sign-in marks are made."""

    house: House
    sign_in: SignIn = NOBODY

    def together(self) -> AbstractContextManager[object]:
        """Begin a transaction."""
        return in_turn()

    def hold(self) -> None:
        """Lock the house's row until the transaction ends."""
        House.objects.select_for_update().get(pk=self.house.pk)

    def marks(self, surfaces: Collection[str] | None = None) -> tuple[Mark, ...]:
        """Return marks in the order they were written."""
        rows = GateMark.objects.filter(house=self.house)
        if surfaces is not None:
            rows = rows.filter(surface__in=list(surfaces))
        return tuple(_mark(row) for row in rows.order_by("pk"))

    def mark_of(self, entry: str) -> Mark | None:
        """Return the mark of an entry."""
        row = GateMark.objects.filter(house=self.house, entry=entry).first()
        return None if row is None else _mark(row)

    def write(self, mark: Mark, *, version: int) -> None:
        """Write a mark."""
        GateMark.objects.create(
            house=self.house,
            entry=mark.entry,
            surface=mark.surface,
            item=mark.item,
            label=mark.label,
            kind=mark.kind.value,
            words=mark.words,
            photo=mark.photo,
            at=mark.at,
            version=version,
            signed_in_key=self.sign_in.key,
            signed_in_name=self.sign_in.name,
            device=self.sign_in.device,
            **_signed(mark.by),
        )

    def added(self) -> tuple[Added, ...]:
        """Return everything that was added, in order."""
        return tuple(_added(row) for row in GateAdded.objects.filter(house=self.house).order_by("pk"))

    def add(self, added: Added) -> None:
        """Write an added item."""
        spot = added.spot
        GateAdded.objects.create(
            house=self.house,
            entry=added.key,
            surface=added.surface,
            kind=added.kind.value,
            what=added.what.value,
            words=added.words,
            x=_written(spot.x if spot else None),
            y=_written(spot.y if spot else None),
            w=_written(spot.w if spot else None),
            h=_written(spot.h if spot else None),
            notice_days=added.notice_days,
            at=added.at,
            **_signed(added.by),
        )

    def strike(self, added: Added) -> None:
        """Write why an added item is asked for no longer."""
        GateAdded.objects.filter(house=self.house, entry=added.key).update(struck=added.struck)

    def write_record(self, entry: str, surface: str, document: dict[str, Any]) -> None:
        """Write what was inside a surface."""
        digest = sha256(json.dumps(document, sort_keys=True).encode("utf-8")).hexdigest()
        ClosedSurface.objects.create(
            house=self.house, entry=entry, surface=surface, record=document, digest=digest
        )

    def record(self, entry: str) -> dict[str, Any] | None:
        """Return the record of a closing."""
        row = ClosedSurface.objects.filter(house=self.house, entry=entry).first()
        return None if row is None else dict(row.record)

    @property
    def helper_confirms(self) -> bool:
        """Whether helpers may confirm and refuse."""
        return bool(GateSettings.objects.filter(house=self.house, helper_confirms=True).exists())


def _signed(by: Signer) -> dict[str, str]:
    return {"by_key": by.key, "by_name": by.name, "by_role": by.role.value}


def _signer(row: GateMark | GateAdded) -> Signer:
    return Signer(key=row.by_key, name=row.by_name, role=Role(row.by_role))


def _mark(row: GateMark) -> Mark:
    return Mark(
        entry=row.entry,
        surface=row.surface,
        item=row.item,
        label=row.label,
        kind=MarkKind(row.kind),
        by=_signer(row),
        at=row.at,
        words=row.words,
        photo=row.photo,
    )


def _added(row: GateAdded) -> Added:
    spot = None
    if row.x is not None and row.y is not None:
        spot = Spot(x=Length(row.x), y=Length(row.y), w=_read(row.w), h=_read(row.h))
    return Added(
        key=row.entry,
        surface=row.surface,
        kind=ItemKind(row.kind),
        by=_signer(row),
        at=row.at,
        what=BlockingFor(row.what),
        words=row.words,
        spot=spot,
        notice_days=row.notice_days,
        struck=row.struck,
    )


def _written(length: Length | None) -> int | None:
    return None if length is None else length.sixtyfourths


def _read(sixtyfourths: int | None) -> Length | None:
    return None if sixtyfourths is None else Length(sixtyfourths)
