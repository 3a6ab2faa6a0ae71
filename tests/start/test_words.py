"""`python3 run.py`: what each word starts, and what is said when it cannot."""

import subprocess
import sys

import pytest

from start import words
from start.place import ROOT
from start.refusal import Refusal


class Ready:
    """An environment that is whole."""

    def __init__(self, *, kind, root):
        self.kind = kind
        self.python = root / "env" / "python"

    def is_ready(self):
        return True


@pytest.fixture
def handed_over(monkeypatch):
    """Collect the commands that would replace the process."""
    commands = []
    monkeypatch.setattr(words, "Environment", Ready)
    monkeypatch.setattr(words, "hand_over", lambda command: commands.append(command) or 0)
    return commands


def test_without_words_the_demo_house_starts(handed_over):
    assert words.main([]) == 0
    assert handed_over[0][-1] == "demo"


def test_one_word_lets_the_class_network_in(handed_over):
    words.main(["--network"])
    assert handed_over[0][-2:] == ["demo", "--network"]


def test_words_after_two_dashes_go_to_the_command_untouched(handed_over):
    words.main(["--", "check", "my house.yaml", "--json", "--", "test"])
    assert handed_over[0][4:] == ["check", "my house.yaml", "--json", "--", "test"]


def test_the_command_is_run_away_from_the_folder_one_stands_in(handed_over):
    words.main(["--", "--help"])
    assert "-P" in handed_over[0]


@pytest.mark.parametrize("asked", [["check"], ["--json"], ["lock", "now"], ["", "--"]])
def test_unknown_words_are_named_and_the_known_ones_shown(asked, handed_over, capsys):
    assert words.main(asked) == 2
    said = capsys.readouterr().err
    assert "does not know the words" in said
    assert "run.py -- WORDS" in said
    assert handed_over == []


@pytest.mark.parametrize("asked", ["-h", "--help", "help"])
def test_help_is_printed(asked, capsys):
    assert words.main([asked]) == 0
    assert capsys.readouterr().out == words.USAGE


@pytest.mark.parametrize(
    ("raised", "status", "said"),
    [
        (Refusal("The disk is full."), 2, "The disk is full.\n"),
        (KeyboardInterrupt(), 130, "\nStopped. Nothing is broken; start again when you like.\n"),
        (FileNotFoundError(2, "No such file", "requirements/run.txt"), 2, "requirements/run.txt"),
    ],
)
def test_what_stops_the_start_is_said_without_a_traceback(raised, status, said, monkeypatch, capsys):
    def stop(*_, **__):
        raise raised

    monkeypatch.setattr(words, "Environment", stop)
    assert words.main([]) == status
    assert said in capsys.readouterr().err


def test_the_status_of_a_command_is_passed_on():
    command = [sys.executable, "-c", "exit(7)"]
    start = f"import sys; from start.words import hand_over; sys.exit(hand_over({command!r}))"
    assert subprocess.run([sys.executable, "-c", start], cwd=ROOT, check=False).returncode == 7


def test_run_py_can_be_read_by_an_old_python():
    text = (ROOT / "run.py").read_text(encoding="utf-8")
    compile(text, "run.py", "exec", dont_inherit=True)
    modern = [
        sign for sign in ('f"', "f'", ":=", "match ", " | ", "->", "nonlocal", "async ") if sign in text
    ]
    assert modern == []


def test_an_old_python_is_told_which_one_is_needed():
    pretend = (
        "import sys; sys.version_info = (3, 10, 2, 'final', 0); sys.argv = ['run.py'];"
        "exec(compile(open('run.py').read(), 'run.py', 'exec'), {'__name__': '__main__'})"
    )
    ended = subprocess.run(
        [sys.executable, "-c", pretend], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert ended.returncode == 2
    assert ended.stderr.startswith("Setday needs Python 3.11 or newer; this is Python 3.10 (")
    assert "Traceback" not in ended.stderr


def test_a_later_start_loads_little_before_the_command():
    heavy = {"subprocess", "venv", "typing", "xml", "http", "ssl", "email"}
    loaded = "import sys; import start.words; print(*{name.split('.')[0] for name in sys.modules})"
    said = subprocess.run(
        [sys.executable, "-I", "-S", "-c", f"import sys; sys.path.insert(0, {str(ROOT)!r}); {loaded}"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert heavy & set(said.stdout.split()) == set()
