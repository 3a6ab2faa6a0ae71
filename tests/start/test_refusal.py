"""Why Setday cannot start is said for people, from what pip or the system said for machines."""

import errno
import sys
from pathlib import Path

import pytest

from start.refusal import no_venv, pip_failed, system_failed

VERSION = f"{sys.version_info[0]}.{sys.version_info[1]}"

# What pip 23 printed, shortened, with the network unplugged, the disk full, and so on.
UNPLUGGED = """\
WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError(': Failed to establish a new
 connection: [Errno -3] Temporary failure in name resolution')'
ERROR: Could not find a version that satisfies the requirement absl-py==2.5.1 (from versions: none)
ERROR: No matching distribution found for absl-py==2.5.1
"""
DISK_FULL = "ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device\n"
WRONG_HASH = "ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.\n"
UNTRUSTED = """\
HTTPSConnectionPool: Max retries exceeded, caused by SSLError(SSLCertVerificationError(1, '[SSL:
 CERTIFICATE_VERIFY_FAILED] certificate verify failed'))
"""
NOT_ALLOWED = "ERROR: Could not install packages due to an OSError: [Errno 13] Permission denied: 'x'\n"
NOT_OFFERED = """\
ERROR: Could not find a version that satisfies the requirement ortools==9.15 (from versions: none)
ERROR: No matching distribution found for ortools==9.15
"""
SAID_BY_PIP = [
    (UNPLUGGED, "index cannot be reached"),
    (DISK_FULL, "disk is full"),
    (WRONG_HASH, "not the one this checkout was made for"),
    (UNTRUSTED, "certificate is not trusted"),
    (NOT_ALLOWED, "cannot be written"),
    (NOT_OFFERED, f"not offered for this machine with this Python ({VERSION})"),
]


@pytest.mark.parametrize(("said", "expected"), SAID_BY_PIP, ids=[words for _, words in SAID_BY_PIP])
def test_what_pip_said_is_told_in_plain_words(said, expected):
    refusal = pip_failed(said, folder=Path("env"), log=Path("env/run.log"))
    assert expected in str(refusal)
    assert str(refusal).endswith(f"What pip said is in {Path('env/run.log')}")
    assert refusal.status == 2


def test_what_is_not_known_is_quoted_with_the_place_of_the_log():
    refusal = pip_failed("one\n\ntwo\nthree\nfour\n", folder=Path("env"), log=Path("run.log"))
    assert str(refusal).splitlines()[1:] == ["  two", "  three", "  four", "All of it: run.log"]


@pytest.mark.parametrize(
    ("number", "expected"),
    [(errno.ENOSPC, "disk is full"), (errno.EACCES, "cannot be written"), (errno.EROFS, "cannot be written")],
)
def test_what_the_system_refused_is_told_in_plain_words(number, expected):
    assert expected in str(system_failed(OSError(number, "said by the system"), folder=Path("env")))


def test_another_refusal_of_the_system_is_quoted():
    assert "Input/output error" in str(
        system_failed(OSError(errno.EIO, "Input/output error"), folder=Path("e"))
    )


@pytest.mark.parametrize(
    ("release", "remedy"),
    [
        ("ID=debian\n", f"sudo apt install python{VERSION}-venv"),
        ('NAME="Ubuntu"\nID=ubuntu\nID_LIKE=debian\n', f"sudo apt install python{VERSION}-venv"),
        ('ID=linuxmint\nID_LIKE="ubuntu debian"\n', f"sudo apt install python{VERSION}-venv"),
        ("ID=alpine\n", "system's package manager"),
        ("", "system's package manager"),
    ],
)
def test_the_package_to_install_is_named_where_it_is_known(release, remedy, tmp_path):
    (tmp_path / "os-release").write_text(release, encoding="utf-8")
    assert remedy in str(no_venv(tmp_path / "os-release"))


def test_a_system_without_a_release_file_gets_the_general_remedy(tmp_path):
    assert "python.org" in str(no_venv(tmp_path / "none"))
