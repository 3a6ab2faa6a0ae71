"""A private environment counts only when it is whole, and fits exactly the list it was made from."""

import subprocess
import sys

import pytest

from start import environment as making
from start import install
from start.environment import make_ready
from start.place import Environment, clean_variables
from start.refusal import Refusal


@pytest.fixture
def checkout(tmp_path, monkeypatch):
    """Return a checkout whose list is empty, so that an environment needs no network."""
    monkeypatch.delenv("SETDAY_ENV_DIR", raising=False)
    root = tmp_path / "a house ü"
    (root / "requirements").mkdir(parents=True)
    (root / "requirements" / "run.txt").write_text("# nothing\n", encoding="utf-8")
    (root / "src" / "setday").mkdir(parents=True)
    (root / "src" / "setday" / "__init__.py").write_text("HERE = 'the checkout'\n", encoding="utf-8")
    return root


@pytest.fixture
def quick(monkeypatch):
    """Make environments without pip, in a moment."""

    def make_venv(environment):
        subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(environment.folder)], check=True)

    monkeypatch.setattr(making, "_make_venv", make_venv)
    monkeypatch.setattr(making, "install_pinned", lambda environment: None)


def run_environment(checkout):
    """Return the environment for running of a checkout."""
    return Environment(kind="run", root=checkout)


def test_a_new_environment_finds_the_checkouts_own_source(checkout, quick):
    environment = run_environment(checkout)
    assert not environment.is_ready()
    make_ready(environment)
    assert environment.is_ready()
    said = subprocess.run(
        [str(environment.python), "-P", "-c", "import setday; print(setday.HERE)"],
        env=clean_variables(),
        capture_output=True,
        text=True,
        check=True,
    )
    assert said.stdout == "the checkout\n"


def test_a_moved_checkout_still_finds_its_source(checkout, quick):
    make_ready(run_environment(checkout))
    moved = checkout.rename(checkout.with_name("moved"))
    environment = run_environment(moved)
    assert environment.is_ready()
    said = subprocess.run(
        [str(environment.python), "-P", "-c", "import setday; print(setday.__file__)"],
        env=clean_variables(),
        capture_output=True,
        text=True,
        check=True,
    )
    assert str(moved) in said.stdout


def test_an_interrupted_installation_does_not_count_and_leaves_nothing(checkout, quick, monkeypatch):
    def interrupted(environment):
        raise KeyboardInterrupt

    monkeypatch.setattr(making, "install_pinned", interrupted)
    environment = run_environment(checkout)
    with pytest.raises(KeyboardInterrupt):
        make_ready(environment)
    assert not environment.is_ready()
    assert not environment.folder.exists()


def test_an_environment_without_its_marker_is_made_anew(checkout, quick):
    environment = run_environment(checkout)
    environment.folder.mkdir(parents=True)
    left = environment.folder / "left-over"
    left.write_text("half of an installation", encoding="utf-8")
    make_ready(environment)
    assert environment.is_ready()
    assert not left.exists()


def test_a_changed_list_means_a_new_environment_and_the_old_one_goes(checkout, quick):
    before = run_environment(checkout)
    make_ready(before)
    before.lock.write_text("# something else\n", encoding="utf-8")
    after = run_environment(checkout)
    assert not after.is_ready()
    make_ready(after)
    assert after.is_ready()
    assert not before.folder.exists()


def test_line_endings_of_the_list_do_not_matter(checkout):
    unix = run_environment(checkout).folder
    (checkout / "requirements" / "run.txt").write_bytes(b"# nothing\r\n")
    assert run_environment(checkout).folder == unix


def test_an_environment_whose_python_is_gone_does_not_count(checkout, quick):
    environment = run_environment(checkout)
    make_ready(environment)
    environment.python.unlink()
    assert not environment.is_ready()


def test_a_whole_environment_is_not_touched(checkout, quick, monkeypatch):
    environment = run_environment(checkout)
    make_ready(environment)

    def never(environment):
        raise AssertionError("made again")

    monkeypatch.setattr(making, "_build", never)
    make_ready(environment)


def test_the_environments_can_lie_elsewhere(checkout, quick, tmp_path, monkeypatch):
    monkeypatch.setenv("SETDAY_ENV_DIR", str(tmp_path / "elsewhere"))
    environment = run_environment(checkout)
    make_ready(environment)
    assert environment.folder.is_relative_to(tmp_path / "elsewhere")
    assert environment.is_ready()


def test_the_callers_python_variables_do_not_reach_setday(monkeypatch):
    monkeypatch.setenv("PYTHONPATH", "somewhere")
    monkeypatch.setenv("PYTHONHOME", "elsewhere")
    monkeypatch.setenv("SCHOOL", "ours")
    variables = clean_variables()
    assert "PYTHONPATH" not in variables
    assert "PYTHONHOME" not in variables
    assert variables["SCHOOL"] == "ours"
    assert variables["PYTHONNOUSERSITE"] == "1"


def test_a_python_without_venv_is_refused_before_anything_is_made(checkout, monkeypatch):
    monkeypatch.setattr(making.importlib.util, "find_spec", lambda name: None)
    environment = run_environment(checkout)
    with pytest.raises(Refusal, match="venv and ensurepip"):
        make_ready(environment)
    assert not environment.home.exists()


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("Collecting numpy==2.4.6 (from -r run.txt (line 3))\n", "  1 of at most 9: numpy 2.4.6\n"),
        ("Processing ./wheels/et_xmlfile-2.0.0-py3-none-any.whl\n", "  1 of at most 9: et_xmlfile 2.0.0\n"),
        ("Installing collected packages: numpy\n", "  unpacking; this takes a minute\n"),
        ("  Downloading numpy-2.4.6-cp311.whl (16.5 MB)\n", ""),
    ],
)
def test_progress_names_the_package_that_is_fetched(line, shown, capsys):
    progress = install.Progress(9)
    progress.read(line)
    progress.close()
    assert capsys.readouterr().err == shown


def test_on_windows_a_second_start_waits_and_says_so_once(tmp_path, monkeypatch, capsys):
    """The lock of Windows is made up: taken at first, free at the third try."""

    class MadeUpWindows:
        LK_NBLCK = 2
        left = 2

        def locking(self, handle, mode, count):
            if self.left:
                self.left -= 1
                raise PermissionError(13, "Permission denied")

    monkeypatch.setitem(sys.modules, "msvcrt", MadeUpWindows())
    monkeypatch.setattr("time.sleep", lambda seconds: None)
    with (tmp_path / "run.lock").open("a+b") as file:
        making._lock_on_windows(file)
    assert capsys.readouterr().err.count("waiting for it") == 1


@pytest.mark.parametrize(("system", "python"), [("nt", "Scripts/python.exe"), ("posix", "bin/python")])
def test_each_system_has_its_python_in_its_own_place(system, python, checkout, monkeypatch):
    folder = Environment(kind="run", root=checkout).folder
    monkeypatch.setattr("start.place.os.name", system)
    monkeypatch.setattr("start.place.Path", type(checkout))
    assert Environment(kind="run", root=checkout).python == folder / python


def test_the_searches_are_compiled_once_the_environment_is_whole(checkout, quick, tmp_path):
    said = tmp_path / "said"
    (checkout / "src" / "setday" / "__main__.py").write_text(
        f"import sys\nopen({str(said)!r}, 'a').write(sys.argv[1])\n", encoding="utf-8"
    )
    make_ready(run_environment(checkout))
    make_ready(run_environment(checkout))
    assert said.read_text(encoding="utf-8") == "prepare"


def test_an_environment_is_whole_even_where_nothing_could_be_compiled(checkout, quick):
    (checkout / "src" / "setday" / "__main__.py").write_text("raise SystemExit(3)\n", encoding="utf-8")
    environment = run_environment(checkout)
    make_ready(environment)
    assert environment.is_ready()
