"""Backing up and putting back."""

import contextlib
import errno
import json
import os
import sqlite3
import subprocess
import sys
import zipfile
from pathlib import Path
from types import ModuleType

import pytest

from setday.actions import in_use
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


def test_a_folder_is_no_name_for_a_backup(folder: Path, tmp_path: Path) -> None:
    for name in (tmp_path, Path()):
        with pytest.raises(FileProblem, match="is a folder"):
            back_up(folder, name, replace=True)


def test_files_of_1970_are_backed_up(folder: Path, tmp_path: Path) -> None:
    os.utime(folder / "photos" / "wall.jpg", (0, 0))
    back_up(folder, tmp_path / "b.zip")
    restore(tmp_path / "b.zip", tmp_path / "other", replace=False)
    assert (tmp_path / "other" / "photos" / "wall.jpg").exists()


def test_a_file_that_is_no_database_is_said_and_leaves_no_half_backup(folder: Path, tmp_path: Path) -> None:
    (folder / "setday.sqlite3").write_bytes(b"not a database, whatever its name " * 100)
    with pytest.raises(FileProblem, match="not a database"):
        back_up(folder, tmp_path / "b.zip")
    assert [path.name for path in tmp_path.iterdir()] == ["data"]


def test_what_was_there_stands_again_when_the_new_cannot_be_put(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Windows renames no folder in which another program has a file open."""
    back_up(folder, tmp_path / "b.zip")
    rename = Path.replace

    def busy(self: Path, target: Path) -> Path:
        if self.name == "data" and self.parent.name.startswith(".setday-restore-"):
            raise PermissionError(13, "The process cannot access the file")
        return rename(self, target)

    monkeypatch.setattr(Path, "replace", busy)
    with pytest.raises(FileProblem, match=r"cannot access the file.*nothing was changed"):
        restore(tmp_path / "b.zip", folder, replace=True)
    assert houses(folder) == ["shed"]
    assert (folder / "secret-key").read_text() == "never leaves"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["b.zip", "data"]


def test_a_folder_that_points_elsewhere_is_restored_there(folder: Path, tmp_path: Path) -> None:
    back_up(folder, tmp_path / "b.zip")
    disk = tmp_path / "disk"
    disk.mkdir()
    (disk / "data").mkdir()
    link = tmp_path / "link"
    try:
        link.symlink_to(disk / "data", target_is_directory=True)
    except OSError:
        pytest.skip("this account may not make links")
    restore(tmp_path / "b.zip", link, replace=False)
    assert link.is_symlink()
    assert houses(disk / "data") == ["shed"]


@pytest.mark.parametrize(
    ("code", "said"),
    [
        (errno.EWOULDBLOCK, "is running"),
        (errno.EACCES, "is running"),
        (errno.EDEADLK, "is running"),
        (errno.ENOLCK, "cannot be locked"),
        (errno.EOPNOTSUPP, "network folders"),
    ],
)
def test_a_lock_that_cannot_be_had_is_not_always_a_running_site(
    code: int, said: str, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_file: object) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(in_use, "_lock", refuse)
    with pytest.raises(FileProblem, match=said), in_use.held(folder):
        pass


class MadeUpWindows:
    """Locks of single bytes that are taken and given back where the file stands, as on Windows."""

    LK_NBLCK, LK_UNLCK = 2, 0

    def __init__(self) -> None:
        self.taken: set[tuple[int, int]] = set()

    def locking(self, handle: int, mode: int, count: int) -> None:
        assert count == 1
        place = (os.fstat(handle).st_ino, os.lseek(handle, 0, os.SEEK_CUR))
        if mode == self.LK_UNLCK:
            self.taken.remove(place)
        elif place in self.taken:
            raise PermissionError(errno.EACCES, "Permission denied")
        else:
            self.taken.add(place)


def test_on_windows_the_folder_is_held_once_and_let_go(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same source is read again as Windows reads it, with locks made up."""
    windows = MadeUpWindows()
    monkeypatch.setitem(sys.modules, "msvcrt", windows)
    monkeypatch.setattr(sys, "platform", "win32")
    there = ModuleType("in_use_on_windows")
    exec(compile(Path(in_use.__file__).read_text(encoding="utf-8"), in_use.__file__, "exec"), there.__dict__)
    with there.held(folder):
        assert len(windows.taken) == 1
        with pytest.raises(FileProblem, match="is running"), there.held(folder):
            pass
    assert windows.taken == set()
