"""Making a private environment: venv, the pinned packages, the marker last."""

import importlib.util
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from start.install import install_pinned
from start.place import Environment, clean_variables
from start.refusal import no_venv, pip_failed, system_failed

_LONGEST_COMPILING = 300.0
"""Then the start goes on without [s]; what is not compiled is when it is first used."""


def make_ready(environment: Environment) -> None:
    """Make the environment unless it is whole already.

    Raises
    ------
    Refusal
        Where it cannot be made; what was begun never counts as whole.
    """
    if environment.is_ready():
        return
    if not _has_venv():
        raise no_venv()
    try:
        environment.home.mkdir(parents=True, exist_ok=True)
        with _one_at_a_time(environment.home / f"{environment.kind}.lock"):
            if not environment.is_ready():  # another start may have made it meanwhile
                _build(environment)
    except OSError as error:
        raise system_failed(error, folder=environment.home) from error


def _build(environment: Environment) -> None:
    _remove(environment.folder)
    _say(f"Making a private environment in {environment.folder}")
    try:
        _make_venv(environment)
        install_pinned(environment)
        _point_at_source(environment)
    except BaseException:
        shutil.rmtree(environment.folder, ignore_errors=True)
        raise
    environment.marker.write_text("whole\n", encoding="utf-8")
    _remove_older(environment)
    if environment.kind == "run":
        _compile_searches(environment)
    _say("Installed. Later starts need no network.")


def _compile_searches(environment: Environment) -> None:
    """Have the searches compiled now, so that nobody in a class waits for it; later they would be anyway."""
    _say("Compiling the searches for this machine, about a minute; Ctrl-C leaves it for later.")
    with suppress(OSError, subprocess.TimeoutExpired, KeyboardInterrupt):
        subprocess.run(
            [str(environment.python), "-m", "setday", "prepare"],
            env=clean_variables(),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=_LONGEST_COMPILING,
            check=False,
        )


def _make_venv(environment: Environment) -> None:
    outcome = subprocess.run(
        [sys.executable, "-I", "-m", "venv", str(environment.folder)],
        env=clean_variables(),
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        errors="replace",
        check=False,
    )
    if outcome.returncode == 0:
        return
    said = outcome.stdout + outcome.stderr
    if "ensurepip is not available" in said:
        raise no_venv()
    log = environment.home / f"{environment.kind}.log"
    log.write_text(said, encoding="utf-8")
    raise pip_failed(said, folder=environment.home, log=log)


def _point_at_source(environment: Environment) -> None:
    """Let the environment find the checkout's own src/ folder, wherever the checkout is moved to."""
    windows = os.name == "nt"
    version = f"python{sys.version_info[0]}.{sys.version_info[1]}"
    packages = environment.folder / ("Lib" if windows else f"lib/{version}") / "site-packages"
    source = environment.root / "src"
    try:
        line = os.path.relpath(source, packages)
    except ValueError:  # on another drive
        line = str(source)
    (packages / "setday-source.pth").write_text(line + "\n", encoding="utf-8")


def _remove(folder: Path) -> None:
    (folder / "complete").unlink(missing_ok=True)
    if folder.exists():
        shutil.rmtree(folder)


def _remove_older(environment: Environment) -> None:
    """Drop the environments of earlier lists; one still in use on Windows is left for the next time."""
    for folder in environment.home.glob(f"{environment.family}*"):
        if folder != environment.folder:
            (folder / "complete").unlink(missing_ok=True)
            shutil.rmtree(folder, ignore_errors=True)


def _has_venv() -> bool:
    parts = [importlib.util.find_spec(name) for name in ("venv", "ensurepip")]
    return all(part is not None and part.origin is not None for part in parts)


@contextmanager
def _one_at_a_time(path: Path) -> Iterator[None]:
    """Hold a lock that the system lets go of when this process ends, however it ends."""
    with path.open("a+b") as file:
        _lock(file)
        yield


def _lock(file: IO[bytes]) -> None:
    try:
        import fcntl
    except ImportError:
        _lock_on_windows(file)
        return
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        _say("Another start is installing; waiting for it.")
        fcntl.flock(file, fcntl.LOCK_EX)


def _lock_on_windows(file: IO[bytes]) -> None:
    import time
    from importlib import import_module

    msvcrt = import_module("msvcrt")
    told = False
    while True:
        try:
            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError:
            if not told:
                _say("Another start is installing; waiting for it.")
            told = True
            time.sleep(0.5)
        else:
            return


def _say(sentence: str) -> None:
    print(sentence, file=sys.stderr, flush=True)
