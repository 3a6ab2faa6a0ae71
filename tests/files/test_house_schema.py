"""The published schema: right, current, and agreeing with the reader."""

import json
import re
from pathlib import Path

import jsonschema
import pytest
from ruamel.yaml import YAML

from setday.files import house_schema
from tests.files.typed import HOUSE, PLAIN, SHED, changed, read

PUBLISHED = Path(__file__).resolve().parents[2] / "docs" / "house-file.schema.json"
CHECKER = jsonschema.Draft202012Validator(house_schema())


def loaded(text: str) -> object:
    """Return a house file as an editor's YAML 1.2 reader gives it."""
    return YAML(typ="safe", pure=True).load(text)


def test_the_schema_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(house_schema())


def test_the_published_schema_is_the_one_in_force():
    assert json.loads(PUBLISHED.read_text(encoding="utf-8")) == house_schema(), (
        "write it anew: python bench/write_house_schema.py"
    )


@pytest.mark.parametrize("text", [SHED, HOUSE, PLAIN], ids=["shed", "house", "plain"])
def test_good_houses_fit_the_schema(text):
    assert [error.message for error in CHECKER.iter_errors(loaded(text))] == []


@pytest.mark.parametrize(
    ("meant", "typed"),
    [
        ("runs: north", "runs: up"),
        ("wall kinds:", "wal kinds:"),
        ("use: bedroom", "us: bedroom"),
        ("outside: yes", "outside: maybe"),
        ("wall height: 8'", "wall height: 8"),
        ("at: [6', 6']", "at: [6']"),
        ("name: Practice house\n", ""),
    ],
)
def test_what_the_schema_refuses_the_reader_refuses(meant, typed):
    text = changed(meant, typed)
    assert list(CHECKER.iter_errors(loaded(text)))
    assert read(text).description is None


def patterns(value: object) -> list[str]:
    """Return every pattern of a schema."""
    if isinstance(value, list):
        return [found for each in value for found in patterns(each)]
    if not isinstance(value, dict):
        return []
    own = [value["pattern"]] if isinstance(value.get("pattern"), str) else []
    return own + [found for each in value.values() for found in patterns(each)]


def test_patterns_hold_in_browsers_too_where_only_signs_with_a_meaning_may_be_escaped():
    found = patterns(house_schema())
    assert found
    escaped = {sign for pattern in found for sign in re.findall(r"\\(.)", pattern)}
    assert escaped <= set("^$\\.*+?()[]{}|/bBdDsSwW")


def descriptions_of(schema: dict) -> list[str]:
    """Return the keys of a schema's mappings that say nothing of themselves."""
    silent = []
    for part in (schema, *schema["$defs"].values()):
        for shape in (part, *part.get("anyOf", ())):
            silent += [
                key for key, each in shape.get("properties", {}).items() if not each.get("description")
            ]
    return silent


def test_every_key_says_what_it_means():
    assert descriptions_of(house_schema()) == []
