"""Each library is imported only where the design puts it, and is asked for in requirements/run.in."""

import re
import sys
from importlib.metadata import packages_distributions
from pathlib import PurePosixPath

from tests.architecture.source import ROOT, imports, modules

ANYWHERE = "anywhere"
PLACES: dict[str, str | set[str]] = {
    "numpy": ANYWHERE,
    "scipy": ANYWHERE,
    "shapely": ANYWHERE,
    "networkx": ANYWHERE,
    "pydantic": {"files", "web"},
    "pydantic_core": {"files", "web"},
    "ruamel": {"files"},
    "openpyxl": {"files"},
    "icalendar": {"files"},
    "dateutil": {"files"},
    "typst": {"sheets"},
    "typer": {"cli"},
    "rich": {"cli"},
    "django": {"web"},
    "whitenoise": {"web"},
    "waitress": {"web", "cli"},
    "PIL": {"web"},
}
"""Library to the parts that may import it.  A new one needs a line here and in docs/dependencies.md."""

COMPANIONS = {"pydantic_core": "pydantic", "dateutil": "icalendar"}
"""Library to the one that brings it, and that cannot do without it."""

SOLVERS = {"ortools": "cpsat", "highspy": "highs", "numba": "compiling"}
"""Solver to the only module name that may import it."""


def outside_imports():
    """Yield (module, library, line) for every import of something that is neither ours nor Python's."""
    for module in modules():
        for name, line in imports(module):
            library = name.split(".")[0]
            if library != "setday" and library not in sys.stdlib_module_names:
                yield module, library, line


def test_every_library_stands_where_the_design_puts_it():
    misplaced = [
        f"{module.path}:{line} imports {library}"
        for module, library, line in outside_imports()
        if library not in SOLVERS
        and PLACES.get(library, set()) != ANYWHERE
        and module.part not in PLACES.get(library, set())
    ]
    assert misplaced == []


def test_a_solver_is_imported_only_in_the_module_named_for_it():
    misplaced = [
        f"{module.path}:{line} imports {library}; only {SOLVERS[library]}.py may"
        for module, library, line in outside_imports()
        if library in SOLVERS and PurePosixPath(module.path).stem != SOLVERS[library]
    ]
    assert misplaced == []


def test_every_library_is_asked_for():
    asked = {normal(name) for name in re.findall(r"^[A-Za-z][\w.-]*", run_in(), re.MULTILINE)}
    owners = packages_distributions()
    unasked = {
        library
        for _, library, _ in outside_imports()
        if not {normal(owner) for owner in owners.get(COMPANIONS.get(library, library), [library])} & asked
    }
    assert unasked == set(), "imported, but not in requirements/run.in"


def test_every_library_that_is_asked_for_has_its_line_in_the_docs():
    text = (ROOT / "docs" / "dependencies.md").read_text(encoding="utf-8").lower()
    lists = [
        (ROOT / "requirements" / f"{kind}.in").read_text(encoding="utf-8")
        for kind in ("run", "test", "bench", "lock")
    ]
    asked = {name.lower() for lines in lists for name in re.findall(r"^[A-Za-z][\w.-]*", lines, re.MULTILINE)}
    assert sorted(name for name in asked if f"| {name} |" not in text) == []


def run_in() -> str:
    """Return what requirements/run.in asks for."""
    return (ROOT / "requirements" / "run.in").read_text(encoding="utf-8")


def normal(name: str) -> str:
    """Return a distribution's name in the one spelling that compares."""
    return re.sub(r"[-_.]+", "-", name).lower()
