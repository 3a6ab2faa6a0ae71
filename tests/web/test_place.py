"""Where the data is kept, on each system and in each account."""

import sys
from pathlib import Path

import pytest

from setday.errors import FileProblem
from setday.web.place import DATA_VARIABLE, data_folder


@pytest.fixture
def home(tmp_path, monkeypatch):
    """Return the home of an account that names no folder of its own."""
    for name in (DATA_VARIABLE, "XDG_DATA_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("system", "place"),
    [
        ("linux", ".local/share/setday"),
        ("darwin", "Library/Application Support/Setday"),
        ("win32", "AppData/Local/Setday"),
    ],
)
def test_each_system_has_its_usual_folder(system, place, home, monkeypatch):
    monkeypatch.setattr(sys, "platform", system)
    assert data_folder() == home / place
    assert (home / place).is_dir()


@pytest.mark.parametrize(
    ("system", "variable", "place"),
    [("linux", "XDG_DATA_HOME", "setday"), ("win32", "LOCALAPPDATA", "Setday")],
)
def test_the_system_may_name_another(system, variable, place, home, monkeypatch):
    monkeypatch.setattr(sys, "platform", system)
    monkeypatch.setenv(variable, str(home / "elsewhere"))
    assert data_folder() == home / "elsewhere" / place


def test_an_account_without_a_home_is_asked_for_a_folder(home, monkeypatch):
    def no_home():
        raise RuntimeError("Could not determine home directory.")

    monkeypatch.setattr(Path, "home", no_home)
    with pytest.raises(FileProblem, match="no home folder") as refused:
        data_folder()
    assert "--data" in refused.value.do


def test_the_home_of_nobody_known_is_asked_for_too(home, monkeypatch):
    monkeypatch.setenv(DATA_VARIABLE, "~no-such-person-here/setday")
    with pytest.raises(FileProblem, match="no home folder"):
        data_folder()


def test_a_file_in_the_way_is_said(home, monkeypatch):
    (home / "taken").write_text("a file", encoding="utf-8")
    monkeypatch.setenv(DATA_VARIABLE, str(home / "taken" / "data"))
    with pytest.raises(FileProblem, match="cannot be made"):
        data_folder()
