"""What a docstring says of its parameters is what the signature says."""

import ast
import re
from collections.abc import Iterator

from tests.architecture.source import ANY_FUNCTION, Module, core

SECTION = re.compile(
    r"^(?P<title>[A-Z][A-Za-z ]+)\n-{3,}\n(?P<body>.*?)(?=^[A-Z][A-Za-z ]+\n-{3,}$|\Z)",
    re.MULTILINE | re.DOTALL,
)
ENTRY = re.compile(r"^(\*{0,2}\w+(?:, \*{0,2}\w+)*)(?: :.*)?$", re.MULTILINE)


def documented(docstring: str) -> list[str]:
    """Return the names under "Parameters" of a NumPy-style docstring."""
    for section in SECTION.finditer(docstring):
        if section["title"] == "Parameters":
            entries = ENTRY.findall(section["body"])
            return [name.lstrip("*") for entry in entries for name in entry.split(", ")]
    return []


def public(module: Module) -> Iterator[tuple[str, ANY_FUNCTION]]:
    """Yield the public functions of a module and the public methods of its public classes."""
    for node in module.tree.body:
        if isinstance(node, ANY_FUNCTION) and not node.name.startswith("_"):
            yield node.name, node
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            for inner in node.body:
                if isinstance(inner, ANY_FUNCTION) and not inner.name.startswith("_"):
                    yield f"{node.name}.{inner.name}", inner


def parameters(function: ANY_FUNCTION) -> list[str]:
    """Return the names a function takes, without self and cls."""
    listed = function.args
    every = [*listed.posonlyargs, *listed.args, *listed.kwonlyargs]
    every += [starred for starred in (listed.vararg, listed.kwarg) if starred]
    return [each.arg for each in every if each.arg not in {"self", "cls"}]


def classes(module: Module) -> Iterator[ast.ClassDef]:
    """Yield the public classes of a module."""
    for node in module.tree.body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield node


def fields(node: ast.ClassDef) -> list[str]:
    """Return what a class is made from: the fields of a dataclass, or what __init__ takes."""
    for inner in node.body:
        if isinstance(inner, ast.FunctionDef) and inner.name == "__init__":
            return parameters(inner)
    return [
        inner.target.id
        for inner in node.body
        if isinstance(inner, ast.AnnAssign) and isinstance(inner.target, ast.Name)
    ]


def test_every_public_function_of_the_core_says_what_it_does():
    silent = [
        f"{module.path}:{function.lineno} {name}"
        for module in core()
        for name, function in public(module)
        if not (ast.get_docstring(function) or "").strip()
    ]
    assert silent == []


def test_documented_parameters_are_those_of_the_signature():
    wrong = [
        f"{module.path}:{function.lineno} {name} documents {names}, takes {parameters(function)}"
        for module in core()
        for name, function in public(module)
        if (names := documented(ast.get_docstring(function) or ""))
        and sorted(names) != sorted(parameters(function))
    ]
    assert wrong == [], "document all of the parameters or none"


def test_documented_fields_are_those_of_the_class():
    wrong = [
        f"{module.path}:{node.lineno} {node.name} documents {sorted(extra)}, which it lacks"
        for module in core()
        for node in classes(module)
        if not node.bases and (extra := set(documented(ast.get_docstring(node) or "")) - set(fields(node)))
    ]
    assert wrong == []


def test_the_names_under_parameters_are_found():
    lines = ["Do.", "", "Parameters", "----------", "a, b : int", "    Two.", "*rest", "    More."]
    text = "\n".join([*lines, "", "Returns", "-------", "int", "    It."])
    assert documented(text) == ["a", "b", "rest"]
