"""`python3 run.py test`: every check is shown, and the last line counts them all."""

import contextlib

import pytest

from start import checks, postgresql
from start.checks import CHECKS, Result, read_report, run_checks, summary


class Ready:
    """An environment that is whole."""

    def __init__(self, *, kind, root):
        self.root = self.home = root
        self.python = root / "python"

    def is_ready(self):
        return True


REPORT = (
    '<?xml version="1.0"?><testsuites><testsuite name="pytest" errors="{errors}" failures="{failures}" '
    'skipped="{skipped}" tests="{tests}"/></testsuites>'
)


@pytest.fixture
def pretend(tmp_path, monkeypatch):
    """Run the checks with made-up statuses and a made-up report of pytest."""

    def run(*, statuses, report=""):
        left = list(statuses)

        def call(check, environment, variables=None):
            if check.name == "tests" and report:
                (tmp_path / "tests.xml").write_text(report, encoding="utf-8")
            return left.pop(0)

        monkeypatch.setattr(checks, "Environment", Ready)
        monkeypatch.setattr(checks, "_call", call)
        return run_checks(["tests"], root=tmp_path)

    return run


def report(*, tests, failures=0, errors=0, skipped=0):
    """Return a report as pytest writes it."""
    return REPORT.format(tests=tests, failures=failures, errors=errors, skipped=skipped)


def test_all_in_order_ends_with_zero(pretend, capsys):
    assert pretend(statuses=[0] * 5, report=report(tests=7, skipped=1)) == 0
    assert capsys.readouterr().out.splitlines()[-1] == f"{6 + len(CHECKS)} passed, 0 failed"


@pytest.mark.parametrize("place", range(5))
def test_any_one_that_fails_ends_with_one_after_all_were_run(place, pretend, capsys):
    statuses = [int(number == place) for number in range(5)]
    assert pretend(statuses=statuses, report=report(tests=7, failures=int(place == 4))) == 1
    said = capsys.readouterr().out
    assert said.splitlines()[-1].endswith(" 1 failed")
    assert [line.split()[0] for line in said.splitlines() if " ok " in line or "FAILED" in line] == [
        *(check.name for check in CHECKS),
        "tests",
    ]


def test_a_pytest_that_crashed_counts_as_failed(pretend, capsys):
    assert pretend(statuses=[0, 0, 0, 0, 3]) == 1
    assert capsys.readouterr().out.splitlines()[-1] == f"{len(CHECKS)} passed, 1 failed"


def test_a_report_is_counted_by_outcome(tmp_path):
    (tmp_path / "r.xml").write_text(report(tests=10, failures=2, errors=1, skipped=3), encoding="utf-8")
    assert read_report(tmp_path / "r.xml") == (4, 3, 3)


@pytest.mark.parametrize("text", ["", "<testsuite", "not xml"])
def test_a_report_that_cannot_be_read_counts_nothing(text, tmp_path):
    (tmp_path / "r.xml").write_text(text, encoding="utf-8")
    assert read_report(tmp_path / "r.xml") == (0, 0, 0)


def test_the_summary_shows_the_time_of_each_check():
    text = summary([Result("lint", 1, 0, 0, 0.25), Result("tests", 5, 1, 2, 61.04)])
    assert "lint                ok         0.2 s" in text
    assert "tests               FAILED    61.0 s  5 passed, 1 failed, 2 skipped" in text
    assert text.endswith("\n6 passed, 1 failed\n")


class Postgresql:
    """A made-up PostgreSQL: there or not, starting or not."""

    NoServer = postgresql.NoServer
    ADDRESS_VARIABLE = postgresql.ADDRESS_VARIABLE

    def __init__(self, *, there: bool, starts: bool = True):
        self.there, self.starts, self.running = there, starts, False

    def programs(self):
        return "programs" if self.there else None

    @contextlib.contextmanager
    def server(self, folder):
        if not self.starts:
            raise self.NoServer("could not bind")
        self.running = True
        yield "postgresql://setday@127.0.0.1:1/setday"
        self.running = False


@pytest.mark.parametrize(
    ("made_up", "ci", "counted"),
    [
        (Postgresql(there=True), "", (3, 0, 0)),
        (Postgresql(there=False), "", (0, 0, 1)),
        (Postgresql(there=False), "true", (0, 1, 0)),
        (Postgresql(there=True, starts=False), "", (0, 1, 0)),
    ],
    ids=["runs", "none on a desk", "none in CI", "does not start"],
)
def test_the_sites_tests_run_on_postgresql_too(made_up, ci, counted, tmp_path, monkeypatch, capsys):
    asked = []

    def call(check, environment, variables):
        asked.append((check.words[-1], dict(variables), made_up.running))
        (tmp_path / f"{check.name}.xml").write_text(report(tests=3), encoding="utf-8")
        return 0

    monkeypatch.setattr(checks, "postgresql", made_up)
    monkeypatch.setattr(checks, "_call", call)
    monkeypatch.setenv("CI", ci)
    result = checks._on_postgresql(Ready(kind="test", root=tmp_path))
    assert (result.passed, result.failed, result.skipped) == counted
    served = ("tests/web", {"SETDAY_DATABASE": "postgresql://setday@127.0.0.1:1/setday"}, True)
    assert asked == ([served] if counted[0] else [])
    assert not made_up.running
    if not counted[0]:
        assert "not on this machine" in capsys.readouterr().out or made_up.there


def test_asking_for_some_tests_leaves_postgresql_out(pretend, monkeypatch):
    monkeypatch.setattr(checks, "_on_postgresql", lambda environment: pytest.fail("not asked for"))
    assert pretend(statuses=[0] * 5, report=report(tests=7)) == 0


@pytest.mark.parametrize(
    ("processors", "words", "shared"),
    [
        (1, [], ()),
        (2, [], ("--numprocesses=2", "--dist=loadfile")),
        (64, ["tests/web"], ("--numprocesses=4", "--dist=loadfile")),
        (2, ["-x"], ()),
    ],
)
def test_tests_are_shared_out_over_the_processors_unless_asked_otherwise(
    processors, words, shared, monkeypatch
):
    monkeypatch.setattr("os.cpu_count", lambda: processors)
    assert checks._side_by_side(words) == shared
