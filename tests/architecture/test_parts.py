"""The source consists of the parts the design names, and of nothing else."""

import pytest

from tests.architecture.source import SRC, modules

PACKAGES = {
    "web", "cli", "actions", "sheets", "drawing", "files", "timetable", "closein", "learning", "materials",
    "roster", "boards", "cable", "switching", "piping", "shell", "framing", "haul", "house", "electric",
    "rules", "measure", "solving", "demo",
}  # fmt: skip
SINGLE_MODULES = {"needs", "findings", "working", "errors", "__init__", "__main__"}
VAGUE = {
    "utils",
    "util",
    "helpers",
    "helper",
    "common",
    "misc",
    "manager",
    "managers",
    "tools",
    "stuff",
    "base",
}
"""Names that say nothing of what is inside."""


def test_every_folder_is_a_part_of_the_design():
    folders = {path.name for path in SRC.iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert folders - PACKAGES == set(), "a folder the design does not name; put it beside its noun"


def test_every_module_at_the_top_is_a_part_of_the_design():
    names = {path.stem for path in SRC.glob("*.py")}
    assert names - SINGLE_MODULES - PACKAGES == set(), "a module the design does not name"


def test_no_module_has_a_vague_name():
    vague = [
        module.path
        for folder in ("src/setday", "start", "tests", "bench")
        for module in modules(folder)
        if set(module.name.split(".")) & VAGUE
    ]
    assert vague == []


@pytest.mark.parametrize("package", sorted(PACKAGES - {"demo"}))
def test_a_folder_with_modules_has_a_door(package):
    with_modules = {path.parent for path in (SRC / package).rglob("*.py")}
    assert [
        str(folder.relative_to(SRC)) for folder in with_modules if not (folder / "__init__.py").exists()
    ] == []
