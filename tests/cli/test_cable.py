"""``setday cable``: propose, check, route, panel and pulls, for people and for programs."""

import json

import pytest

from setday.actions import demo_text
from setday.cli import main

HOUSE = demo_text("house")


@pytest.fixture
def house(tmp_path):
    path = tmp_path / "house.yaml"
    path.write_text(HOUSE, encoding="utf-8")
    return path


@pytest.fixture
def run(capsys):
    def call(*words):
        status = main([str(word) for word in words])
        said = capsys.readouterr()
        return status, said.out, said.err

    return call


def test_a_house_without_devices_fails_its_check(run, house):
    status, out, _ = run("cable", "check", house)
    assert status == 1
    assert "farther than 6'-0\" from a receptacle" in out
    assert "Wall without a receptacle near enough" in out


def test_what_is_proposed_and_written_passes_the_check(run, house):
    assert run("cable", "propose", house, "--write")[0] == 0
    status, out, _ = run("cable", "check", house)
    assert status == 0
    assert "devices checked" in out


def test_writing_keeps_every_line_that_was_there(run, house):
    run("cable", "propose", house, "--write")
    assert house.read_text(encoding="utf-8").startswith(HOUSE.rstrip("\n"))


def test_a_house_with_devices_is_not_proposed_again(run, house):
    run("cable", "propose", house, "--write")
    status, out, err = run("cable", "propose", house)
    assert (status, out) == (2, "")
    assert "already" in err


def test_standard_input_cannot_be_written_to(run, house, monkeypatch):
    import io
    import sys

    class Piped:
        buffer = io.BytesIO(HOUSE.encode())

    monkeypatch.setattr(sys, "stdin", Piped())
    status, out, err = run("cable", "propose", "-", "--write")
    assert (status, out) == (2, "")
    assert "--to" in err


KEYS = {
    "propose": {"house", "devices", "findings", "bare"},
    "check": {"house", "devices", "findings", "bare"},
    "route": {"house", "proposed", "cut_in", "runs", "orders", "switched", "holes", "plates", "findings"},
    "panel": {
        "house", "proposed", "circuits", "division", "legs_va", "legs_proven", "spare_spaces", "service",
        "standard", "optional", "neutral", "legs", "tail", "fills", "drops", "findings",
    },
    "pulls": {"house", "pulls", "coils", "plans", "findings"},
}  # fmt: skip


@pytest.mark.parametrize("verb", KEYS)
def test_each_verb_prints_one_document_and_nothing_else(run, house, verb):
    status, out, err = run("cable", verb, house, "--json")
    assert set(json.loads(out)) == KEYS[verb]
    assert err == ""
    assert status == (1 if verb == "check" else 0)


def test_the_pull_list_names_every_run_and_its_coil(run, house):
    routed = json.loads(run("cable", "route", house, "--json")[1])
    pulled = json.loads(run("cable", "pulls", house, "--json")[1])
    assert [run["number"] for run in routed["runs"]] == [pull["number"] for pull in pulled["pulls"]]
    on_coils = [number for coil in pulled["coils"] for number in coil["runs"]]
    assert sorted(on_coils) == sorted(pull["number"] for pull in pulled["pulls"])
    assert all(plan["proven"] for plan in pulled["plans"])


def test_hookups_are_written_and_can_be_judged_and_given_back(run, house, tmp_path):
    folder = tmp_path / "wiring"
    assert run("cable", "route", house, "--hookups", folder)[0] == 0
    files = sorted(folder.glob("*.yaml"))
    assert len(files) == 11
    assert run("switching", "judge", folder / "hall-light.yaml")[0] == 0
    again = json.loads(run("cable", "route", house, "--hookup", folder / "hall-light.yaml", "--json")[1])
    assert [each["group"] for each in again["switched"] if each["by_hand"]] == ["hall light"]


@pytest.mark.parametrize("verb", ["route", "panel", "pulls"])
def test_a_house_without_a_panel_corner_is_refused_in_one_line(run, house, verb):
    house.write_text(HOUSE.replace("  panel corner: northwest\n", ""), encoding="utf-8")
    status, out, err = run("cable", verb, house)
    assert (status, out) == (2, "")
    assert "panel corner" in err
    assert err.count("\n") == 1


def test_the_panel_shows_every_working_when_asked(run, house):
    out = run("cable", "panel", house, "--working")[1]
    assert "220." in out
    assert "VA" in out


@pytest.mark.parametrize("verb", KEYS)
def test_help_has_an_example(run, verb):
    status, out, _ = run("cable", verb, "--help")
    assert status == 0
    assert f"setday cable {verb}" in out


WIRED = demo_text("wired")


@pytest.mark.parametrize("verb", ["propose", "check", "route", "panel", "pulls"])
@pytest.mark.parametrize(
    "words", [["none.yaml"], [], ["house.yaml", "more"], ["house.yaml", "--aloud"], ["."]]
)
def test_a_wrong_call_is_one_line_and_status_2(run, house, monkeypatch, verb, words):
    monkeypatch.chdir(house.parent)
    status, out, err = run("cable", verb, *words)
    assert (status, out) == (2, "")
    assert err.startswith("setday: ")
    assert err.count("\n") == 1


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ("breaker: 50 A", "breaker: fifty", "no size of a breaker"),
        ("devices: [dryer]", "devices: [dryre]", "no device 'dryre'"),
        ("panel corner: northwest", "panel corner: attic", "northeast, northwest"),
        ("\nlocal rules:", "\nlocal rules:\n  cable.cut_reserve: six", "not a length"),
        ("\nlocal rules:", "\nlocal rules:\n  cable.cut_reserved: 6", "perhaps cable.cut_reserve"),
        ("devices: [washer,", "circuit: laundries, devices: [washer,", "'circuit'"),
    ],
)
def test_a_slip_in_the_file_is_said_with_its_line(run, house, right, wrong, says):
    house.write_text(WIRED.replace(right, wrong, 1), encoding="utf-8")
    status, out, err = run("cable", "pulls", house)
    assert (status, out) == (2, "")
    assert says in err
    line = 1 + WIRED[: WIRED.index(right)].count("\n") + wrong.count("\n")
    assert f"house.yaml:{line}: " in err


def test_a_price_list_that_is_not_there_is_said(run, house):
    status, _, err = run("cable", "pulls", house, "--prices", house.parent / "none.csv")
    assert (status, err.count("\n")) == (2, 1)
    assert "none.csv" in err


def test_no_verb_lists_the_verbs(run):
    status, out, err = run("cable")
    assert (status, out) == (2, "")
    assert all(verb in err for verb in ("propose", "check", "route", "panel", "pulls"))
    assert "Try:" not in err
