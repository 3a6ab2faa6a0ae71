"""Why Setday cannot start, in words for the person in front of it."""

import errno
import sys
from pathlib import Path

GIGABYTES = 1
"""What one environment takes on disk, rounded up."""


class Refusal(Exception):
    """The start cannot go on; the message says why and what to do, the status is the exit status."""

    def __init__(self, message: str, *, status: int = 2) -> None:
        super().__init__(message)
        self.status = status


_DISK_FULL = (
    f"The disk is full: an environment takes about {GIGABYTES} GB.\n"
    "Free some space, or name a folder on another disk in the variable SETDAY_ENV_DIR, and start again."
)
_NOT_WRITABLE = (
    "The folder {folder} cannot be written.\n"
    "Get the right to write there, or name another folder in the variable SETDAY_ENV_DIR, and start again."
)
_WRONG_HASH = (
    "A downloaded package is not the one this checkout was made for, so nothing was installed.\n"
    "Start again; if it stays so, something between this machine and the package index changes files."
)
_CERTIFICATE = (
    "The package index was reached, but its certificate is not trusted on this machine.\n"
    "Many school networks open encrypted traffic: ask for the network's certificate file, name it in the\n"
    "variable PIP_CERT and start again; or install once on another network."
)
_NO_NETWORK = (
    "The package index cannot be reached. The network is needed this once, to install; later starts "
    "do without it.\nConnect this machine and start again."
)
_NOT_OFFERED = (
    "A package is not offered for this machine with this Python ({version}).\n"
    "Setday runs with a 64-bit Python from 3.11 on, on Linux, macOS and Windows; a Python released in the "
    "last few\nweeks may still be too new."
)

_NETWORK_SIGNS = (
    "name resolution", "NameResolutionError", "getaddrinfo failed", "Network is unreachable",
    "NewConnectionError", "Failed to establish", "Connection refused", "Connection reset",
    "ConnectTimeout", "ReadTimeout", "timed out", "ProxyError",
)  # fmt: skip
_PIP_CAUSES = (
    (("No space left on device", "not enough space on the disk", "Disk quota exceeded"), _DISK_FULL),
    (("DO NOT MATCH THE HASHES",), _WRONG_HASH),
    (("CERTIFICATE_VERIFY_FAILED", "SSLError", "SSLCertVerificationError"), _CERTIFICATE),
    (_NETWORK_SIGNS, _NO_NETWORK),
    (("Permission denied", "Read-only file system"), _NOT_WRITABLE),
    (("No matching distribution found", "from versions: none"), _NOT_OFFERED),
)
_SYSTEM_CAUSES = {
    errno.ENOSPC: _DISK_FULL,
    errno.EDQUOT: _DISK_FULL,
    errno.EACCES: _NOT_WRITABLE,
    errno.EPERM: _NOT_WRITABLE,
    errno.EROFS: _NOT_WRITABLE,
}


def pip_failed(output: str, *, folder: Path, log: Path) -> Refusal:
    """Return what to say after pip gave up, judged from what it printed."""
    for signs, sentence in _PIP_CAUSES:
        if any(sign in output for sign in signs):
            return Refusal(f"{_fill(sentence, folder)}\nWhat pip said is in {log}")
    last = [line for line in output.splitlines() if line.strip()][-3:]
    return Refusal(
        "\n  ".join(["The installation stopped. The last that pip said:", *last]) + f"\nAll of it: {log}"
    )


def system_failed(error: OSError, *, folder: Path) -> Refusal:
    """Return what to say when the system refuses to make or change a file."""
    sentence = _SYSTEM_CAUSES.get(error.errno or 0)
    if sentence is None:
        return Refusal(f"The environment in {folder} cannot be made: {error.strerror or error}.")
    return Refusal(_fill(sentence, folder))


def no_venv(os_release: Path = Path("/etc/os-release")) -> Refusal:
    """Return what to say where the system's Python came without venv or ensurepip."""
    version = _version()
    if _is_debian(os_release):
        remedy = f"Install them and start again:\n    sudo apt install python{version}-venv"
    else:
        remedy = (
            f"Install the venv part of Python {version} with the system's package manager, or a Python from\n"
            "python.org, and start again."
        )
    return Refusal(
        f"This Python {version} ({sys.executable}) came without the parts that make a private\n"
        f"environment (venv and ensurepip). {remedy}"
    )


def _is_debian(os_release: Path) -> bool:
    try:
        lines = os_release.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return False
    fields = dict(line.split("=", 1) for line in lines if "=" in line)
    families = f"{fields.get('ID', '')} {fields.get('ID_LIKE', '')}".replace('"', "").split()
    return "debian" in families or "ubuntu" in families


def _fill(sentence: str, folder: Path) -> str:
    return sentence.replace("{folder}", str(folder)).replace("{version}", _version())


def _version() -> str:
    return f"{sys.version_info[0]}.{sys.version_info[1]}"
