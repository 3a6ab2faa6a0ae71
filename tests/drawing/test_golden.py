"""Drawings as they were last looked at and found right.

After a wanted change, write them anew with ``SETDAY_GOLDEN=write`` in the environment, look at every
one that changed, and commit them together with the change.
"""

import os
from pathlib import Path

import pytest

from tests.drawing.every import EVERY

GOLDEN = Path(__file__).parent.parent / "golden"
KEPT = ("plan", "plan-phone", "wall-left", "surface", "boards", "cutting", "progress", "bars")


@pytest.mark.parametrize("name", KEPT)
def test_the_drawing_is_as_it_was_looked_at(name):
    svg = EVERY[name]().replace("><", ">\n<") + "\n"
    kept = GOLDEN / f"{name}.svg"
    if os.environ.get("SETDAY_GOLDEN") == "write":
        kept.write_text(svg, encoding="utf-8", newline="\n")
    assert svg == kept.read_text(encoding="utf-8"), f"{kept.name} changed: look at it, then write it anew"


def test_every_kept_drawing_is_checked():
    assert {path.stem for path in GOLDEN.glob("*.svg")} == set(KEPT)
