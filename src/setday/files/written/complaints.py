"""What pydantic found against the shape, said as findings."""

from collections.abc import Iterator
from typing import Any, get_args, get_origin

from pydantic import ValidationError
from pydantic.fields import FieldInfo

from setday.files.written.notebook import Notebook, nearest
from setday.files.written.part import Part
from setday.files.written.tree import Path, Scalar, node_at

__all__ = ["complain", "field_of", "keys_of"]

_RULE = "file.entry"


def complain(error: ValidationError, notebook: Notebook) -> tuple[Path, ...]:
    """Note every complaint; return the paths they are about.

    Parameters
    ----------
    error : ValidationError
    notebook : Notebook
    """
    paths = []
    for each in error.errors(include_url=False, include_input=False):
        path = tuple(step for step in each["loc"] if step != "[key]")
        paths.append(path)
        _SAID.get(each["type"], _otherwise)(path, each, notebook)
    return tuple(paths)


def _missing(path: Path, _: Any, notebook: Notebook) -> None:
    field = field_of(path, notebook.kind.shape)
    key = str(path[-1])
    example = f"{key}: {field.examples[0]}" if field and field.examples else f"{key}:"
    meaning = field.description if field and field.description else "it."
    notebook.find(
        path[:-1],
        rule="file.missing",
        found=f"'{key}' is not written.",
        expected=f"{key}: {meaning}",
        do=f"Add a line like: {example}",
        at_key=True,
    )


def _unknown(path: Path, _: Any, notebook: Notebook) -> None:
    key, known = str(path[-1]), keys_of(path[:-1], notebook.kind.shape)
    like = nearest(key, known)
    advice = f"Did you mean '{like}'?" if like else "Take it out, or write it as a comment after #."
    if ":" in key:
        advice = f"Put a space after the colon: {key.replace(':', ': ', 1)[:60]}"
    if key == "<<":
        advice = "Write the entries out; nothing is merged from elsewhere."
    notebook.find(
        path,
        rule="file.unknown-key",
        found=f"'{key[:60]}' is not known here.",
        expected=f"one of: {', '.join(known)}.",
        do=advice,
        at_key=True,
    )


def _not_a_mapping(path: Path, _: Any, notebook: Notebook) -> None:
    node = node_at(notebook.root, path)
    nothing = isinstance(node, Scalar) and not node.text
    notebook.find(
        path,
        rule="file.missing" if nothing else _RULE,
        found="no names with values are written below it.",
        expected="one line for each name, indented below, like: name: value.",
        do="Write its entries indented below it, or take the line out.",
        at_key=True,
    )


def _not_a_list(path: Path, _: Any, notebook: Notebook) -> None:
    notebook.find(
        path,
        rule=_RULE,
        found="no list is written here.",
        expected="a list: each entry on its own line after a dash.",
        do="Put a dash and a space before each entry, indented below the name.",
    )


def _not_text(path: Path, _: Any, notebook: Notebook) -> None:
    notebook.find(
        path,
        rule=_RULE,
        found="no word is written here.",
        expected="a word or a few, on the same line.",
        do="Write it after the colon.",
    )


def _misread(path: Path, each: Any, notebook: Notebook) -> None:
    told = each["ctx"]
    notebook.find(path, rule=_RULE, found=told["found"], expected=told["expected"], do=told["do"])


def _not_a_choice(path: Path, each: Any, notebook: Notebook) -> None:
    notebook.find(
        path,
        rule=_RULE,
        found="the word is not known here.",
        expected=f"{each['ctx']['expected'].replace(chr(39), '')}.",
        do="Choose one of them.",
    )


def _wrong_size(path: Path, each: Any, notebook: Notebook) -> None:
    limits = {name: value for name, value in each["ctx"].items() if name in ("min_length", "max_length")}
    said = {"min_length": "at least", "max_length": "at most"}
    expected = ", ".join(f"{said[name]} {value}" for name, value in limits.items())
    notebook.find(
        path,
        rule=_RULE,
        found="it is too short or too long.",
        expected=f"{expected} {'characters' if 'string' in each['type'] else 'entries'}.",
        do="Check what is written here.",
    )


def _otherwise(path: Path, each: Any, notebook: Notebook) -> None:
    notebook.find(
        path,
        rule=_RULE,
        found="it cannot be read.",
        expected=f"{each['msg'].removeprefix('Input should be ')}.",
        do=f"Compare it with {notebook.kind.guide}.",
    )


_SAID = {
    "missing": _missing,
    "extra_forbidden": _unknown,
    "model_type": _not_a_mapping,
    "model_attributes_type": _not_a_mapping,
    "dict_type": _not_a_mapping,
    "list_type": _not_a_list,
    "string_type": _not_text,
    "setday": _misread,
    "literal_error": _not_a_choice,
    "string_too_short": _wrong_size,
    "string_too_long": _wrong_size,
    "too_short": _wrong_size,
    "too_long": _wrong_size,
}


def keys_of(path: Path, shape: type[Part] | None) -> tuple[str, ...]:
    """Return the keys that may stand below a path.

    Parameters
    ----------
    path : tuple of str or int
    shape : type of Part or None
        The shape of the file.
    """
    part = _part_at(path, shape)
    return tuple(name for name, _ in _fields(part)) if part else ()


def field_of(path: Path, shape: type[Part] | None) -> FieldInfo | None:
    """Return the field a path leads to.

    Parameters
    ----------
    path : tuple of str or int
    shape : type of Part or None
        The shape of the file.
    """
    part = _part_at(path[:-1], shape)
    return dict(_fields(part)).get(str(path[-1])) if part and path else None


def _fields(part: type[Part]) -> Iterator[tuple[str, FieldInfo]]:
    for name, field in part.model_fields.items():
        yield field.alias or name, field


def _part_at(path: Path, shape: type[Part] | None) -> type[Part] | None:
    part = shape
    steps = list(path)
    while steps and part:
        field = dict(_fields(part)).get(str(steps.pop(0)))
        if field is None:
            return None
        part, containers = _inside(field.annotation)
        steps = steps[containers:]
    return part


def _inside(annotation: Any) -> tuple[type[Part] | None, int]:
    """Return the section inside an annotation, and how many lists or mappings lie around it."""
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return annotation, 0
    around = 1 if get_origin(annotation) in (dict, list) else 0
    for argument in get_args(annotation):
        part, containers = _inside(argument)
        if part:
            return part, containers + around
    return None, 0
