"""``setday gates``: what every surface must hold, listed, drawn, and as one document."""

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from setday.actions import demo_text
from setday.cli import main


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("gates") / "wired.yaml"
    path.write_text(demo_text("wired"), encoding="utf-8")
    return path


def test_one_document_lists_every_surface(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["gates", str(house), "--json"]) == 0
    said = capsys.readouterr()
    document = json.loads(said.out)
    assert said.err == ""
    assert len({each["surface"] for each in document["surfaces"]}) == len(document["surfaces"]) == 58
    assert all(each["items"] for each in document["surfaces"])
    assert [each["key"] for each in document["inspections"]] == [
        "inspection/electrical",
        "inspection/framing",
    ]


def test_what_stands_in_the_wall_for_the_other_side_is_told_apart(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["gates", str(house), "--json", "--surface", "hall/north"])
    (hall,) = json.loads(capsys.readouterr().out)["surfaces"]
    assert hall["other_sides"]
    assert {each["surface"] for each in hall["behind"]} <= set(hall["other_sides"])
    assert not {each["key"] for each in hall["behind"]} & {each["key"] for each in hall["items"]}


def test_a_surface_is_drawn_with_the_plan(
    house: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["gates", str(house), "--surface", "bath/south", "--out", str(tmp_path)]) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["behind-bath-south.svg", "gates.svg"]
    for path in tmp_path.iterdir():
        ElementTree.parse(path)
    assert "bath switches at bath door" in capsys.readouterr().out


def test_a_surface_the_house_does_not_have_is_one_sentence(
    house: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["gates", str(house), "--surface", "attic/north"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert "no surface 'attic/north'" in said.err
