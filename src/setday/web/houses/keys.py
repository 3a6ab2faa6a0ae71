"""The keys of the house file for a person to read, from the schema that editors use."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

__all__ = ["KeyRow", "KeySection", "key_sections"]

Schema = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyRow:
    """One key below a heading of the file: where it stands, what it says, an example of it."""

    key: str
    says: str
    needed: bool
    like: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeySection:
    """One key at the left edge of the file, with the keys below it."""

    key: str
    says: str
    needed: bool
    like: str
    rows: tuple[KeyRow, ...]


@lru_cache(maxsize=1)
def key_sections() -> tuple[KeySection, ...]:
    """Return every key of the house file, in the order of its form."""
    from setday.files import house_schema

    schema = house_schema()
    parts = schema["$defs"]
    return tuple(
        KeySection(
            key=key,
            says=each.get("description", ""),
            needed=key in schema.get("required", ()),
            like=_like(each),
            rows=tuple(_below(each, parts, path=(), seen=())),
        )
        for key, each in schema["properties"].items()
    )


def _below(
    schema: Schema, parts: Schema, *, path: tuple[str, ...], seen: tuple[str, ...]
) -> Iterator[KeyRow]:
    for name in _parts_of(schema):
        if name in seen:
            continue
        part = parts[name]
        for key, each in part.get("properties", {}).items():
            here = (*path, key)
            yield KeyRow(
                key=" › ".join(here),
                says=each.get("description") or _described(each, parts),
                needed=key in part.get("required", ()),
                like=_like(each),
            )
            yield from _below(each, parts, path=here, seen=(*seen, name))


def _parts_of(schema: Schema) -> list[str]:
    """Return the names of the parts a key may hold, itself, in a list or by name."""
    inner = [schema, *schema.get("anyOf", ())]
    deeper = [
        each[place] for each in inner for place in ("items", "additionalProperties") if _is(each, place)
    ]
    return [each["$ref"].rpartition("/")[2] for each in (*inner, *deeper) if "$ref" in each]


def _is(schema: Schema, place: str) -> bool:
    return isinstance(schema.get(place), Mapping)


def _described(schema: Schema, parts: Schema) -> str:
    return next((parts[name].get("description", "") for name in _parts_of(schema)), "")


def _like(schema: Schema) -> str:
    choices = schema.get("enum") or schema.get("examples") or ()
    inner = (each for each in schema.get("anyOf", ()) if isinstance(each, Mapping))
    return ", ".join(str(each) for each in choices) or next(filter(None, map(_like, inner)), "")
