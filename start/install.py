"""Installing the pinned packages, with progress a person can follow."""

import re
import subprocess
import sys
from pathlib import Path
from typing import IO

from start.place import Environment, clean_variables
from start.refusal import pip_failed

_OPTIONS = (
    "--require-hashes",
    "--only-binary=:all:",
    "--no-input",
    "--disable-pip-version-check",
    "--no-warn-script-location",
    "--progress-bar=off",
)
_COLLECTING = re.compile(
    r"^Collecting ([A-Za-z0-9._-]+)==(\S+)|^Processing .*?([^/\\]+?)-(\d[^-]*)-[^/\\]*\.whl"
)
_FETCHING = re.compile(r"^\s+(?:Downloading|Using cached) \S+ \(([^)]+)\)")


def install_pinned(environment: Environment) -> None:
    """Install exactly the packages of the environment's list, each checked by its hash.

    Raises
    ------
    Refusal
        Where pip gives up; all that pip printed is kept in a log beside the environment.
    """
    log = environment.home / f"{environment.kind}.log"
    command = [str(environment.python), "-m", "pip", "install", *_OPTIONS, "-r", str(environment.lock)]
    variables = clean_variables() | {"PIP_USER": "0", "PIP_REQUIRE_VIRTUALENV": "0"}
    process = subprocess.Popen(
        command,
        env=variables,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
    )
    assert process.stdout is not None
    try:
        said = _follow(process.stdout, log=log, expected=_count(environment.lock))
        status = process.wait()
    finally:
        if process.poll() is None:
            process.kill()
            process.wait()
    if status != 0:
        raise pip_failed(said, folder=environment.home, log=log)


def _follow(stream: IO[str], *, log: Path, expected: int) -> str:
    said: list[str] = []
    progress = Progress(expected)
    with log.open("w", encoding="utf-8") as record:
        for line in stream:
            said.append(line)
            record.write(line)
            progress.read(line)
    progress.close()
    return "".join(said)


def _count(lock: Path) -> int:
    """Count the packages of a list; some are for other systems, so it is an upper bound."""
    return sum(
        1 for line in lock.read_text(encoding="utf-8").splitlines() if "==" in line and line[0].isalnum()
    )


class Progress:
    """One line that is written over on a terminal; one line a package elsewhere."""

    def __init__(self, expected: int) -> None:
        self._expected = expected
        self._seen = 0
        self._package = ""
        self._overwrite = sys.stderr.isatty()

    def read(self, line: str) -> None:
        """Take one line that pip printed."""
        if match := _COLLECTING.match(line):
            self._seen += 1
            self._package = f"{match[1] or match[3]} {match[2] or match[4]}"
            self._show(f"  {self._seen} of at most {self._expected}: {self._package}")
        elif (match := _FETCHING.match(line)) and self._overwrite:
            self._show(f"  {self._seen} of at most {self._expected}: {self._package}, {match[1]}")
        elif line.startswith("Installing collected packages"):
            self._show("  unpacking; this takes a minute")

    def _show(self, words: str) -> None:
        if self._overwrite:
            sys.stderr.write("\r" + words.ljust(78)[:78])
        else:
            sys.stderr.write(words + "\n")
        sys.stderr.flush()

    def close(self) -> None:
        """End the line that was written over."""
        if self._overwrite and self._seen:
            sys.stderr.write("\n")
