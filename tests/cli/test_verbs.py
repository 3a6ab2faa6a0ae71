"""What a person types, and what comes back."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from setday.actions import demo_names, demo_text
from setday.actions.buying import demo_prices
from setday.cli import Site, main

VERBS = ("check", "draw", "boards", "buy", "serve", "demo", "backup", "restore")


@pytest.fixture
def shed(tmp_path: Path) -> Path:
    path = tmp_path / "shed.yaml"
    path.write_text(demo_text("shed"), encoding="utf-8")
    return path


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(list(words))
    said = capsys.readouterr()
    return status, said.out, said.err


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_has_help_with_an_example(verb: str, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, verb, "--help")
    assert status == 0
    assert f"Example:  setday {verb}" in out


def test_help_names_every_verb(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "--help")
    assert all(f"  {verb} " in out for verb in VERBS)


@pytest.mark.parametrize("name", demo_names())
def test_the_demo_houses_have_no_problems(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "house.yaml"
    path.write_text(demo_text(name), encoding="utf-8")
    status, out, err = run(capsys, "check", str(path), "--json")
    document = json.loads(out)
    assert (status, err) == (0, "")
    assert document["problems"] == 0
    assert document["rooms"]


def test_check_ends_with_one_where_there_are_problems(shed: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = shed.read_text(encoding="utf-8")
    shed.write_text(text.replace("3'-0\" x 6'-8\"", "30'-0\" x 6'-8\""), encoding="utf-8")
    status, out, _ = run(capsys, "check", str(shed))
    assert status == 1
    line = 1 + text[: text.index("shed door:")].count("\n")
    assert any(f"line {n}: problem: opening 'shed door'" in out for n in range(line, line + 4))
    assert "30'-2\" wide" in out


def test_check_reads_standard_input(
    shed: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    class Typed:
        buffer = io.BytesIO(shed.read_bytes())

    monkeypatch.setattr(sys, "stdin", Typed)
    status, out, _ = run(capsys, "check", "-")
    assert status == 0
    assert "Practice shed: 1 room" in out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("check", "nowhere.yaml"), "There is no file of this name; a house file was expected."),
        (("check",), "Missing argument"),
        (("chekc",), "No such command"),
        (("boards", "{shed}", "--offcuts", "moon"), "Write one of: none, room, day, house."),
        (("boards", "{shed}", "--rule", "least"), "is not a rule and a value"),
        (("boards", "{shed}", "--rule", "boards.nothing=3"), "There is no rule 'boards.nothing'"),
        (("boards", "{shed}", "--rule", "boards.least_piece=long"), "is not a length"),
        (("boards", "{shed}", "--longest", "2'"), "offers no board of 2'-0\" or less"),
        (("boards", "{shed}", "--longest", "eight"), "is not a length"),
        (
            ("boards", "{shed}", "--prices", "nowhere.csv"),
            "There is no file of this name; a price list was expected.",
        ),
        (("boards", "{shed}", "--time-limit", "-3"), "'--time-limit': the least is 0.1."),
        (("boards", "{shed}", "--time-limit", "soon"), "'--time-limit': write a number, like 60."),
        (("serve",), "The site is not part of this installation."),
    ],
)
def test_bad_input_is_one_sentence_and_status_two(
    words: tuple[str, ...], said: str, shed: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, err = run(capsys, *(word.format(shed=shed) for word in words))
    assert status == 2
    assert said in err
    assert err.startswith("setday: ")
    assert "Traceback" not in out + err


def test_draw_writes_the_plan_every_wall_twice_and_every_surface(
    shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, _ = run(capsys, "draw", str(shed), "--out", str(tmp_path / "out"), "--json")
    drawings = json.loads(out)["drawings"]
    assert status == 0
    assert [d["kind"] for d in drawings] == ["plan"] + ["wall"] * 8 + ["surface"] * 5
    for drawing in drawings:
        assert Path(drawing["file"]).read_text(encoding="utf-8").startswith("<svg")


def test_boards_prints_one_document_and_nothing_else(shed: Path) -> None:
    # A process of its own: what a library writes past Python would spoil the document too.
    done = subprocess.run(
        [sys.executable, "-m", "setday", "boards", str(shed), "--time-limit", "2", "--json"],
        capture_output=True,
        check=False,
        timeout=120,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)},
    )
    document = json.loads(done.stdout)
    assert done.returncode == 0
    assert document["status"] in {"optimal", "feasible"}
    assert document["totals"]["boards"] == len(document["boards"])
    assert document["totals"]["pieces"] == len(document["pieces"])
    assert document["totals"]["cost"] >= document["bound"]["cost"] > 0
    assert document["gap"] == pytest.approx(
        document["totals"]["cost"] / document["bound"]["cost"] - 1, abs=1e-6
    )


def test_boards_tells_what_to_buy_and_how_good_it_is(shed: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "boards", str(shed), "--time-limit", "2", "--cuts")
    assert status == 0
    assert "Proven: no layout costs less than $" in out
    assert "By area: " in out
    assert "board 1, " in out


def test_buy_writes_the_order_three_ways(
    shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    files = [tmp_path / f"order.{end}" for end in ("csv", "xlsx", "pdf")]
    words = [word for path in files for word in (f"--{path.suffix[1:]}", str(path))]
    status, out, _ = run(capsys, "buy", str(shed), "--time-limit", "2", "--json", *words)
    document = json.loads(out)
    assert status == 0
    assert document["total_cents"] == sum(
        sum(p["count"] * p["price_cents"] for p in line["packages"]) for line in document["lines"]
    )
    assert files[0].read_text(encoding="utf-8").count("\n") > 3
    assert files[1].read_bytes()[:2] == b"PK"
    assert files[2].read_bytes()[:4] == b"%PDF"


def test_serving_passes_on_what_was_typed(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    asked: dict[str, object] = {}
    site = Site(
        serve=lambda **given: asked.update(given),
        data_folder=lambda named: named or tmp_path,
        devices=lambda **given: [],
    )
    assert main(["demo", "--port", "8123", "--data", str(tmp_path)], site=site) == 0
    assert (asked["port"], asked["data"], asked["demo"]) == (8123, tmp_path, True)
    assert asked["host"] == "127.0.0.1"
    assert main(["serve", "--network"], site=site) == 0
    assert asked["host"] == "0.0.0.0"


def test_a_mistake_of_ours_is_one_sentence_too(
    shed: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr("setday.actions.houses.read_house", broken)
    monkeypatch.delenv("SETDAY_DEBUG", raising=False)
    status, _, err = run(capsys, "check", str(shed))
    assert status == 3
    assert "ours to mend, not yours (ZeroDivisionError" in err
    assert "Traceback" not in err


def test_the_order_is_that_of_the_layout_that_was_kept(
    shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = tmp_path / "shed.layout"
    _, out, _ = run(
        capsys, "boards", str(shed), "--time-limit", "1", "--offcuts", "room", "--keep", str(kept), "--json"
    )
    laid = json.loads(out)["boards"]
    _, out, _ = run(capsys, "buy", str(shed), "--layout", str(kept), "--json")
    lines = [line for line in json.loads(out)["lines"] if line["item"].startswith("board-")]
    assert sum(line["needed"] for line in lines) == len(laid)
    cost = sum(p["count"] * p["price_cents"] for line in lines for p in line["packages"])
    assert cost == pytest.approx(100 * sum(board["price"] for board in laid))


def test_a_kept_layout_serves_no_other_house_and_no_changed_file(
    shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = tmp_path / "shed.layout"
    run(capsys, "boards", str(shed), "--time-limit", "1", "--keep", str(kept))
    text = kept.read_text(encoding="utf-8")
    kept.write_text(text.replace('"cost_cents": 2', '"cost_cents": 1'), encoding="utf-8")
    status, _, err = run(capsys, "buy", str(shed), "--layout", str(kept))
    assert (status, "changed since" in err) == (2, True)
    kept.write_text(text, encoding="utf-8")
    shed.write_text(shed.read_text(encoding="utf-8") + "# measured again\n", encoding="utf-8")
    status, _, err = run(capsys, "buy", str(shed), "--layout", str(kept))
    assert (status, "another version of the house file" in err) == (2, True)


def _list_without(tmp_path: Path) -> Path:
    """Write the demo prices with one board unpriced and without tape."""
    lines = demo_prices().text.splitlines()
    kept = [line for line in lines if not line.startswith("tape-paper")]
    at = next(i for i, line in enumerate(kept) if line.startswith("board-regular-1/2-48x192"))
    kept[at] = kept[at].replace("29.36", "")
    path = tmp_path / "yard.csv"
    path.write_text("\n".join(kept) + "\n", encoding="utf-8")
    return path


def test_what_was_found_in_the_price_list_is_said_once_beside_the_answer(
    shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    prices = str(_list_without(tmp_path))
    status, out, err = run(capsys, "buy", str(shed), "--prices", prices, "--time-limit", "1")
    assert status == 0
    assert err.count("No board of this line is laid out") == 1
    tape = next(line for line in out.splitlines() if line.startswith("paper joint tape"))
    assert "not on the price list" in tape


@pytest.mark.parametrize("words", [("backup", "b.zip"), ("restore", "b.zip")])
def test_records_in_postgresql_are_saved_with_its_own_tools(
    words: tuple[str, ...], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SETDAY_DATABASE", "postgresql://setday@db.example/setday")
    status, out, said = run(capsys, *words)
    assert (status, out) == (2, "")
    assert "pg_dump" in said
