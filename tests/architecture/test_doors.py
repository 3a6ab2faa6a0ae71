"""A package of the core is entered by a door only, and its `__all__` says all that is behind it.

A large part has rooms with doors of their own: `setday.timetable.odds`.
"""

import ast
from importlib import import_module

import pytest

from tests.architecture.source import EDGES, SRC, Module, core, imports

PACKAGES = frozenset(path.parent.name for path in SRC.glob("*/__init__.py")) - set(EDGES)
DOORS = tuple(module for module in core() if module.is_package and module.text.strip())
ROOMS = frozenset(module.name for module in DOORS if "__all__" in module.text)


def test_no_part_reaches_past_the_door_of_another():
    past = [
        f"{module.path}:{line} imports {name}; import it from {name.rpartition('.')[0]}"
        for module in core()
        for name, line in imports(module)
        if name.startswith("setday.")
        and name.count(".") > 1
        and name.split(".")[1] in PACKAGES
        and name.split(".")[1] != module.part
        and name not in ROOMS
    ]
    assert past == []


@pytest.mark.parametrize("door", DOORS, ids=lambda door: door.name)
def test_a_door_names_everything_it_brings_in(door):
    brought = set(brought_in(door))
    assert brought <= set(listed(door)), "imported by the package's __init__ but missing from its __all__"


@pytest.mark.parametrize("door", DOORS, ids=lambda door: door.name)
def test_everything_a_door_names_is_there(door):
    package = import_module(door.name)
    assert [name for name in listed(door) if not hasattr(package, name)] == []


def brought_in(door: Module) -> list[str]:
    """Return the public names that a package's __init__ imports or defines."""
    names = []
    for node in door.tree.body:
        if isinstance(node, ast.ImportFrom) and (node.level or (node.module or "").startswith("setday")):
            names += [alias.asname or alias.name for alias in node.names]
        elif isinstance(node, ast.FunctionDef | ast.ClassDef):
            names.append(node.name)
    return [name for name in names if not name.startswith("_")]


def listed(door: Module) -> list[str]:
    """Return the names in a module's `__all__`."""
    for node in door.tree.body:
        targets = node.targets if isinstance(node, ast.Assign) else []
        if any(isinstance(target, ast.Name) and target.id == "__all__" for target in targets):
            return list(ast.literal_eval(node.value))
    return []
