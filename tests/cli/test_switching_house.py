"""``setday switching house``: the hookups of a house's switched groups."""

import json
from pathlib import Path

import pytest

from setday.actions import demo_text, open_house
from setday.actions.switching.hookups import open_hookup
from setday.cli import main
from setday.switching import CAUTIONS, judge


@pytest.fixture(scope="module")
def wired(tmp_path_factory) -> Path:
    path = tmp_path_factory.mktemp("house") / "wired.yaml"
    path.write_text(demo_text("wired"), encoding="utf-8")
    return path


@pytest.fixture
def shed(tmp_path: Path) -> Path:
    path = tmp_path / "shed.yaml"
    path.write_text(demo_text("shed"), encoding="utf-8")
    return path


def run(capsys, *words):
    status = main(["switching", "house", *(str(word) for word in words)])
    said = capsys.readouterr()
    return status, said.out, said.err


def switched_in(text: str) -> set[str]:
    """Return what the switches of a house file serve, read from the file itself."""
    house = open_house(text, name="x").built()
    return {name for device in house.devices for name in device.typed.serves}


def test_everything_a_switch_of_the_house_serves_stands_in_one_of_its_hookups(wired, tmp_path, capsys):
    status, out, _ = run(capsys, wired, "--out", tmp_path / "wiring", "--json")
    document = json.loads(out)
    assert (status, document["cautions"]) == (0, list(CAUTIONS))
    served = set()
    for group in document["groups"]:
        hookup = open_hookup(Path(group["written"]).read_bytes(), name=group["written"]).sound()
        served |= {want.load.removesuffix(" upper").removesuffix(" lower") for want in hookup.wants}
        assert judge(hookup, mend=False).works, group["group"]
    assert served >= switched_in(demo_text("wired"))


def test_a_circuit_is_picked_by_its_name(wired, capsys):
    groups = json.loads(run(capsys, wired, "--json")[1])["groups"]
    names = {group["circuit"] for group in groups}
    assert len(names) > 1
    picked = json.loads(run(capsys, wired, "--circuit", min(names).upper(), "--json")[1])["groups"]
    assert picked == [group for group in groups if group["circuit"] == min(names)]


@pytest.mark.parametrize("asked", [("--circuit", "attic"), ("--group", "attic")])
def test_a_name_that_is_none_is_said_with_those_there_are_and_nothing_is_written(
    shed, asked, tmp_path, capsys
):
    status, out, err = run(capsys, shed, *asked, "--out", tmp_path / "wiring")
    assert (status, out) == (2, "")
    assert "'attic'" in err
    assert "workroom light (circuit general)" in err
    assert not (tmp_path / "wiring").exists()


def test_a_printed_group_is_a_hookup_file_and_nothing_else(shed, capsys):
    _, out, _ = run(capsys, shed, "--group", "workroom light", "--print")
    assert judge(open_hookup(out, name="printed").sound(), mend=False).works


def test_several_groups_are_not_printed_one_behind_the_other(wired, capsys):
    status, out, err = run(capsys, wired, "--print")
    assert (status, out) == (2, "")
    assert "--group" in err


def test_what_a_person_reads_names_the_groups_and_carries_the_cautions(shed, capsys):
    _, out, _ = run(capsys, shed)
    assert "workroom switch: workroom light" in out
    assert "they are proposed" in out
    assert all(caution in out for caution in CAUTIONS)


def test_a_house_with_problems_is_bad_input(shed, capsys):
    shed.write_text(demo_text("shed").replace("wall: south wall", "wall: sooth wall"), encoding="utf-8")
    status, out, err = run(capsys, shed)
    assert (status, out) == (2, "")
    assert "sooth" in err
