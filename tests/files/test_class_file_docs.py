"""docs/class-file.md and the published schema say what holds."""

import json
import re
from datetime import date
from pathlib import Path
from textwrap import dedent

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from setday.files import class_schema, read_class
from setday.files.class_file.shape import ClassPart
from setday.files.written.complaints import keys_of
from setday.roster import exposures, limits
from tests.files.typed_class import WORKSHOP, changed

ROOT = Path(__file__).resolve().parents[2]
DOCS = (ROOT / "docs" / "class-file.md").read_text(encoding="utf-8")
SECTIONS = {
    "The file": (),
    "classes": ("classes", "x"),
    "students": ("students", "x"),
    "signoffs": ("signoffs", 0),
    "calendar": ("calendar",),
    "guests": ("calendar", "guests", "x"),
    "helpers": ("calendar", "helpers", "x"),
    "tasks": ("tasks", "x"),
    "pins": ("pins", 0),
}
CHECKER = Draft202012Validator(class_schema())


def section(heading):
    """The text below a heading of the list of keys."""
    return re.split(r"^### ", DOCS.split(f"\n### {heading}\n", 1)[1], maxsplit=1, flags=re.MULTILINE)[0]


def loaded(text):
    """A class file as an editor's YAML reader gives it, days as text."""
    return as_text(YAML(typ="safe", pure=True).load(text))


def as_text(value):
    """The same with days as their text: a schema knows no days."""
    if isinstance(value, dict):
        return {as_text(key): as_text(each) for key, each in value.items()}
    if isinstance(value, list):
        return [as_text(each) for each in value]
    return value.isoformat() if isinstance(value, date) else value


def test_the_worked_example_grows_into_the_small_class():
    steps = re.findall(r"^```yaml\n(.*?)^```", DOCS, re.MULTILINE | re.DOTALL)
    assert "\n".join(steps) == WORKSHOP


@pytest.mark.parametrize("heading", SECTIONS)
def test_every_key_has_its_row_and_every_row_is_a_key(heading):
    rows = set(re.findall(r"^\| `([a-z ]+)` \|", section(heading), re.MULTILINE))
    assert rows == set(keys_of(SECTIONS[heading], ClassPart))


def test_no_section_is_left_out_of_these_tests():
    described = set(class_schema()["$defs"])
    assert len(described) == len(SECTIONS) - 1


@pytest.mark.parametrize(
    "example",
    [
        dedent(block)
        for block in re.findall(r"(?:^ {4}.*\n)+", DOCS[DOCS.index("## Every key") :], re.MULTILINE)
    ],
    ids=lambda text: text.split("\n")[0],
)
def test_every_example_fits_the_schema(example):
    checker = Draft202012Validator(class_schema() | {"required": []})
    assert [error.message for error in checker.iter_errors(loaded(example))] == []


def test_the_published_schema_is_the_one_in_force():
    published = json.loads((ROOT / "docs" / "class-file.schema.json").read_text(encoding="utf-8"))
    assert published == class_schema(), "write it anew: python bench/write_class_schema.py"


def test_the_schema_is_a_schema():
    Draft202012Validator.check_schema(class_schema())


@pytest.mark.parametrize(
    "text", [WORKSHOP, (ROOT / "src" / "setday" / "demo" / "class.yaml").read_text(encoding="utf-8")]
)
def test_good_files_fit_the_schema(text):
    assert [error.message for error in CHECKER.iter_errors(loaded(text))] == []


@pytest.mark.parametrize(
    ("meant", "typed"),
    [
        ("born:", "burn:"),
        ("school: Elm Creek School\n", ""),
        ("students:\n", "pupils:\n"),
        ("trade: roof", "trades: roof"),
    ],
)
def test_what_the_schema_refuses_the_reader_refuses(meant, typed):
    text = changed(meant, typed)
    assert list(CHECKER.iter_errors(loaded(text)))
    assert read_class(text, name="x").plan is None


def test_every_key_says_what_it_means():
    schema = class_schema()
    silent = [
        key
        for part in (schema, *schema["$defs"].values())
        for key, each in part["properties"].items()
        if not each.get("description")
    ]
    assert silent == []


ROSTER = (ROOT / "docs" / "roster.md").read_text(encoding="utf-8")


def test_every_exposure_and_every_limit_is_listed():
    for limit in limits():
        row = next(line for line in ROSTER.splitlines() if line.startswith(f"| `{limit.key}` |"))
        assert f"| {limit.under} |" in row
        assert ("yes" if limit.learner else "no") in row.split("|")[5]
        assert str(limit.source) in row
        for word in limit.exposures & set(exposures()):
            assert f"`{word}`" in row
