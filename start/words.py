"""The words after `python3 run.py`, and what each starts."""

import os
import sys

from start.place import ROOT, Environment, clean_variables
from start.refusal import Refusal

USAGE = """\
python3 run.py               start the demo house on this machine and print the address
python3 run.py --network     the same, and let the tablets of the class network in
python3 run.py -- WORDS      hand WORDS to the setday command: python3 run.py -- check my-house.yaml
python3 run.py test [WORDS]  run every check; WORDS go to pytest
python3 run.py bench NAME    run one measurement of the folder bench: python3 run.py bench boards --case room
python3 run.py lock          write the pinned requirement files anew

The first start makes a private environment in the folder .setday beside this file and needs the network.
"""

_COMMAND = "import sys; sys.argv[0] = 'setday'; from setday.__main__ import run; sys.exit(run())"


def main(words: list[str]) -> int:
    """Do what the words ask; return the exit status."""
    try:
        return _dispatch(words)
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped. Nothing is broken; start again when you like.\n")
        return 130
    except (OSError, Refusal) as error:
        sys.stderr.write(f"{error}\n")
        return getattr(error, "status", 2)


def _dispatch(words: list[str]) -> int:
    match words:
        case []:
            return _start_command(["demo"])
        case ["--network"]:
            return _start_command(["demo", "--network"])
        case ["--", *rest]:
            return _start_command(rest)
        case ["test", *rest]:
            from start.checks import run_checks

            return run_checks(rest)
        case ["bench", name, *rest]:
            return _start_bench(name, rest)
        case ["lock"]:
            from start.pins import write_locks

            return write_locks()
        case ["-h" | "--help" | "help", *_]:
            sys.stdout.write(USAGE)
            return 0
    asked = " ".join(words)
    sys.stderr.write(
        f"run.py does not know the words: {asked}\n"
        f"For the setday command write -- before them: python3 run.py -- {asked}\n\n{USAGE}"
    )
    return 2


def _start_command(words: list[str]) -> int:
    return hand_over([_python(), "-P", "-c", _COMMAND, *words])


def _start_bench(name: str, words: list[str]) -> int:
    folder = ROOT / "bench"
    known = sorted(path.stem for path in folder.glob("*.py") if path.stem != "__init__")
    if name not in known:
        raise Refusal(f"There is no measurement {name!r} in the folder bench. There are: {', '.join(known)}.")
    return hand_over([_python(), str(folder / f"{name}.py"), *words])


def _python() -> str:
    environment = Environment(kind="run", root=ROOT)
    if not environment.is_ready():
        from start.environment import make_ready

        make_ready(environment)
    return str(environment.python)


def hand_over(command: list[str]) -> int:
    """Become the command; where the system cannot do that, run it and return its exit status."""
    variables = clean_variables()
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name != "nt":
        os.execve(command[0], command, variables)  # noqa: S606
    import subprocess

    process = subprocess.Popen(command, env=variables)
    while True:
        try:
            return process.wait()
        except KeyboardInterrupt:  # the command got it too, and ends in its own way
            continue
