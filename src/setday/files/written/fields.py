"""Field types that every file people write has: names, free text, yes or no, whole numbers.

A field is read from its text by a reader that returns a value, or raises `Misread` with what was found, what
was expected and what to do.
"""

import re
from collections.abc import Callable
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, PlainValidator, StringConstraints, WithJsonSchema
from pydantic_core import PydanticCustomError

__all__ = ["FreeText", "Misread", "Name", "YesNo", "collapsed", "count_of", "misread", "one_line", "read_by"]


class Misread(Exception):
    """A phrase that cannot be read: what was found, what was expected, what to do."""

    def __init__(self, found: str, expected: str, do: str) -> None:
        super().__init__(found)
        self.found, self.expected, self.do = found, expected, do


def misread(found: str, expected: str, do: str) -> PydanticCustomError:
    """Return the error that carries a finding's three sentences through pydantic."""
    return PydanticCustomError("setday", "{found}", {"found": found, "expected": expected, "do": do})


def one_line(value: Any) -> str:
    """Return the text of a line, or raise what is wrong with it."""
    if isinstance(value, str):
        return value
    what = {type(None): "nothing", dict: "names with values", list: "a list"}.get(
        type(value), "something else"
    )
    raise misread(
        f"{what} is written here.", "a word or a length on the same line.", "Write it after the colon."
    )


def read_by(read: Callable[[str], Any]) -> PlainValidator:
    """Return the validator that reads a line of text, a finding's sentences carried through pydantic."""

    def validate(value: Any) -> Any:
        try:
            return read(one_line(value))
        except Misread as error:
            raise misread(error.found, error.expected, error.do) from error

    return PlainValidator(validate)


def _yes_no(text: str) -> bool:
    known = {"yes": True, "no": False, "true": True, "false": False, "on": True, "off": False}
    if text.lower() not in known:
        raise Misread(f"'{text}' is neither yes nor no.", "yes or no.", "Write yes or no.")
    return known[text.lower()]


YesNo = Annotated[bool, read_by(_yes_no), WithJsonSchema({"enum": ["yes", "no", True, False]})]


def _whole(low: int, high: int) -> Callable[[str], int]:
    def read(text: str) -> int:
        if not re.fullmatch(r"[0-9]{1,3}", text) or not low <= int(text) <= high:
            raise Misread(
                f"'{text[:30]}' is not a number from {low} to {high}.",
                f"{low} to {high}.",
                "Write a whole number.",
            )
        return int(text)

    return read


def count_of(low: int, high: int) -> tuple[PlainValidator, WithJsonSchema]:
    """Return the validator and the schema of a whole number."""
    number = {"type": "integer", "minimum": low, "maximum": high}
    schema = {"anyOf": [number, {"type": "string", "pattern": "^[0-9]+$"}]}
    return read_by(_whole(low, high)), WithJsonSchema(schema)


def collapsed(value: str) -> str:
    """Return text with its runs of blanks made one."""
    return " ".join(value.split())


Name = Annotated[
    str,
    BeforeValidator(one_line),
    AfterValidator(collapsed),
    StringConstraints(min_length=1, max_length=60),
    WithJsonSchema({"type": "string", "minLength": 1, "maxLength": 60}),
]
FreeText = Annotated[
    str,
    BeforeValidator(one_line),
    StringConstraints(max_length=500),
    WithJsonSchema({"type": ["string", "number", "boolean"]}),
]
