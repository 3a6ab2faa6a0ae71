"""A house copied from the README or the docs passes: it reads, builds, and nothing is asked."""

import re
from pathlib import Path
from textwrap import dedent

import pytest

from setday.actions import open_house
from setday.findings import Severity
from tests.files.typed import changed

TOP = Path(__file__).resolve().parents[2]
_FENCE = re.compile(r"^( *)```yaml\n(.*?)^\1```", re.MULTILINE | re.DOTALL)
_LAST_STEP = "### 7. Look at it"


def houses(page: str) -> list[str]:
    """Return the house files of a page; blocks that follow one, up to the last step, add to it."""
    found: list[str] = []
    text = (TOP / page).read_text(encoding="utf-8").split(_LAST_STEP)[0]
    for block in (dedent(match[2]) for match in _FENCE.finditer(text)):
        if block.startswith("setday house:"):
            found.append(block)
        elif found:
            found[-1] += f"\n{block}"
    return found


DOCUMENTED = [(page, text) for page in ("README.md", "docs/house-file.md") for text in houses(page)]


def test_each_page_shows_a_house():
    assert {page for page, _ in DOCUMENTED} == {"README.md", "docs/house-file.md"}


@pytest.mark.parametrize(("page", "text"), DOCUMENTED, ids=[page for page, _ in DOCUMENTED])
def test_a_house_copied_from_the_docs_passes(page, text):
    opened = open_house(text, name=page)
    assert [str(f) for f in opened.findings if f.severity is not Severity.NOTE] == []
    assert opened.house is not None
    assert opened.house.surfaces


def test_a_missing_way_of_the_ceiling_framing_is_said_once_for_each_room():
    opened = open_house(changed("  ceiling framing: north-south\n", ""), name="house.yaml")
    assert [f.about for f in opened.findings] == ["room 'west room'", "room 'east room'"]
    assert {f.found for f in opened.findings} == {"the way its ceiling framing runs is not written."}
