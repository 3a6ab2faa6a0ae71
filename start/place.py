"""Where a private environment lies, and whether it is whole."""

import hashlib
import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

LAYOUT = "1"
"""Raised when environments made by an earlier run.py no longer fit this one."""

HOME_VARIABLE = "SETDAY_ENV_DIR"
"""Names another folder for the environments, where the checkout cannot be written."""


class Environment:
    """One private environment: made from one pinned list, for one Python.

    The folder's name carries a digest of the list, so that a changed list means a new folder,
    and a marker is written into it last, so that an interrupted installation never counts.
    """

    def __init__(self, *, kind: str, root: Path = ROOT) -> None:
        self.kind = kind
        self.root = root
        self.lock = root / "requirements" / f"{kind}.txt"
        self.home = Path(os.environ.get(HOME_VARIABLE) or root / ".setday").absolute()
        self.family = f"{kind}-{sys.platform}-{sys.implementation.cache_tag}-"
        self.folder = self.home / (self.family + self._digest())
        self.marker = self.folder / "complete"
        windows = os.name == "nt"
        self.python = self.folder / ("Scripts/python.exe" if windows else "bin/python")

    def _digest(self) -> str:
        text = self.lock.read_bytes().replace(b"\r\n", b"\n")
        return hashlib.sha256(LAYOUT.encode() + text).hexdigest()[:12]

    def is_ready(self) -> bool:
        """Return whether everything is installed and its Python still there."""
        return self.marker.exists() and self.python.exists()


def clean_variables() -> dict[str, str]:
    """Return the caller's variables without those that would lead Python to other packages."""
    unwanted = ("PYTHONPATH", "PYTHONHOME", "PYTHONSTARTUP", "PYTHONSAFEPATH", "__PYVENV_LAUNCHER__")
    kept = {name: value for name, value in os.environ.items() if name not in unwanted}
    kept["PYTHONNOUSERSITE"] = "1"
    kept.setdefault("PYTHONUTF8", "1")
    return kept
