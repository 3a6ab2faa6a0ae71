"""A PostgreSQL server of the tests' own: it comes, takes records, and leaves nothing behind."""

import os
import socket
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from start import postgresql
from start.postgresql import NoServer, programs, server


@pytest.fixture
def folder():
    found = programs()
    if found is None:
        pytest.skip("no PostgreSQL on this machine")
    return found


def open_to_others(folder):
    """Let the server's own user through pytest's folders; a further one stands between side by side."""
    for above in (folder, *folder.parents):
        if "pytest-" not in str(above):
            break
        above.chmod(0o755)


def test_a_server_comes_and_leaves_nothing_behind(folder, tmp_path, monkeypatch):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    open_to_others(tmp_path)
    with server(folder) as address:
        place = urlsplit(address)
        assert place.hostname == "127.0.0.1"
        socket.create_connection((place.hostname, place.port), timeout=5).close()
        assert [path.name.startswith("setday-postgresql-") for path in tmp_path.iterdir()] == [True]
    assert list(tmp_path.iterdir()) == []
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection((place.hostname, place.port), timeout=1).close()


def test_why_it_does_not_start_is_said(tmp_path):
    for name in ("initdb", "postgres"):
        program = tmp_path / name
        program.write_text("#!/bin/sh\necho could not be, as a test >&2\nexit 1\n", encoding="utf-8")
        program.chmod(0o755)
    open_to_others(tmp_path)
    if os.name == "nt":
        pytest.skip("a shell script stands in for PostgreSQL")
    with pytest.raises(NoServer, match="could not be, as a test"), server(tmp_path):
        pass


def test_the_newest_version_is_taken(tmp_path, monkeypatch):
    for version in ("9.6", "13", "15"):
        (tmp_path / version / "bin").mkdir(parents=True)
        (tmp_path / version / "bin" / "initdb").touch()
    monkeypatch.setattr("shutil.which", lambda name: None)
    monkeypatch.setattr(postgresql, "INSTALLED", tmp_path)
    assert programs() == Path(tmp_path / "15" / "bin")


def test_no_postgresql_is_no_folder(tmp_path, monkeypatch):
    monkeypatch.setattr("shutil.which", lambda name: None)
    monkeypatch.setattr(postgresql, "INSTALLED", tmp_path)
    assert programs() is None


def test_variables_for_another_server_are_left_out(monkeypatch):
    monkeypatch.setenv("PGHOST", "db.example")
    assert "PGHOST" not in postgresql._variables()
