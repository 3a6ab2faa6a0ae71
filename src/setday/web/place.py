"""Where the site keeps its data, and the key it signs its cookies with."""

import os
import secrets
import sys
from pathlib import Path

from setday.errors import FileProblem

__all__ = ["DATA_VARIABLE", "data_folder", "secret_key"]

DATA_VARIABLE = "SETDAY_DATA"
_KEY_FILE = "secret-key"
_KEY_LENGTH = 50


def data_folder() -> Path:
    """Return the folder named in SETDAY_DATA, or the one typical for this system; it is made if missing."""
    named = os.environ.get(DATA_VARIABLE)
    try:
        folder = Path(named).expanduser().absolute() if named else _typical()
    except RuntimeError as error:  # an account without a home
        raise FileProblem(
            "This account has no home folder to keep the data in.", do="Name a folder with --data."
        ) from error
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise FileProblem(
            f"The data folder {folder} cannot be made: {error.strerror or error}.",
            do="Name another folder with --data.",
        ) from error
    return folder


def _typical() -> Path:
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local") / "Setday"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "Setday"
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share") / "setday"


def secret_key(folder: Path) -> str:
    """Return the key kept in `folder`; at the first start a new one is made that only its owner can read."""
    path = folder / _KEY_FILE
    try:
        if not path.exists():
            _write_once(path, secrets.token_urlsafe(_KEY_LENGTH))
        key = path.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError) as error:
        raise FileProblem(
            f"The key file {path} cannot be read or written.",
            do="Give yourself the right to read and write the data folder, or name another with --data.",
        ) from error
    if len(key) < _KEY_LENGTH:
        raise FileProblem(
            f"The key file {path} is damaged.", do="Delete it and start again; everybody signs in once more."
        )
    return key


def _write_once(path: Path, key: str) -> None:
    """Write the key unless another start did so in the same moment."""
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(key + "\n")
