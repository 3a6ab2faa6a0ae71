"""Where the command starts, and where every error becomes a sentence."""

import os
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import typer

from setday.errors import SetdayError

__all__ = ["BAD_INPUT", "CHECK_FAILED", "Site", "main"]

CHECK_FAILED = 1
BAD_INPUT = 2
UNEXPECTED = 3
INTERRUPTED = 130


_PLAINLY = {
    "Input should be a valid number, unable to parse string as a number": "write a number, like 60",
    "Input should be a valid integer, unable to parse string as an integer": "write a whole number, like 2",
    "Input should be greater than or equal to": "the least is",
    "Input should be less than or equal to": "the most is",
}
"""What the library that reads the command line says, in plain words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """What the command may ask of the site, handed in where both are put together.

    Parameters
    ----------
    serve : callable
        Serves until interrupted; takes host, port, data, demo, new_code and on_start by name.
    data_folder : callable
        Returns the folder the site keeps its data in, from the one named or None.
    devices : callable
        Returns every school with its chosen devices; takes data, opened and school by name.
    """

    serve: Callable[..., None]
    data_folder: Callable[[Path | None], Path]
    devices: Callable[..., list[dict[str, Any]]]


def main(words: Sequence[str] | None = None, *, site: Site | None = None) -> int:
    """Run the command and return its exit status: 0, 1 (the check found problems) or 2 (bad input)."""
    from setday.cli.app import app

    _speak_utf8()
    try:
        given = list(words) if words is not None else None
        status = app(args=given, prog_name="setday", standalone_mode=False, obj=site)
    except SetdayError as error:
        return _say(str(error), BAD_INPUT)
    except typer.TyperException as error:
        return _say(_usage(error), BAD_INPUT)
    except (KeyboardInterrupt, typer.Abort):
        return _say("Stopped.", INTERRUPTED)
    except BrokenPipeError:
        # The reader of a pipe has gone; nothing is left to say and nobody to say it to.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as error:
        return _say(f"{error.strerror or error}: {error.filename or ''}".rstrip(": "), BAD_INPUT)
    except MemoryError:
        return _say("There is not enough memory for this house on this machine.", UNEXPECTED)
    except Exception as error:  # noqa: BLE001  the last resort: a person never sees a traceback
        return _say(_unexpected(error), UNEXPECTED)
    return status if isinstance(status, int) else 0


def _say(message: str, status: int) -> int:
    sys.stderr.write(f"setday: {message}\n")
    return status


def _usage(error: typer.TyperException) -> str:
    context = getattr(error, "ctx", None)
    verb = context.command_path if context is not None else "setday"
    message = error.format_message().rstrip()
    if message.startswith("Usage:"):
        return f"Name one of its verbs.\n\n{message}"
    for said, plain in _PLAINLY.items():
        message = message.replace(said, plain)
    stop = "" if message.endswith((".", "?", "!")) else "."
    return f"{message}{stop} Try: {verb} --help"


def _unexpected(error: Exception) -> str:
    if os.environ.get("SETDAY_DEBUG"):
        raise error
    return (
        f"something went wrong that is ours to mend, not yours ({type(error).__name__}: {error}). "
        "Nothing was changed. Set SETDAY_DEBUG=1 and run it again for the details to report."
    )


def _speak_utf8() -> None:
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")
