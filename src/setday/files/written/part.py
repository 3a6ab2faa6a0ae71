"""A mapping of a file that people write: the base of its sections."""

from typing import Any

from pydantic import BaseModel, ConfigDict, Field

__all__ = ["Part", "or_text", "says"]


def says(text: str, *examples: str) -> Any:
    """Return a field that may be left out, with its meaning and examples.

    Parameters
    ----------
    text : str
        What the key means, and what holds when it is not written.
    *examples : str
    """
    return Field(default=None, description=text, examples=list(examples) or None)


class Part(BaseModel):
    """A mapping of such a file: only the keys named here."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        arbitrary_types_allowed=True,
        alias_generator=lambda name: name.replace("_", " "),
    )


def or_text(schema: dict[str, Any], *examples: str) -> dict[str, Any]:
    """Return the schema of a mapping that may also be written as one line of text."""
    return {"anyOf": [{"type": "string", "examples": list(examples)}, schema]}
