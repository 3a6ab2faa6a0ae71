"""``setday timetable``: every verb, its document, its status, and no traceback for any input."""

import importlib
import json
from datetime import date
from importlib.resources import files as package_files

import pytest

from setday.cli import main

DEMO = package_files("setday.demo")
HOUSE, CLASS = str(DEMO / "wired.yaml"), str(DEMO / "class.yaml")


@pytest.fixture(autouse=True, scope="module")
def before_set_day():
    """Stay before the set day of the demo, whatever day the tests run on."""
    importlib.import_module("setday.cli.app")  # it brings in its verbs in their order
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("setday.cli.timetable.today", lambda: date(2026, 12, 1))
        yield


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    """A kept timetable of the demo, with the status it ended with."""
    path = tmp_path_factory.mktemp("kept") / "plan.json"
    words = ["timetable", "solve", HOUSE, CLASS, "--time-limit", "1", "--workers", "1", "--keep", str(path)]
    assert main([*words, "--json"]) in (0, 1)
    return path


@pytest.fixture
def log(tmp_path):
    path = tmp_path / "log.yaml"
    path.write_text(
        "setday log: 1\nperiods:\n  - {date: 2027-01-11, absent: [Kai Romero],"
        " worked: [{task: roof sheathing, done: 3 %}]}\n",
        encoding="utf-8",
    )
    return path


def ran(capsys, *words):
    capsys.readouterr()  # what fixtures said
    status = main(["timetable", *map(str, words)])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return status, out, err


def test_solve_keeps_a_document_with_every_period(kept):
    document = json.loads(kept.read_text(encoding="utf-8"))
    assert document["setday timetable"] == 1
    assert len(document["periods"]) == document["finish_periods"]
    assert document["left_undone"] == []


def test_the_document_names_only_what_docs_name(kept):
    from pathlib import Path

    docs = (Path(__file__).parents[2] / "docs" / "timetable.md").read_text(encoding="utf-8")
    document = json.loads(kept.read_text(encoding="utf-8"))
    names = {*document, *document["tasks"][0], *document["periods"][0], *document["students"][0]}
    assert sorted(name for name in names if f"`{name}`" not in docs) == []


def test_odds_as_a_document(capsys, kept):
    status, out, _ = ran(
        capsys, "odds", HOUSE, CLASS, "--plan", kept, "--simulations", 200, "--chance-only", "--json"
    )
    document = json.loads(out)
    assert status in (0, 1)
    assert sum(each["simulations"] for each in document["spread"]) == 200


def test_repair_says_what_moved_and_its_file_is_repaired_again(capsys, kept, log, tmp_path):
    words = ("repair", HOUSE, CLASS, "--log", log, "--at-once", "--keep", tmp_path / "p.json")
    status, out, _ = ran(capsys, *words, "--plan", kept)
    assert (status in (0, 1), "Repaired" in out) == (True, True)
    status, out, _ = ran(capsys, *words, "--plan", tmp_path / "p.json", "--json")
    assert (status in (0, 1), json.loads(out)["repair"]["places_changed"] >= 0) == (True, True)


def test_bells_of_a_day(capsys, kept, tmp_path):
    pdf = tmp_path / "bells.pdf"
    words = ("bells", HOUSE, CLASS, "--plan", kept, "--on", "2027-01-12", "--pdf", pdf)
    status, out, _ = ran(capsys, *words)
    assert (status, "Morning class" in out, pdf.read_bytes()[:4]) == (0, True, b"%PDF")


def test_bells_of_one_class_as_a_document(capsys, kept):
    words = ("bells", HOUSE, CLASS, "--plan", kept, "--on", "2027-01-12", "--class", "afternoon", "--json")
    status, out, _ = ran(capsys, *words)
    assert (status, len(json.loads(out)["periods"])) == (0, 1)


def test_bells_take_the_boards_of_a_kept_layout_and_refuse_another_file(capsys, kept, tmp_path):
    layout, pdf = tmp_path / "boards.json", tmp_path / "bells.pdf"
    main(["boards", HOUSE, "--time-limit", "1", "--workers", "1", "--keep", str(layout), "--json"])
    words = ("bells", HOUSE, CLASS, "--plan", kept, "--on", "2027-03-31", "--layout", layout, "--pdf", pdf)
    assert ran(capsys, *words)[0] == 0
    assert pdf.read_bytes()[:4] == b"%PDF"
    status, _out, err = ran(capsys, "bells", HOUSE, CLASS, "--plan", kept, "--layout", kept)
    assert (status, "layout" in err) == (2, True)


def test_ahead_lists_what_is_due(capsys, kept):
    status, out, _ = ran(capsys, "ahead", HOUSE, CLASS, "--plan", kept, "--days", 60, "--json")
    assert (status, bool(json.loads(out)["items"])) == (0, True)


def test_explain_says_what_clashes_with_a_day_and_what_would_help(capsys, kept):
    words = ("explain", HOUSE, CLASS, "--plan", kept, "--by", "2027-05-01", "--time-limit", 2, "--json")
    status, out, _ = ran(capsys, *words)
    document = json.loads(out)
    assert (status, document["cannot_be"], bool(document["said"])) == (1, True, True)
    assert not [each["help"] for each in document["helps"] if "of age" in each["help"]]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("solve", HOUSE, "nowhere.yaml"), "There is no file of this name; a class file was expected."),
        (("solve", HOUSE, HOUSE), "The class file cannot be used"),
        (("odds", HOUSE, CLASS, "--plan", CLASS), "This is no saved timetable"),
        (("repair", HOUSE, CLASS), "A repair needs the timetable that was planned."),
        (("bells", HOUSE, CLASS, "--plan", "{kept}", "--on", "2027-01-16"), "Nothing is planned on Saturday"),
        (("bells", HOUSE, CLASS, "--plan", "{kept}", "--on", "monday"), "is not a day"),
        (
            ("bells", HOUSE, CLASS, "--plan", "{kept}", "--class", "night"),
            "The classes are: morning, afternoon",
        ),
        (("ahead", HOUSE, CLASS, "--plan", "{kept}", "--log", CLASS), "The log cannot be used"),
        (("repair", HOUSE, CLASS, "--plan", "{kept}", "--pin", "nonsense"), "names no task"),
    ],
)
def test_wrong_calls_end_with_status_2_and_a_sentence(capsys, kept, words, said):
    status, out, err = ran(capsys, *(str(kept) if word == "{kept}" else word for word in words))
    assert (status, out) == (2, "")
    assert said in err


def test_rates_that_are_missing_are_named_all_at_once(capsys, tmp_path):
    path = tmp_path / "class.yaml"
    lines = (DEMO / "class.yaml").read_text(encoding="utf-8").splitlines(keepends=True)
    dropped = ("tape and bed joints:", "second coat:", "third coat:")
    kept_lines = [line for line in lines if not line.strip().startswith(dropped)]
    kept_lines = [line for line in kept_lines if line.strip() != "finishing:"]
    path.write_text("".join(kept_lines), encoding="utf-8")
    status, _, err = ran(capsys, "solve", HOUSE, path, "--time-limit", 1)
    assert status == 2
    assert err.count("no published rate is known") == 3


GATES = "setday gates: 1\nsurfaces:\n  bath/{side}: {{state: {state}}}\n"


def test_gates_on_record_are_told_with_what_they_hold(capsys, kept, tmp_path):
    path = tmp_path / "gates.yaml"
    path.write_text(GATES.format(side="ceiling", state="ready"), encoding="utf-8")
    words = ("repair", HOUSE, CLASS, "--plan", kept, "--gates", path, "--at-once")
    status, out, _ = ran(capsys, *words)
    held = next(line for line in out.splitlines() if line.startswith("Hang boards: bath, ceilings"))
    assert (status in (0, 1), "1 of 1" in held, "Look behind" in held) == (True, True, False)


@pytest.mark.parametrize(
    ("side", "state", "said"),
    [
        ("ceiling", "shut", "'shut' is no state of a gate"),
        ("attic", "ready", "there is no surface 'bath/attic'"),
    ],
)
def test_gates_that_cannot_be_used_are_told(capsys, kept, tmp_path, side, state, said):
    path = tmp_path / "gates.yaml"
    path.write_text(GATES.format(side=side, state=state), encoding="utf-8")
    status, out, err = ran(capsys, "repair", HOUSE, CLASS, "--plan", kept, "--gates", path)
    assert (status, out, said in err) == (2, "", True)
