"""A PostgreSQL server of its own for the tests: made in a folder that goes away, stopped when they end."""

import contextlib
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

ADDRESS_VARIABLE = "SETDAY_DATABASE"
OWNERS = ("postgres", "nobody")
"""Who the server runs as where the tests run as root, which it refuses to."""

INSTALLED = Path("/usr/lib/postgresql")
"""Where Debian puts PostgreSQL, a folder for each version; its programs are on nobody's path."""

_ROLE = "setday"
_SECONDS = 60
_QUICK = ("-c", "fsync=off", "-c", "synchronous_commit=off", "-c", "full_page_writes=off")
"""The records of a test need not outlive a power cut."""


class NoServer(Exception):
    """PostgreSQL is there, and does not start; says why."""


def programs() -> Path | None:
    """Return the folder of PostgreSQL's programs, the newest where there are several; None without any."""
    found = shutil.which("initdb")
    if found:
        return Path(found).resolve().parent
    versions = sorted(INSTALLED.glob("*/bin/initdb"), key=_version)
    return versions[-1].parent if versions else None


def _version(path: Path) -> float:
    try:
        return float(path.parent.parent.name)
    except ValueError:
        return 0.0


@contextlib.contextmanager
def server(folder: Path) -> Iterator[str]:
    """Start a server on this machine's own address, and stop it at the end.

    Yields the address of a database as ``SETDAY_DATABASE`` takes it.

    Raises
    ------
    NoServer
        With what PostgreSQL said.
    """
    owner = _owner()
    with tempfile.TemporaryDirectory(prefix="setday-postgresql-") as home:
        if owner:
            shutil.chown(home, owner)
        port = _free_port()
        data = Path(home) / "data"
        made = (f"--pgdata={data}", f"--username={_ROLE}", "--auth=trust", "--encoding=UTF8", "--no-locale")
        _run([str(folder / "initdb"), *made, "--no-sync"], owner, home)
        heard = ("-c", f"port={port}", "-c", "listen_addresses=127.0.0.1", "-c", "unix_socket_directories=")
        with (Path(home) / "log").open("wb") as log:
            process = subprocess.Popen(
                [str(folder / "postgres"), "-D", str(data), *heard, *_QUICK],
                stdout=log, stderr=log, stdin=subprocess.DEVNULL, cwd=home, user=owner, env=_variables(),
            )  # fmt: skip
            try:
                _wait(process, port, Path(home) / "log")
                yield f"postgresql://{_ROLE}@127.0.0.1:{port}/{_ROLE}"
            finally:
                process.terminate()
                with contextlib.suppress(subprocess.TimeoutExpired):
                    process.wait(timeout=10)
                process.kill()
                process.wait()


def _owner() -> str | None:
    """Return the account to run as; None to stay who we are."""
    if sys.platform == "win32" or os.geteuid() != 0:
        return None
    import pwd

    known = {entry.pw_name for entry in pwd.getpwall()}
    return next((name for name in OWNERS if name in known), None)


def _variables() -> dict[str, str]:
    """Return the variables without those that speak to another server."""
    return {name: value for name, value in os.environ.items() if not name.startswith("PG")} | {"LC_ALL": "C"}


def _run(command: list[str], owner: str | None, home: str) -> None:
    outcome = subprocess.run(
        command, cwd=home, user=owner, env=_variables(), stdin=subprocess.DEVNULL, capture_output=True,
        text=True, errors="replace", check=False,
    )  # fmt: skip
    if outcome.returncode != 0:
        raise NoServer(outcome.stderr.strip() or f"{Path(command[0]).name} ended with {outcome.returncode}")


def _wait(process: subprocess.Popen[bytes], port: int, log: Path) -> None:
    """Wait until the server listens."""
    until = time.monotonic() + _SECONDS
    while process.poll() is None and time.monotonic() < until:
        with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), timeout=1):
            return
        time.sleep(0.1)
    raise NoServer(log.read_text(encoding="utf-8", errors="replace").strip() or "it never listened")


def _free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        port: int = taken.getsockname()[1]
        return port
