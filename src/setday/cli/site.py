"""``setday serve``, ``demo``, ``devices``, ``backup`` and ``restore``: the site on the class network."""

import os
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.app import app
from setday.cli.start import Site
from setday.cli.telling import say, say_json
from setday.errors import SetdayError

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["backup", "demo", "devices", "restore", "serve"]

_EVERYBODY = "0.0.0.0"  # noqa: S104  what --network asks for

Data = Annotated[Path | None, typer.Option("--data", help="The data folder; without it, the usual one.")]
Host = Annotated[
    str,
    typer.Option("--host", help="The address to listen on; the usual is this machine only."),
]
Network = Annotated[
    bool,
    typer.Option(
        "--network", help="Let tablets on the class network in, and print the address to type on them."
    ),
]
Port = Annotated[int, typer.Option("--port", min=0, max=65535, help="0 takes 8000 or the next free one.")]
NewCode = Annotated[
    bool, typer.Option("--new-code", help="Print a new first-start code: a password was forgotten.")
]


@app.command(epilog="Example:  setday serve --network --port 8000")
def serve(
    context: typer.Context,
    host: Host = "127.0.0.1",
    network: Network = False,
    port: Port = 0,
    data: Data = None,
    new_code: NewCode = False,
) -> None:
    """Serve the site until it is stopped with Ctrl-C."""
    site = _site(context)
    host = _EVERYBODY if network else host
    site.serve(host=host, port=port, data=data, demo=False, new_code=new_code, on_start=_announce(demo=False))


@app.command(epilog="Example:  setday demo")
def demo(
    context: typer.Context,
    host: Host = "127.0.0.1",
    network: Network = False,
    port: Port = 0,
    data: Data = None,
    new_code: NewCode = False,
) -> None:
    """Serve the site with the demo houses in it, to look around."""
    site = _site(context)
    host = _EVERYBODY if network else host
    site.serve(host=host, port=port, data=data, demo=True, new_code=new_code, on_start=_announce(demo=True))


@app.command(epilog="Example:  setday devices --open")
def devices(
    context: typer.Context,
    opened: Annotated[bool, typer.Option("--open", help="Let every device in again.")] = False,
    school: Annotated[str, typer.Option("--school", help="Key of the school, where there are several.")] = "",
    data: Data = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON document.")] = False,
) -> None:
    """Say which devices each school has chosen, and open the site to all again; it may be running."""
    site = _site(context)
    told = site.devices(data=site.data_folder(data), opened=opened, school=school)
    if as_json:
        say_json({"schools": told})
        return
    for each in told:
        only = "serves its chosen devices only" if each["only_chosen_devices"] else "serves every device"
        say(f"{each['name']} ({each['school']}) {only}: {', '.join(each['devices']) or 'none chosen yet'}.")
    if not told:
        say("There is no school yet: start the site and sign in first.")


@app.command(epilog="Example:  setday backup friday.zip")
def backup(
    context: typer.Context,
    to: Annotated[
        Path | None, typer.Argument(help="The zip file; without it, named by today's date.")
    ] = None,
    data: Data = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over a file of this name.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON document.")] = False,
) -> None:
    """Write everything the site keeps into one file; the site may be running."""
    from setday.actions.keeping import back_up

    folder = _folder_with_records(context, data)
    target = to or Path(f"setday-{datetime.now().astimezone():%Y-%m-%d-%H%M}.zip")
    made = back_up(folder, target, replace=replace)
    if as_json:
        say_json({"backup": str(made.path), "files": made.files, "bytes": made.size, "data": str(folder)})
    else:
        say(f"{made.files} files of {folder} are in {made.path}. Keep a copy away from this machine.")


@app.command(epilog="Example:  setday restore friday.zip --replace")
def restore(
    context: typer.Context,
    archive: Annotated[Path, typer.Argument(help="A file that backup wrote.")],
    data: Data = None,
    replace: Annotated[bool, typer.Option("--replace", help="Set data that is there aside.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON document.")] = False,
) -> None:
    """Put a backup back; stop the site first."""
    from setday.actions import keeping

    folder = _folder_with_records(context, data)
    put = keeping.restore(archive, folder, replace=replace)
    if as_json:
        say_json({"backup": str(put.path), "files": put.files, "bytes": put.size, "data": str(folder)})
    else:
        say(f"{put.files} files of {put.path} are back in {folder}. Start the site again.")


def _folder_with_records(context: typer.Context, data: Path | None) -> Path:
    """Return the data folder, unless the records are elsewhere and only their own tools can save them."""
    if os.environ.get("SETDAY_DATABASE"):
        raise SetdayError(
            "The records are in PostgreSQL (SETDAY_DATABASE), not in the data folder.",
            do="Save them with pg_dump and put them back with pg_restore; docs/site.md says how.",
        )
    return _site(context).data_folder(data)


def _site(context: typer.Context) -> Site:
    if not isinstance(context.obj, Site):
        raise SetdayError("The site is not part of this installation.", do="Start it with: python3 run.py")
    return context.obj


def _announce(*, demo: bool) -> "Callable[[object], None]":
    def announce(started: object) -> None:
        say(f"Setday is at {getattr(started, 'address', '')}")
        for other in getattr(started, "others", ()):
            say(f"On a tablet of the class network, type: {other}")
        code = getattr(started, "code", "")
        if code:
            say(f"First-start code, for the instructor: {code}")
        if demo:
            say("The demo house and the practice shed are in it.")
        say(f"Data is kept in {getattr(started, 'data', '')}. Stop with Ctrl-C.")
        import sys

        sys.stdout.flush()

    return announce
