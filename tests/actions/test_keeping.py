"""Backing up and putting back."""

import contextlib
import json
import os
import sqlite3
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from setday.actions.keeping import back_up, restore
from setday.errors import FileProblem


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    data = tmp_path / "data"
    (data / "photos").mkdir(parents=True)
    (data / "static").mkdir()
    with contextlib.closing(sqlite3.connect(data / "setday.sqlite3")) as database:
        database.execute("create table house (name text)")
        database.execute("insert into house values ('shed')")
        database.commit()
    (data / "photos" / "wall.jpg").write_bytes(b"not really a photo")
    (data / "static" / "look.css").write_text("made anew")
    (data / "secret-key").write_text("never leaves")
    return data


def houses(folder: Path) -> list[str]:
    with contextlib.closing(sqlite3.connect(folder / "setday.sqlite3")) as database:
        return [name for (name,) in database.execute("select name from house order by name")]


def test_what_was_backed_up_comes_back(folder: Path, tmp_path: Path) -> None:
    made = back_up(folder, tmp_path / "b.zip")
    assert made.files == 2
    restore(made.path, tmp_path / "other", replace=False)
    assert houses(tmp_path / "other") == ["shed"]
    assert (tmp_path / "other" / "photos" / "wall.jpg").read_bytes() == b"not really a photo"


def test_a_backup_holds_neither_the_key_nor_what_is_made_anew(folder: Path, tmp_path: Path) -> None:
    back_up(folder, tmp_path / "b.zip")
    with zipfile.ZipFile(tmp_path / "b.zip") as pack:
        names = set(pack.namelist())
    assert names == {"setday.sqlite3", "photos/wall.jpg", "setday-backup.json"}


def test_a_database_in_use_is_backed_up_whole(folder: Path, tmp_path: Path) -> None:
    with contextlib.closing(sqlite3.connect(folder / "setday.sqlite3")) as database:
        database.execute("pragma journal_mode=wal")
        database.execute("insert into house values ('cabin')")
        database.commit()
        back_up(folder, tmp_path / "b.zip")  # the new row is still in the write-ahead log
    restore(tmp_path / "b.zip", tmp_path / "other", replace=False)
    assert houses(tmp_path / "other") == ["cabin", "shed"]


def test_data_that_is_there_is_set_aside_and_never_lost(folder: Path, tmp_path: Path) -> None:
    back_up(folder, tmp_path / "b.zip")
    with contextlib.closing(sqlite3.connect(folder / "setday.sqlite3")) as database:
        database.execute("insert into house values ('later')")
        database.commit()
    with pytest.raises(FileProblem, match="holds data already"):
        restore(tmp_path / "b.zip", folder, replace=False)
    assert houses(folder) == ["later", "shed"]
    restore(tmp_path / "b.zip", folder, replace=True)
    assert houses(folder) == ["shed"]
    assert houses(tmp_path / "data-before-restore-1") == ["later", "shed"]
    assert (folder / "secret-key").read_text() == "never leaves"


def _not_a_zip(path: Path) -> None:
    path.write_bytes(b"hello")


def _another_zip(path: Path) -> None:
    with zipfile.ZipFile(path, "w") as pack:
        pack.writestr("a.txt", "a")


def _changed(path: Path) -> None:
    with zipfile.ZipFile(path) as pack:
        manifest = pack.read("setday-backup.json")
    with zipfile.ZipFile(path, "w") as pack:
        pack.writestr("setday-backup.json", manifest)
        pack.writestr("setday.sqlite3", b"something else")
        pack.writestr("photos/wall.jpg", b"not really a photo")


def _cut_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-60])


def _reaches_out(path: Path) -> None:
    with zipfile.ZipFile(path, "w") as pack:
        sums = {"setday.sqlite3": "0", "../evil": "0"}
        pack.writestr("setday-backup.json", json.dumps({"setday backup": 1, "sha256": sums}))
        pack.writestr("setday.sqlite3", b"x")
        pack.writestr("../evil", b"x")


@pytest.mark.parametrize("spoil", [_not_a_zip, _another_zip, _changed, _cut_short, _reaches_out])
def test_a_file_that_is_no_sound_backup_changes_nothing(spoil, folder: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    archive = tmp_path / "b.zip"
    back_up(folder, archive)
    spoil(archive)
    with pytest.raises(FileProblem, match="backup"):
        restore(archive, folder, replace=True)
    assert houses(folder) == ["shed"]
    assert not (tmp_path / "evil").exists()
    assert sorted(p.name for p in tmp_path.iterdir()) == ["b.zip", "data"]


def test_a_file_that_is_no_zip_is_not_called_damaged(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text("key,price\na,1\n")
    with pytest.raises(FileProblem, match="not a Setday backup"):
        restore(tmp_path / "prices.csv", folder, replace=True)


def test_a_backup_is_written_over_another_only_when_asked(folder: Path, tmp_path: Path) -> None:
    archive = tmp_path / "b.zip"
    archive.write_bytes(b"the one of last week")
    with pytest.raises(FileProblem, match="already"):
        back_up(folder, archive)
    assert archive.read_bytes() == b"the one of last week"
    assert back_up(folder, archive, replace=True).files == 2


def _holder(folder: Path) -> subprocess.Popen[str]:
    """Start another program that holds the folder, as a running site does, until it is killed."""
    program = (
        "import sys, time, pathlib; from setday.actions.in_use import held\n"
        "with held(pathlib.Path(sys.argv[1])): print('held', flush=True); time.sleep(60)"
    )
    words = [sys.executable, "-c", program, str(folder)]
    paths = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    started = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, env=paths)
    assert started.stdout is not None
    assert started.stdout.readline() == "held\n"
    return started


def test_nothing_is_restored_under_a_running_site_and_a_killed_one_is_no_hindrance(
    folder: Path, tmp_path: Path
) -> None:
    back_up(folder, tmp_path / "b.zip")
    with _holder(folder) as site:
        try:
            with pytest.raises(FileProblem, match="is running"):
                restore(tmp_path / "b.zip", folder, replace=True)
            assert not (tmp_path / "data-before-restore-1").exists()
        finally:
            site.kill()
    restore(tmp_path / "b.zip", folder, replace=True)
    assert houses(tmp_path / "data-before-restore-1") == ["shed"]


def test_an_empty_folder_is_no_data(tmp_path: Path) -> None:
    with pytest.raises(FileProblem, match="no Setday data"):
        back_up(tmp_path, tmp_path / "b.zip")
    assert not (tmp_path / "b.zip").exists()
