"""The JSON Schema of a file that people write, for editors."""

from typing import Any

from setday.files.written.part import Part

__all__ = ["published"]

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def published(shape: type[Part], *, title: str, description: str) -> dict[str, Any]:
    """Return the JSON Schema of a file of a shape.

    Parameters
    ----------
    shape : type of Part
    title, description : str
    """
    schema = shape.model_json_schema(by_alias=True)
    return {
        "$schema": _DIALECT,
        "title": title,
        "description": description,
        **{
            key: value
            for key, value in _without_titles(schema).items()
            if key not in ("title", "description")
        },
    }


def _without_titles(value: Any, *, names: bool = False) -> Any:
    """Drop the titles pydantic makes up, and the "or null" of keys that may be left out."""
    if isinstance(value, list):
        return [_without_titles(each) for each in value]
    if not isinstance(value, dict):
        return value
    kept = {
        key: _without_titles(each, names=key in ("properties", "$defs"))
        for key, each in value.items()
        if names or key not in ("title", "default")
    }
    return kept if names else _without_null(kept)


def _without_null(schema: dict[str, Any]) -> dict[str, Any]:
    choices = [each for each in schema.get("anyOf", ()) if each != {"type": "null"}]
    if "anyOf" not in schema or len(choices) == len(schema["anyOf"]):
        return schema
    rest = {key: each for key, each in schema.items() if key != "anyOf"}
    return {**choices[0], **rest} if len(choices) == 1 else {"anyOf": choices, **rest}
