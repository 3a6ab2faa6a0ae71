"""Writing the pinned requirement files anew, from what requirements/*.in ask for."""

import re
import subprocess
import sys
from pathlib import Path

from start.environment import make_ready
from start.place import ROOT, Environment, clean_variables
from start.refusal import Refusal

OLDEST_PYTHON = "3.11"
KINDS = ("lock", "run", "test", "bench")
"""In this order: a later list is held to the pins of the earlier one where it reads it."""

_HEADER = """\
# Pinned for every system and every Python from {oldest} on, with hashes. Do not edit:
# change requirements/{kind}.in and run `python3 run.py lock`.
"""
_ADDRESS = re.compile(r"https?://|--(?:extra-)?index-url|--find-links", re.IGNORECASE)


def write_locks(root: Path = ROOT) -> int:
    """Resolve every list afresh, to the newest versions that fit; return the exit status."""
    environment = Environment(kind="lock", root=root)
    make_ready(environment)
    folder = root / "requirements"
    for kind in KINDS:
        before = _pins(folder / f"{kind}.txt")
        text = _HEADER.format(oldest=OLDEST_PYTHON, kind=kind) + _resolve(environment, folder, kind)
        check_text(text, name=f"{kind}.txt")
        (folder / f"{kind}.txt").write_text(text, encoding="utf-8", newline="\n")
        _tell(kind, before, _pins(folder / f"{kind}.txt"))
    return 0


def check_text(text: str, *, name: str) -> None:
    """Refuse a list that names an address or holds a package without its hash.

    Raises
    ------
    Refusal
        With the line that must not be there.
    """
    for number, line in enumerate(text.splitlines(), start=1):
        if _ADDRESS.search(line):
            raise Refusal(f"{name} line {number} would name an address: {line.strip()}")
        if "==" in line and line[0].isalnum() and not line.endswith("\\"):
            raise Refusal(f"{name} line {number} pins without a hash: {line.strip()}")


def _resolve(environment: Environment, folder: Path, kind: str) -> str:
    outcome = subprocess.run(
        [
            str(environment.python), "-m", "uv", "pip", "compile", f"{kind}.in", "--universal", "--upgrade",
            "--python-version", OLDEST_PYTHON, "--fork-strategy", "fewest", "--generate-hashes",
            "--no-emit-index-url", "--no-emit-find-links", "--no-header", "--no-config", "--quiet",
        ],
        cwd=folder,
        env=clean_variables(),
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )  # fmt: skip
    if outcome.returncode != 0:
        raise Refusal(f"requirements/{kind}.in could not be resolved:\n{outcome.stderr.strip()}")
    return outcome.stdout


def _pins(path: Path) -> dict[str, str]:
    if not path.exists():
        return {}
    found = re.findall(r"^([a-z0-9._-]+)==([^\s;]+)", path.read_text(encoding="utf-8"), re.MULTILINE)
    return dict(found)


def _tell(kind: str, before: dict[str, str], after: dict[str, str]) -> None:
    lines = [
        f"  {name} {before.get(name, 'new')} -> {after.get(name, 'gone')}"
        for name in sorted(before.keys() | after.keys())
        if before.get(name) != after.get(name)
    ]
    sys.stdout.write("\n".join([f"{kind}.txt: {len(after)} packages, {len(lines)} changed", *lines]) + "\n")
