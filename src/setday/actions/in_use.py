"""One program at a time in a data folder: a lock the system itself lets go of when its holder dies."""

import contextlib
import errno
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import IO

from setday.errors import FileProblem

__all__ = ["LOCK_FILE", "held"]

LOCK_FILE = "in-use"
_HELD_BY_ANOTHER = {errno.EAGAIN, errno.EWOULDBLOCK, errno.EACCES, errno.EDEADLK}
"""What systems say of a lock that is taken; Windows says that access is denied."""


@contextlib.contextmanager
def held(folder: Path) -> Iterator[None]:
    """Hold a data folder while the block runs.

    The lock belongs to the open file and not to its being there: after a crash, nothing stands in the way.

    Parameters
    ----------
    folder : Path
        The data folder; it must exist.

    Raises
    ------
    FileProblem
        When another program holds it.
    """
    try:
        file = (folder / LOCK_FILE).open("a+b")
    except OSError as error:
        raise FileProblem(f"It cannot be written ({error.strerror}).", where=str(folder)) from error
    with file:
        try:
            _lock(file)
        except OSError as error:
            raise _cannot_hold(folder, error) from error
        try:
            yield
        finally:
            _unlock(file)


def _cannot_hold(folder: Path, error: OSError) -> FileProblem:
    if error.errno in _HELD_BY_ANOTHER:
        return FileProblem(
            "A Setday site is running on this data.", do="Stop it first, with Ctrl-C.", where=str(folder)
        )
    return FileProblem(
        f"The folder cannot be locked ({error.strerror or error}); some network folders take no locks.",
        do="Keep the data on a disk of this machine: name a folder there with --data.",
        where=str(folder),
    )


if sys.platform == "win32":
    import msvcrt

    def _lock(file: IO[bytes]) -> None:
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)

    def _unlock(file: IO[bytes]) -> None:
        file.seek(0)
        with contextlib.suppress(OSError):
            msvcrt.locking(file.fileno(), msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _lock(file: IO[bytes]) -> None:
        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)

    def _unlock(file: IO[bytes]) -> None:
        fcntl.flock(file.fileno(), fcntl.LOCK_UN)
