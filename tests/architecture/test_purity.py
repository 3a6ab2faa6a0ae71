"""The core computes: it asks no clock, no network, no chance, no environment, and prints nothing."""

import ast
from pathlib import PurePosixPath

import pytest

from tests.architecture.source import Module, core, imports

NETWORK = {
    "socket",
    "ssl",
    "http",
    "urllib",
    "ftplib",
    "smtplib",
    "asyncio",
    "socketserver",
    "xmlrpc",
    "webbrowser",
}
ENVIRONMENT = {"subprocess", "getpass", "platform", "logging", "locale"}
CHANCE = {"secrets", "uuid"}
FORBIDDEN_IMPORTS = NETWORK | ENVIRONMENT | CHANCE

WALL_CLOCK = {
    "time.time", "time.localtime", "time.gmtime", "time.ctime",
    "datetime.now", "datetime.today", "datetime.utcnow", "date.today",
    "datetime.datetime.now", "datetime.datetime.today", "datetime.date.today",
}  # fmt: skip
OUTSIDE = {"os.environ", "os.getenv", "os.getcwd", "sys.argv", "sys.stdin", "sys.stdout", "sys.stderr"}
UNSEEDED = {
    "random.random",
    "random.choice",
    "random.shuffle",
    "random.randint",
    "random.sample",
    "random.uniform",
}
CALLS = {"print", "input", "breakpoint", "exec", "eval"}

STOPWATCH_MODULES = {"cpsat", "highs", "search", "columns", "solve", "race", "deadline"}
"""Modules that work against a time limit may read a stopwatch; never the time of day."""

DISK_PARTS = {"files", "sheets", "actions", "rules"}
"""Parts that may open a file: formats, sheets, the stores behind actions, and the code tables."""


def dotted(node: ast.AST) -> str:
    """Return "a.b.c" for a chain of attributes, "" for anything else."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute) and (left := dotted(node.value)):
        return f"{left}.{node.attr}"
    return ""


def offences(module: Module) -> list[str]:
    """List what a module of the core reaches for and must not."""
    found = [
        f"{module.path}:{line} imports {name}"
        for name, line in imports(module)
        if name.split(".")[0] in FORBIDDEN_IMPORTS
    ]
    for node in ast.walk(module.tree):
        name = dotted(node)
        if name in WALL_CLOCK | OUTSIDE | UNSEEDED:
            found.append(f"{module.path}:{node.lineno} uses {name}")
        if isinstance(node, ast.Call) and dotted(node.func) in CALLS:
            found.append(f"{module.path}:{node.lineno} calls {dotted(node.func)}()")
    return found


def test_the_core_reaches_for_nothing_outside():
    assert [line for module in core() for line in offences(module)] == []


def test_only_modules_that_work_against_a_limit_read_a_stopwatch():
    others = [
        f"{module.path}:{line} imports time"
        for module in core()
        for name, line in imports(module)
        if name == "time" and PurePosixPath(module.path).stem not in STOPWATCH_MODULES
    ]
    assert others == [], f"only {sorted(STOPWATCH_MODULES)} may"


def test_only_the_parts_for_it_open_files():
    others = [
        f"{module.path}:{node.lineno} opens a file"
        for module in core()
        if module.part not in DISK_PARTS
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Call) and dotted(node.func) in {"open", "io.open", "os.open"}
    ]
    assert others == []


@pytest.mark.parametrize(
    "line",
    [
        "import socket",
        "from urllib.request import urlopen",
        "x = datetime.now()",
        "x = os.environ['HOME']",
        "print('so')",
        "x = random.random()",
    ],
)
def test_each_kind_of_reaching_outside_is_seen(line):
    assert offences(Module("x.py", "setday.x", line, ast.parse(line)))
