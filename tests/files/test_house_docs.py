"""docs/house-file.md says what holds."""

import re
from pathlib import Path
from textwrap import dedent, indent

import pytest
from jsonschema import Draft202012Validator
from pydantic import BaseModel
from ruamel.yaml import YAML

from setday.files import house_schema
from setday.files.house.shape import HousePart
from setday.files.house.unless_noted import usual
from setday.files.written.complaints import keys_of
from setday.measure import parse_length
from setday.rules import load_table
from tests.files.typed import SHED, read
from tests.files.unplaced import unplaced

DOCS = (Path(__file__).resolve().parents[2] / "docs" / "house-file.md").read_text(encoding="utf-8")
BOX = "Boxes on the plan"
SECTIONS = {
    # heading in the docs: where its keys stand in a file, and headings that document some of them too
    "The file": ((), ()),
    "unless noted": (("unless noted",), ()),
    "wall kinds": (("wall kinds", "x"), ()),
    "outside walls": (("outside walls",), ()),
    "walls": (("walls", "x"), ("all walls",)),
    "all walls": (("outside walls", "walk", "x"), ("outside walls",)),
    "openings": (("openings", "x"), ()),
    "rooms": (("rooms", "x"), ()),
    "ceilings": (("ceilings", "x"), ()),
    BOX: (("floor holes", "x"), ()),
    "soffits": (("soffits", "x"), (BOX,)),
    "hatches": (("hatches", "x"), (BOX,)),
    "wet areas": (("wet areas", "x"), ()),
    "reserved": (("reserved", "x"), (BOX,)),
    "foundation": (("foundation",), ()),
    "devices": (("devices", "x"), ()),
    "circuits": (("circuits", "x"), ()),
    "wiring": (("wiring",), ()),
    "counters": (("counters", "x"), ()),
    "boards": (("boards",), ()),
    "local rules": (("local rules", "x"), ()),
}


def section(heading: str) -> str:
    """Return what stands below a heading of the docs."""
    found = re.search(rf"^### {re.escape(heading)}\n(.*?)(?=^##)", DOCS, re.MULTILINE | re.DOTALL)
    assert found, f"docs/house-file.md has no heading {heading!r}"
    return found[1]


def documented(heading: str) -> set[str]:
    """Return the keys with a row in a section's tables."""
    return set(re.findall(r"^\| `([^`]+)` \|", section(heading), re.MULTILINE))


@pytest.mark.parametrize("heading", SECTIONS)
def test_every_key_has_its_row(heading):
    path, others = SECTIONS[heading]
    rows = documented(heading).union(*map(documented, others))
    assert set(keys_of(path, HousePart)) - rows == set()


def test_every_key_of_a_board_choice_has_its_row():
    assert set(keys_of(("boards", "choices", 0), HousePart)) <= documented("boards")


@pytest.mark.parametrize("heading", SECTIONS)
def test_every_row_is_a_key(heading):
    path, _ = SECTIONS[heading]
    known = {
        *keys_of(path, HousePart),
        *keys_of(("boards", "choices", 0), HousePart),
        *keys_of(("outside walls", "walk", "x"), HousePart),
    }
    assert documented(heading) - known == set()


def parts(part: type[BaseModel], seen: set[type[BaseModel]]) -> set[type[BaseModel]]:
    """Return a section and all sections inside it."""
    seen.add(part)
    for field in part.model_fields.values():
        for inner in re.findall(r"\w+Part", str(field.annotation)):
            found = next((each for each in all_parts() if each.__name__ == inner), None)
            if found and found not in seen:
                parts(found, seen)
    return seen


def all_parts() -> list[type[BaseModel]]:
    """Return every kind of section there is."""
    waiting, found = [HousePart.__mro__[1]], []
    while waiting:
        part = waiting.pop()
        found.append(part)
        waiting += part.__subclasses__()
    return found


def test_no_section_of_the_format_is_left_out_of_these_tests():
    tested = {frozenset(keys_of(path, HousePart)) for path, _ in SECTIONS.values()}
    tested.add(frozenset(keys_of(("boards", "choices", 0), HousePart)))
    used = parts(HousePart, set())
    missing = [
        part.__name__
        for part in used
        if frozenset(field.alias or name for name, field in part.model_fields.items()) not in tested
    ]
    assert missing == []


def examples() -> list[str]:
    """Return the examples that show a section, from its name on."""
    blocks = re.findall(r"(?:^ {4}.*\n(?:\n(?= {4}))?)+", DOCS[DOCS.index("## Every key") :], re.MULTILINE)
    return [text for block in blocks if re.match(r"[a-z ]+:", text := dedent(block))]


@pytest.mark.parametrize("example", examples(), ids=lambda text: text.split(":")[0])
def test_every_example_fits_the_schema(example):
    schema = house_schema() | {"required": []}
    if example.startswith("walk:"):
        example = f"outside walls:\n{indent(example, '  ')}"
    if example.startswith("corner wall:"):
        example = f"walls:\n{indent(example, '  ')}"
    loaded = YAML(typ="safe", pure=True).load(example)
    assert [error.message for error in Draft202012Validator(schema).iter_errors(loaded)] == []


def test_the_worked_example_grows_into_the_practice_shed():
    steps = re.findall(r"^```yaml\n(.*?)^```", DOCS, re.MULTILINE | re.DOTALL)
    typed = read("\n".join(steps[:6]))
    assert typed.findings == ()
    shed = read(SHED).description
    assert unplaced(typed.description.walls) == unplaced(shed.walls)
    assert unplaced(typed.description.openings) == unplaced(shed.openings)
    assert unplaced(typed.description.rooms) == unplaced(shed.rooms)


def test_the_worked_example_with_its_next_wall_has_no_findings():
    steps = re.findall(r"^```yaml\n(.*?)^```", DOCS, re.MULTILINE | re.DOTALL)
    assert read("\n".join(steps)).findings == ()


@pytest.mark.parametrize(
    "row", load_table("setday.files.house", "unless_noted").rows, ids=lambda row: row["key"]
)
def test_the_usual_values_are_those_in_the_docs(row):
    assert f"`{usual(row['key'])}`, usual" in DOCS


@pytest.mark.parametrize(("called", "written"), [("8'-1 1/8", "8'-1 1/8\""), ("14' 6", "14'-6\"")])
def test_inches_after_feet_may_go_without_their_mark_as_the_docs_say(called, written):
    assert f"`{called}`" in DOCS
    assert f"`{written}`" in DOCS
    assert parse_length(called) == parse_length(written)


def test_commands_are_written_as_a_reader_of_the_readme_types_them():
    assert "python3 run.py -- check" in DOCS
    assert not re.findall(r"\bsetday (?:check|draw|boards|buy|serve|demo)\b", DOCS)
