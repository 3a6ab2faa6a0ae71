"""The project's own source, read once, for the tests of its shape."""

import ast
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
SRC = ROOT / "src" / "setday"

EDGES = ("web", "cli")
"""The only parts that may speak to a person, a clock or a network."""

ANY_FUNCTION = ast.FunctionDef | ast.AsyncFunctionDef


class Module(NamedTuple):
    """One module: its path from the checkout's root, its dotted name, its text and its tree."""

    path: str
    name: str
    text: str
    tree: ast.Module

    @property
    def part(self) -> str:
        """Return the part of DESIGN.md section 3 it belongs to: "boards", "needs", "web" ..."""
        return [*self.name.split("."), ""][1]

    @property
    def is_package(self) -> bool:
        """Return whether it is a package's door."""
        return self.path.endswith("__init__.py")


@cache
def modules(folder: str = "src/setday") -> tuple[Module, ...]:
    """Return every module below a folder in order of path, or the one module of that path."""
    place = ROOT / folder
    return tuple(_read(path) for path in ([place] if place.is_file() else sorted(place.rglob("*.py"))))


def core() -> tuple[Module, ...]:
    """Return the modules of everything below the edges."""
    return tuple(module for module in modules() if module.part not in {*EDGES, ""})


def _read(path: Path) -> Module:
    text = path.read_text(encoding="utf-8")
    relative = path.relative_to(ROOT)
    within = relative.parts[1:] if relative.parts[0] == "src" else relative.parts
    name = ".".join(within).removesuffix(".py").removesuffix(".__init__")
    return Module(relative.as_posix(), name, text, ast.parse(text, filename=str(path)))


def functions(tree: ast.AST) -> Iterator[ANY_FUNCTION]:
    """Yield every function and method, nested ones too."""
    for node in ast.walk(tree):
        if isinstance(node, ANY_FUNCTION):
            yield node


def imports(module: Module) -> Iterator[tuple[str, int]]:
    """Yield each imported dotted name with its line; relative ones made absolute."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield alias.name, node.lineno
        elif isinstance(node, ast.ImportFrom):
            yield _base(module, node), node.lineno


def _base(module: Module, node: ast.ImportFrom) -> str:
    if not node.level:
        return node.module or ""
    package = module.name.split(".") if module.is_package else module.name.split(".")[:-1]
    above = package[: len(package) - node.level + 1]
    return ".".join([*above, *([node.module] if node.module else [])])


@cache
def committed() -> tuple[Path, ...]:
    """Return the files the project consists of: what git keeps, or would keep."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        check=False,
    )
    if listed.returncode == 0:
        found = (ROOT / name for name in listed.stdout.decode("utf-8").split("\0") if name)
        return tuple(path for path in found if path.is_file())
    skipped = {".git", ".setday", ".venv", "__pycache__", "node_modules"}  # a checkout unpacked without git
    every = (path for path in sorted(ROOT.rglob("*")) if path.is_file())
    return tuple(path for path in every if not skipped & set(path.relative_to(ROOT).parts))


def committed_text() -> Iterator[tuple[str, str]]:
    """Yield the path and text of each committed text file."""
    for path in committed():
        data = path.read_bytes()
        if b"\0" not in data[:8000]:
            yield path.relative_to(ROOT).as_posix(), data.decode("utf-8", errors="replace")
