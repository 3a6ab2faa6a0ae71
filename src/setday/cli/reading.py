"""Reading the files a person names on the command line."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from setday.errors import FileProblem

if TYPE_CHECKING:
    from setday.actions import OpenHouse

__all__ = ["bytes_of", "house_at", "write_bytes", "write_text"]

_MOST = 64 * 1024 * 1024


def bytes_of(path: Path, *, what: str) -> bytes:
    """Return what a file holds; ``-`` is standard input.

    Raises
    ------
    FileProblem
        When it is missing, a folder, unreadable or far too large to be what it should be.
    """
    if str(path) == "-":
        return sys.stdin.buffer.read(_MOST)
    try:
        size = path.stat().st_size
        if size > _MOST:
            raise FileProblem(f"It is {size / 1e6:,.0f} MB, too large to be {what}.", where=str(path))
        return path.read_bytes()
    except FileNotFoundError as error:
        raise FileProblem(f"There is no file of this name; {what} was expected.", where=str(path)) from error
    except IsADirectoryError as error:
        raise FileProblem(
            f"This is a folder, not {what}.", do="Name the file in it.", where=str(path)
        ) from error
    except PermissionError as error:
        raise FileProblem(
            "It may not be read.", do="Check who may read the file.", where=str(path)
        ) from error
    except OSError as error:
        raise FileProblem(f"It cannot be read ({error.strerror}).", where=str(path)) from error


def house_at(path: Path) -> "OpenHouse":
    """Read and build the house in a file."""
    from setday.actions import open_house

    return open_house(bytes_of(path, what="a house file"), name=str(path))


def write_text(path: Path, text: str) -> None:
    """Write a text file, its folder made where it is missing."""
    write_bytes(path, text.encode("utf-8"))


def write_bytes(path: Path, data: bytes) -> None:
    """Write a file whole or not at all, its folder made where it is missing."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        fresh = path.with_name(f".{path.name}.part")
        fresh.write_bytes(data)
        fresh.replace(path)
    except OSError as error:
        raise FileProblem(f"It cannot be written ({error.strerror}).", where=str(path)) from error
