"""Files and their versions in the database: what `setday.actions.versions` asks of a store."""

from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

from django.db import models, transaction

__all__ = ["DjangoVersions"]

Row = TypeVar("Row", bound=models.Model)
VersionRow = TypeVar("VersionRow", bound=models.Model)


@dataclass(frozen=True, kw_only=True)
class DjangoVersions(Generic[Row, VersionRow]):
    """Things of one model and their versions of another.

    Parameters
    ----------
    things, versions : model
    link : str
        Name of the field by which a version hangs on its thing.
    usual_key : str
    taken_keys : frozenset of str
    more : dict
        Further fields of a thing that is begun: its school, the house a hookup belongs to.
    within : dict
        What fields say of the things that are looked through: those of one school.
    """

    things: type[Row]
    versions: type[VersionRow]
    link: str
    usual_key: str
    taken_keys: frozenset[str]
    more: dict[str, Any] = field(default_factory=dict)
    within: dict[str, Any] = field(default_factory=dict)

    def together(self) -> AbstractContextManager[object]:
        """Begin a transaction."""
        block: AbstractContextManager[object] = transaction.atomic()
        return block

    def has_key(self, key: str) -> bool:
        """Tell whether a row has this key."""
        return bool(self._things.filter(key=key).exists())

    def named(self, name: str) -> Row | None:
        """Return the row of this name, whatever its case; one that is not put away first."""
        found: Row | None = self._things.filter(name__iexact=name).order_by("put_away", "pk").first()
        return found

    def begin(self, *, key: str, name: str) -> Row:
        """Write a new row."""
        made: Row = self.things.objects.create(key=key, name=name, **self.more)
        return made

    def hold(self, thing: Row) -> None:
        """Lock the row until the transaction ends."""
        self.things.objects.select_for_update().get(pk=thing.pk)

    def rename(self, thing: Row, name: str) -> None:
        """Write another name."""
        thing.name = name
        thing.save(update_fields=["name"])

    def newest(self, thing: Row) -> VersionRow | None:
        """Return the version in force."""
        return self._of(thing).order_by("-number").first()

    def numbered(self, thing: Row, number: int) -> VersionRow | None:
        """Return the version of a number."""
        return self._of(thing).filter(number=number).first()

    def write(self, thing: Row, *, number: int, file_name: str, text: str, note: str) -> VersionRow:
        """Write a version."""
        facts = {"number": number, "file_name": file_name, "text": text, "note": note}
        made: VersionRow = self.versions.objects.create(**{self.link: thing}, **facts)
        return made

    @property
    def _things(self) -> Any:
        return self.things.objects.filter(**self.within)

    def _of(self, thing: Row) -> Any:
        return self.versions.objects.filter(**{self.link: thing})
