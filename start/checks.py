"""Every check around the code, one after the other, all shown even when one fails."""

import os
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree as ET

from start import postgresql
from start.environment import make_ready
from start.place import ROOT, Environment, clean_variables

_NONE: Mapping[str, str] = {}
_SITE_TESTS = "tests/web"
_ON_POSTGRESQL = "tests on postgresql"
_MOST_PROCESSES = 4
"""Browsers and solvers run inside the tests too."""

_SAME_ON_EVERY_DATABASE = (
    *("test_words.py", "test_headers.py", "test_access.py", "test_roles.py", "test_network.py"),
    *("test_hunt_secrecy.py", "test_sealed_secrecy.py", "test_crew_secrecy.py", "test_power_cut.py"),
)
"""Every address with every role, every byte of every answer, every word: one run of them is enough."""

_LAYERS = "import sys; from importlinter.cli import lint_imports_command; sys.exit(lint_imports_command())"


class Check(NamedTuple):
    """One check: its name and what the environment's Python is given to run it."""

    name: str
    words: tuple[str, ...]


CHECKS = (
    Check("format", ("-m", "ruff", "format", "--check", ".")),
    Check("lint", ("-m", "ruff", "check", ".")),
    Check("types", ("-m", "mypy")),
    Check("layers", ("-c", _LAYERS)),
)


class Result(NamedTuple):
    """How one check ended."""

    name: str
    passed: int
    failed: int
    skipped: int
    seconds: float


def run_checks(words: list[str], *, root: Path = ROOT) -> int:
    """Install what the tests need, run every check; return 0 only where nothing failed."""
    environment = Environment(kind="test", root=root)
    make_ready(environment)
    results = [_run(check, environment) for check in CHECKS]
    results.append(_run_tests(words, environment))
    if not words:
        results.append(_on_postgresql(environment))
    sys.stdout.write(summary(results))
    return 1 if any(result.failed for result in results) else 0


def _run(check: Check, environment: Environment) -> Result:
    begun = time.monotonic()
    status = _call(check, environment)
    seconds = time.monotonic() - begun
    return Result(check.name, int(status == 0), int(status != 0), 0, seconds)


def _run_tests(
    words: list[str], environment: Environment, *, name: str = "tests", variables: Mapping[str, str] = _NONE
) -> Result:
    report = environment.home / f"{name}.xml"
    report.unlink(missing_ok=True)
    begun = time.monotonic()
    check = Check(name, ("-m", "pytest", f"--junit-xml={report}", *_side_by_side(words), *words))
    status = _call(check, environment, variables)
    seconds = time.monotonic() - begun
    passed, failed, skipped = read_report(report)
    if status != 0 and failed == 0:  # pytest itself stopped: no test found, a wrong word, a crash
        failed = 1
    return Result(name, passed, failed, skipped, seconds)


def _side_by_side(words: list[str]) -> tuple[str, ...]:
    """Return how pytest shares whole files out over the processors; words of one's own are left alone."""
    processors = min(os.cpu_count() or 1, _MOST_PROCESSES)
    if processors < 2 or any(word.startswith("-") for word in words):
        return ()
    return (f"--numprocesses={processors}", "--dist=loadfile")


def _on_postgresql(environment: Environment) -> Result:
    """Run the site's tests once more on PostgreSQL; skipped on a desk without it, an error in CI."""
    folder = postgresql.programs()
    begun = time.monotonic()
    try:
        if folder is None:
            raise postgresql.NoServer("PostgreSQL is not on this machine.")
        with postgresql.server(folder) as address:
            variables = {postgresql.ADDRESS_VARIABLE: address}
            # One process: tests side by side would each make a database, and empty it, on one server.
            passed_over = [f"--ignore={_SITE_TESTS}/{name}" for name in _SAME_ON_EVERY_DATABASE]
            words = ["--numprocesses=0", *passed_over, _SITE_TESTS]
            return _run_tests(words, environment, name=_ON_POSTGRESQL, variables=variables)
    except postgresql.NoServer as why:
        sys.stdout.write(f"\n== {_ON_POSTGRESQL} ==\n{why}\n")
        missed = folder is not None or os.environ.get("CI") == "true"
        return Result(_ON_POSTGRESQL, 0, int(missed), int(not missed), time.monotonic() - begun)


def _call(check: Check, environment: Environment, variables: Mapping[str, str] = _NONE) -> int:
    sys.stdout.write(f"\n== {check.name} ==\n")
    sys.stdout.flush()
    command = [str(environment.python), *check.words]
    given = {**clean_variables(), **variables}
    return subprocess.run(command, cwd=environment.root, env=given, check=False).returncode


def read_report(report: Path) -> tuple[int, int, int]:
    """Return how many tests passed, failed and were skipped, from pytest's XML report."""
    try:
        tree = ET.parse(report)  # noqa: S314  written by our own pytest a moment ago
    except (OSError, ET.ParseError):
        return 0, 0, 0
    passed = failed = skipped = 0
    for suite in tree.iter("testsuite"):
        bad = int(suite.get("failures", "0")) + int(suite.get("errors", "0"))
        left = int(suite.get("skipped", "0"))
        passed += max(int(suite.get("tests", "0")) - bad - left, 0)
        failed += bad
        skipped += left
    return passed, failed, skipped


def summary(results: list[Result]) -> str:
    """Return the closing lines: one a check, and last the plain count of all of them."""
    lines = ["", "== summary =="]
    for result in results:
        word = "FAILED" if result.failed else "ok"
        detail = ""
        if result.name.startswith("tests"):
            detail = f"  {result.passed} passed, {result.failed} failed, {result.skipped} skipped"
        lines.append(f"{result.name:<20}{word:<8}{result.seconds:6.1f} s{detail}")
    passed = sum(result.passed for result in results)
    failed = sum(result.failed for result in results)
    lines.append(f"{passed} passed, {failed} failed")
    return "\n".join(lines) + "\n"
