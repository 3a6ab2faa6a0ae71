"""What is committed works on every machine and leaves nothing open."""

import fnmatch
import re
import tomllib

import pytest

from tests.architecture.source import ROOT, SRC, committed, committed_text

LISTS = ("lock", "run", "test", "bench")
OPEN_WORK = re.compile(r"\b(TO" r"DO|FIX" r"ME|X" r"XX|NotImplemented" r"Error)\b")
MACHINE_PATH = re.compile(
    r"(?<![\w.\-/:])/(?:wo" r"rk|ro" r"ot|ho" r"me|Us" r"ers|t" r"mp)/\w|\b[A-Z]:\\\\?Us" r"ers\\"
)
ADDRESS = re.compile(r"https?://|index-url|find-links", re.IGNORECASE)
CODE = (".py", ".js", ".html", ".css", ".typ", ".toml", ".yaml", ".yml")


def test_no_file_names_a_path_of_one_machine():
    found = [
        f"{path}: {match[0]}" for path, text in committed_text() for match in MACHINE_PATH.finditer(text)
    ]
    assert found == []


def test_nothing_is_left_open():
    found = [
        f"{path}: {match[0]}"
        for path, text in committed_text()
        if path.endswith(CODE)
        for match in OPEN_WORK.finditer(text)
    ]
    assert found == []


def test_no_requirement_file_holds_an_address():
    lists = {".txt", ".in", ".lock", ".json", ".toml", ".cfg", ".yaml", ".yml"}
    files = [path for path in committed() if path.suffix in lists]
    files = [
        path for path in files if "requirements" in path.parts or "lock" in path.name or path.parent == ROOT
    ]
    assert [str(path) for path in files if ADDRESS.search(path.read_text(encoding="utf-8"))] == []


@pytest.mark.parametrize("kind", LISTS)
def test_every_pin_has_its_hash(kind):
    blocks = re.split(
        r"\n(?=[A-Za-z0-9])", (ROOT / "requirements" / f"{kind}.txt").read_text(encoding="utf-8")
    )
    pins = [block for block in blocks if "==" in block.splitlines()[0]]
    assert pins
    assert [block.splitlines()[0] for block in pins if "--hash=sha256:" not in block] == []


@pytest.mark.parametrize(("small", "large"), [("run", "test"), ("test", "bench")])
def test_a_larger_list_pins_the_same_versions(small, large):
    assert pins_of(small).items() <= pins_of(large).items()


@pytest.mark.parametrize("kind", LISTS)
def test_every_wish_has_its_pin(kind):
    wishes = re.findall(
        r"^[A-Za-z][\w.-]*", (ROOT / "requirements" / f"{kind}.in").read_text(encoding="utf-8"), re.MULTILINE
    )
    assert {normal(name) for name in wishes} - pins_of(kind).keys() == set(), "run `python3 run.py lock`"


def test_all_that_the_package_needs_is_packed_with_it():
    packing = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]
    patterns = [pattern.replace("**/", "*") for pattern in packing["package-data"]["setday"]]
    data = [
        path.relative_to(SRC).as_posix()
        for path in committed()
        if path.is_relative_to(SRC) and path.suffix != ".py"
    ]
    lost = [name for name in data if not any(fnmatch.fnmatchcase(name, pattern) for pattern in patterns)]
    assert lost == [], "name it in pyproject.toml under [tool.setuptools.package-data]"


def pins_of(kind: str) -> dict[str, str]:
    """Return name to version of a pinned list."""
    text = (ROOT / "requirements" / f"{kind}.txt").read_text(encoding="utf-8")
    return dict(re.findall(r"^([a-z0-9._-]+)==([^\s;\\]+)", text, re.MULTILINE))


def normal(name: str) -> str:
    """Return a distribution's name in the one spelling that compares."""
    return re.sub(r"[-_.]+", "-", name).lower()
