"""Typst source from values: every word a person typed stands in a string, never in markup."""

from collections.abc import Iterable

__all__ = ["array", "call", "escaped", "flag"]


def escaped(text: str) -> str:
    """Write `text` as a Typst string; characters no file may hold are shown as a box."""
    plain = "".join(_safe(character) for character in text)
    return '"' + plain + '"'


def _safe(character: str) -> str:
    if character in {'"', "\\"}:
        return f"\\{character}"
    if character == "\n":
        return "\\n"
    code = ord(character)
    if code < 0x20 or 0x7F <= code < 0xA0 or 0xD800 <= code <= 0xDFFF:
        return "\N{WHITE SQUARE}"
    return character


def flag(*, value: bool) -> str:
    """Write a truth value."""
    return "true" if value else "false"


def array(values: Iterable[str]) -> str:
    """Write an array of values that are Typst already; one value keeps its comma."""
    written = ", ".join(values)
    return f"({written},)" if written else "()"


def call(name: str, *places: str, **named: str) -> str:
    """Write a call of a function of the look; ``_`` in names stands for ``-``."""
    given = [*places, *(f"{key.replace('_', '-')}: {value}" for key, value in named.items())]
    return f"#{name}({', '.join(given)})"
