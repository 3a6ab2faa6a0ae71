"""Starting the site: records made ready, a first-start code where one is due, and the server itself."""

import os
import socket
import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from setday.actions.in_use import held
from setday.errors import SetdayError
from setday.web.network import own_addresses
from setday.web.place import DATA_VARIABLE, data_folder

__all__ = ["PortTaken", "Started", "prepare", "serve"]

_THREADS = 8
_FIRST_PORT = 8000
_PORTS_TRIED = 20
_LARGEST_BODY = 128 * 1024 * 1024
_EVERYWHERE = {"0.0.0.0", "::", ""}  # noqa: S104


class PortTaken(SetdayError):
    """The port is in use, or may not be used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Started:
    """What the person who started the site must know.

    Parameters
    ----------
    address : str
        What to open in the browser on this machine.
    others : tuple of str
        Addresses for other machines on the network; empty when the site serves this machine only.
    code : str
        The first-start code; empty when an instructor has signed in already.
    data : Path
        The data folder.
    """

    address: str
    others: tuple[str, ...]
    code: str
    data: Path


def prepare(*, data: Path | None = None, demo: bool = False, new_code: bool = False) -> str:
    """Make the records ready; return the first-start code, or nothing where an instructor is there.

    Parameters
    ----------
    data : Path or None
        The data folder; None takes the one typical for the system.
    demo : bool
        Put the demo houses into a data folder that has no house yet.
    new_code : bool
        Make a code though there is an instructor: for a forgotten password.
    """
    _choose_data(data)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "setday.web.settings")
    import django

    django.setup()
    _bring_records_up_to_date()
    from setday.web.boards.worker import mark_interrupted
    from setday.web.desk.door import new_code as make_code
    from setday.web.desk.door import nobody_yet
    from setday.web.houses.demo import ensure_demo
    from setday.web.hunts.worker import mark_interrupted as mark_searches
    from setday.web.timetable.worker import mark_interrupted as mark_timetables

    mark_interrupted()
    mark_searches()
    mark_timetables()
    if demo:
        ensure_demo()
    return make_code() if new_code or nobody_yet() else ""


def _choose_data(data: Path | None) -> None:
    if data is not None:
        os.environ[DATA_VARIABLE] = str(data)


def _bring_records_up_to_date() -> None:
    from django.core.checks import ERROR, run_checks
    from django.core.management import call_command

    serious = [found for found in run_checks() if found.level >= ERROR]
    if serious:
        raise SetdayError(" ".join(str(found.msg) for found in serious), do=str(serious[0].hint or ""))
    call_command("migrate", interactive=False, verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0, clear=True)


def serve(
    *,
    host: str = "127.0.0.1",
    port: int = 0,
    data: Path | None = None,
    demo: bool = False,
    new_code: bool = False,
    on_start: Callable[[Started], None] | None = None,
) -> None:
    """Serve the site until it is interrupted.

    Parameters
    ----------
    host : str
        "127.0.0.1" serves this machine only; "0.0.0.0" the whole network.
    port : int
        0 takes 8000, or the next free one.
    data, demo, new_code
        As for `prepare`.
    on_start : callable or None
        Called once, when the site answers.

    Raises
    ------
    PortTaken
        When the named port cannot be used.
    SetdayError
        When the data folder or the database cannot be used, or another site is running on it.
    """
    _choose_data(data)
    with held(data_folder()):
        _serve(host=host, port=port, demo=demo, new_code=new_code, on_start=on_start)


def _serve(
    *, host: str, port: int, demo: bool, new_code: bool, on_start: Callable[[Started], None] | None
) -> None:
    listener = _listen(host, port)
    bound = listener.getsockname()[1]
    others = own_addresses() if host in _EVERYWHERE else ()
    _name_hosts(host, others)
    code = prepare(demo=demo, new_code=new_code)
    server = _server(listener)
    from django.conf import settings

    shown = "127.0.0.1" if host in _EVERYWHERE else host
    started = Started(
        address=f"http://{shown}:{bound}/",
        others=tuple(f"http://{name}:{bound}/" for name in others),
        code=code,
        data=settings.DATA_FOLDER,
    )
    if on_start:
        on_start(started)
    _warm_up()
    try:
        server.run()
    finally:
        server.close()


def _server(listener: socket.socket) -> Any:
    import waitress

    from setday.web.wsgi import application

    return waitress.create_server(
        application, sockets=[listener], threads=_THREADS, ident="", max_request_body_size=_LARGEST_BODY
    )


def _listen(host: str, port: int) -> socket.socket:
    candidates = [port] if port else range(_FIRST_PORT, _FIRST_PORT + _PORTS_TRIED)
    problem: OSError | None = None
    for candidate in candidates:
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        listener = socket.socket(family, socket.SOCK_STREAM)
        try:
            if os.name != "nt":  # there, this option would let two programs share a port
                listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            listener.bind((host, candidate))
            listener.listen(64)
        except OSError as error:
            listener.close()
            problem = error
            continue
        return listener
    tried = str(port) if port else f"{_FIRST_PORT} to {_FIRST_PORT + _PORTS_TRIED - 1}"
    raise PortTaken(
        f"The site cannot listen on {host}, port {tried}: {problem and (problem.strerror or problem)}.",
        do="Name another with --port, or stop the program that uses it.",
    )


def _name_hosts(host: str, others: tuple[str, ...]) -> None:
    named = ["localhost", "127.0.0.1", "[::1]", *others]
    if host not in _EVERYWHERE:
        named.append(f"[{host}]" if ":" in host else host)
    os.environ.setdefault("SETDAY_HOSTS", ",".join(dict.fromkeys(named)))


def _warm_up() -> None:
    """Load the slow parts while the first page is being read."""
    threading.Thread(target=_warmed_up, name="setday-warm-up", daemon=True).start()


def _warmed_up() -> None:
    from setday.web.gates.house import warm_up as work_out_gates
    from setday.web.houses.opening import warm_up as open_house

    open_house()
    work_out_gates()
