"""Backing up everything the site keeps, and putting it back."""

import contextlib
import hashlib
import json
import shutil
import sqlite3
import tempfile
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from setday.actions.in_use import LOCK_FILE, held
from setday.errors import FileProblem

__all__ = ["Backup", "back_up", "restore"]

_MANIFEST = "setday-backup.json"
_FORMAT = 1
_DATABASE = "setday.sqlite3"
_LEFT_OUT = {"static", "cache", "secret-key", LOCK_FILE}
"""Made anew at the next start; the key stays behind so that a lost backup opens no session."""
_MOST = 20 * 1024**3


@dataclass(frozen=True, slots=True, kw_only=True)
class Backup:
    """What a backup holds: its file, the number of files in it and their size before packing [bytes]."""

    path: Path
    files: int
    size: int


def back_up(folder: Path, to: Path, *, replace: bool = False) -> Backup:
    """Write everything the site keeps into one zip file, the site running or not.

    Parameters
    ----------
    folder : Path
        The data folder.
    to : Path
        The zip file; it is written whole or not at all.
    replace : bool
        Write over a file of this name.

    Raises
    ------
    FileProblem
        When there is nothing to back up, the file is there already and `replace` is false, or it cannot
        be written.
    """
    if not (folder / _DATABASE).is_file():
        raise FileProblem(
            "There is no Setday data in this folder.", do="Name the folder with --data.", where=str(folder)
        )
    if to.is_dir():
        raise FileProblem("This is a folder.", do="Name a file in it: friday.zip", where=str(to))
    if to.exists() and not replace:
        raise FileProblem(
            "There is a file of this name already; nothing was written.",
            do="Give the backup another name, or add --replace to write over it.",
            where=str(to),
        )
    fresh = to.with_name(f".{to.name}.part")
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as scratch:
            copy = Path(scratch) / _DATABASE
            _copy_database(folder / _DATABASE, copy)
            entries = {_DATABASE: copy, **_files_in(folder)}
            size = _pack(fresh, entries)
        fresh.replace(to)
    except (OSError, sqlite3.Error) as error:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise FileProblem(f"The backup cannot be written ({_why(error)}).", where=str(to)) from error
    return Backup(path=to, files=len(entries), size=size)


def restore(archive: Path, folder: Path, *, replace: bool) -> Backup:
    """Put a backup back into a data folder; what was there is kept beside it.

    Parameters
    ----------
    archive : Path
        A file that `back_up` wrote.
    folder : Path
        The data folder; the site must not be running.
    replace : bool
        Allow a folder that holds data already; it is renamed, not deleted.

    Raises
    ------
    FileProblem
        When the file is no backup, is damaged, a site is running on the folder, or the folder holds data
        and `replace` is false.  Nothing is changed then.
    """
    if (folder / _DATABASE).exists() and not replace:
        raise FileProblem(
            "This folder holds data already.",
            do="Name another with --data, or add --replace to set the present data aside.",
            where=str(folder),
        )
    _check_idle(folder)
    place = folder.resolve()  # a folder that only points elsewhere stays where it points
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with _scratch_beside(place) as scratch:
            fresh = scratch / "data"
            count, size = _unpack(archive, fresh)
            _check_database(fresh / _DATABASE, archive)
            _check_idle(place)
            _put(fresh, place)
    except OSError as error:
        raise FileProblem(
            f"It cannot be put back ({_why(error)}); nothing was changed.",
            do="Close what else has this folder open, or name another folder with --data.",
            where=str(folder),
        ) from error
    return Backup(path=archive, files=count, size=size)


@contextlib.contextmanager
def _scratch_beside(folder: Path) -> Iterator[Path]:
    """Make a folder on the same disk, so that what is unpacked there need only be renamed."""
    with tempfile.TemporaryDirectory(
        dir=folder.parent, prefix=".setday-restore-", ignore_cleanup_errors=True
    ) as scratch:
        yield Path(scratch)


def _put(fresh: Path, folder: Path) -> None:
    """Put a folder in the place of another, which is set aside; where that fails, it stands there again."""
    aside = _set_aside(folder, fresh) if folder.exists() else None
    try:
        fresh.replace(folder)
    except OSError:
        if aside is not None:
            aside.replace(folder)
        raise


def _why(error: Exception) -> str:
    return getattr(error, "strerror", None) or str(error)


def _check_idle(folder: Path) -> None:
    """Refuse while a site runs; let go at once, since some systems rename no folder with an open file."""
    if folder.is_dir():
        with held(folder):
            pass


def _copy_database(source: Path, target: Path) -> None:
    with (
        contextlib.closing(sqlite3.connect(source)) as old,
        contextlib.closing(sqlite3.connect(target)) as new,
    ):
        old.backup(new)


def _files_in(folder: Path) -> dict[str, Path]:
    found = {}
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder)
        if path.is_symlink() or not path.is_file() or inside.parts[0] in _LEFT_OUT:
            continue
        if not inside.name.startswith(_DATABASE):
            found[inside.as_posix()] = path
    return found


def _pack(path: Path, entries: dict[str, Path]) -> int:
    sums, size = {}, 0
    # A machine without a clock of its own writes files of 1970, which a zip file cannot say.
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, strict_timestamps=False) as pack:
        for name, source in entries.items():
            sums[name] = _digest(source)
            size += source.stat().st_size
            pack.write(source, name)
        pack.writestr(_MANIFEST, json.dumps({"setday backup": _FORMAT, "sha256": sums}, indent=1))
    return size


def _digest(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


@contextlib.contextmanager
def _opened(archive: Path) -> Iterator[zipfile.ZipFile]:
    try:
        with zipfile.ZipFile(archive) as pack:
            yield pack
    except FileNotFoundError as error:
        raise FileProblem("There is no such file.", do="Check the name.", where=str(archive)) from error
    except (zipfile.BadZipFile, EOFError, RuntimeError) as error:
        raise (_damaged(archive) if _begins_as_zip(archive) else _no_backup(archive)) from error
    except OSError as error:
        raise FileProblem(f"It cannot be read ({error.strerror}).", where=str(archive)) from error


def _unpack(archive: Path, into: Path) -> tuple[int, int]:
    with _opened(archive) as pack:
        sums = _manifest(pack, archive)
        total = sum(info.file_size for info in pack.infolist())
        if total > _MOST:
            raise FileProblem(f"It would unpack to {total / 1e9:,.0f} GB.", where=str(archive))
        for name, expected in sums.items():
            target = _inside(into, name, archive)
            target.parent.mkdir(parents=True, exist_ok=True)
            try:
                with pack.open(name) as source, target.open("wb") as file:
                    shutil.copyfileobj(source, file)
            except KeyError as error:
                raise _damaged(archive) from error
            if _digest(target) != expected:
                raise _damaged(archive)
    return len(sums), total


def _manifest(pack: zipfile.ZipFile, archive: Path) -> dict[str, str]:
    try:
        manifest = json.loads(pack.read(_MANIFEST))
        sums = manifest["sha256"]
        known = manifest["setday backup"] == _FORMAT and _DATABASE in sums
    except (KeyError, ValueError, TypeError) as error:
        raise _no_backup(archive) from error
    if not known or not all(isinstance(v, str) for v in sums.values()):
        raise FileProblem("This backup is of a kind this Setday does not read.", where=str(archive))
    return dict(sums)


def _inside(folder: Path, name: str, archive: Path) -> Path:
    parts = PurePosixPath(name).parts
    if not parts or name.startswith("/") or ".." in parts or any(":" in p or "\\" in p for p in parts):
        raise _damaged(archive)
    return folder.joinpath(*parts)


def _check_database(path: Path, archive: Path) -> None:
    try:
        with contextlib.closing(sqlite3.connect(path)) as database:
            (answer,) = database.execute("PRAGMA integrity_check").fetchone()
    except sqlite3.DatabaseError as error:
        raise _damaged(archive) from error
    if answer != "ok":
        raise _damaged(archive)


def _set_aside(folder: Path, fresh: Path) -> Path:
    key = folder / "secret-key"
    if key.exists():
        shutil.copy2(key, fresh / key.name)
    number = 1
    while (aside := folder.with_name(f"{folder.name}-before-restore-{number}")).exists():
        number += 1
    return folder.replace(aside)


def _begins_as_zip(archive: Path) -> bool:
    with archive.open("rb") as file:
        return file.read(2) == b"PK"


def _no_backup(archive: Path) -> FileProblem:
    return FileProblem(
        "This is not a Setday backup; nothing was changed.",
        do="Name the file that backup wrote.",
        where=str(archive),
    )


def _damaged(archive: Path) -> FileProblem:
    return FileProblem(
        "This backup is damaged; nothing was changed.", do="Use another backup.", where=str(archive)
    )
