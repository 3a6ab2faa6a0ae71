"""``setday switching``: what a person types, and what comes back."""

import json
from pathlib import Path

import pytest

from setday.actions.switching.hookups import example_names, example_text, open_hookup
from setday.cli import main
from setday.switching import CAUTIONS, Difficulty, HuntGround

VERBS = ("check", "try", "judge", "plan", "find", "hunt", "draw", "example", "house")


@pytest.fixture
def hall(tmp_path: Path) -> Path:
    path = tmp_path / "hall.yaml"
    path.write_text(example_text("three-way-light-between"), encoding="utf-8")
    return path


@pytest.fixture
def wrong(hall: Path) -> Path:
    """The feed on a traveler, the traveler on the common."""
    text = hall.read_text(encoding="utf-8")
    text = text.replace("feed black + S1 common", "feed black + S1 TRAVELER")
    text = text.replace("S1 traveler 1", "S1 common").replace("S1 TRAVELER", "S1 traveler 1")
    hall.write_text(text, encoding="utf-8")
    return hall


def run(capsys, *words):
    status = main(["switching", *(str(word) for word in words)])
    said = capsys.readouterr()
    return status, said.out, said.err


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_has_help_with_an_example(verb, capsys):
    status, out, _ = run(capsys, verb, "--help")
    assert status == 0
    assert f"Example:  setday switching {verb}" in out


@pytest.mark.parametrize("verb", ["check", "try", "judge", "plan", "find"])
def test_json_is_one_document_with_the_cautions(verb, hall, capsys):
    status, out, err = run(capsys, verb, hall, "--json")
    assert (status, err) == (0, "")
    assert json.loads(out)["cautions"] == list(CAUTIONS)


@pytest.mark.parametrize("verb", ["try", "judge", "plan", "find"])
def test_what_a_person_reads_carries_the_cautions(verb, hall, capsys):
    _, out, _ = run(capsys, verb, hall)
    assert all(caution in out for caution in CAUTIONS)


@pytest.mark.parametrize("word", ["safe", "approved", "compliant"])
@pytest.mark.parametrize("verb", ["try", "judge", "plan", "find"])
def test_it_never_vouches(verb, word, hall, capsys):
    _, out, _ = run(capsys, verb, hall)
    assert word not in out.lower()


def test_try_shows_every_position(hall, capsys):
    _, out, _ = run(capsys, "try", hall, "--json")
    looks = {tuple(p["states"]): p["loads"][0]["look"] for p in json.loads(out)["positions"]}
    assert len(looks) == 4
    assert sorted(looks.values()) == ["full", "full", "off", "off"]


def test_judge_ends_with_one_and_says_what_would_mend_it(wrong, capsys):
    status, out, _ = run(capsys, "judge", wrong, "--json")
    document = json.loads(out)
    assert status == 1
    assert not document["works"]
    steps = [mend["steps"] for mend in document["mends"]]
    assert any("near" in step for step in steps[0])


def test_judge_tells_a_person_the_same(wrong, capsys):
    status, out, _ = run(capsys, "judge", wrong)
    assert status == 1
    assert "should be lit" in out
    assert "would mend it, 1: In box 'near' swap" in out


def test_judge_shows_the_working_of_box_fill_and_what_it_held_the_hookup_against(hall, capsys):
    hall.write_text(
        hall.read_text(encoding="utf-8")
        + "local rules:\n  switching.lamp_shell:\n    value: no\n    said by: the inspector\n",
        encoding="utf-8",
    )
    _, out, _ = run(capsys, "judge", hall, "--fill")
    assert "Box fill of 'near': 16 in3; the box has 18 in3." in out
    assert "5 x 2 in3 = 10 in3" in out
    assert "404.2(A)" in out
    assert "Not checked, switched off by a local rule: The screw shell" in out
    document = json.loads(run(capsys, "judge", hall, "--json")[1])
    assert {box["box"]: box["needed_in3"] for box in document["box_fill"]}["near"] == 16.0
    assert [rule["key"] for rule in document["rules"] if rule["set_here"]] == ["switching.lamp_shell"]


def test_check_ends_with_one_where_there_are_problems(hall, capsys):
    hall.write_text(hall.read_text(encoding="utf-8").replace("S1 common", "S1 comon"), encoding="utf-8")
    status, out, _ = run(capsys, "check", hall)
    assert status == 1
    assert "Did you mean 'common'?" in out


@pytest.mark.parametrize("verb", ["try", "judge", "plan", "find", "draw"])
def test_a_file_with_problems_is_bad_input_and_nothing_is_written(verb, hall, capsys):
    text = hall.read_text(encoding="utf-8")
    hall.write_text(text.replace("S1 common", "S1 comon").replace("N1 white", "N1 blue"), encoding="utf-8")
    status, out, err = run(capsys, verb, hall)
    assert (status, out) == (2, "")
    assert "comon" in err
    assert "blue" in err
    assert list(hall.parent.iterdir()) == [hall]


def test_plan_writes_a_file_that_does_what_is_wanted(hall, capsys):
    out_file = hall.with_name("plan.yaml")
    _, out, _ = run(capsys, "plan", hall, "--out", out_file, "--json")
    assert json.loads(out)["proven"]
    status, _, _ = run(capsys, "judge", out_file)
    assert status == 0


def test_plan_says_what_would_help_where_there_is_none(hall, capsys):
    text = hall.read_text(encoding="utf-8")
    hall.write_text(text.replace("  - near to light, 12 ft\n", ""), encoding="utf-8")
    status, _, err = run(capsys, "plan", hall)
    assert status == 2
    assert "No path leads" in err


def test_find_names_the_fault_and_the_next_test(hall, capsys):
    saw = [
        "S1 up, S2 up: L1 off",
        "S1 up, S2 down: L1 off",
        "S1 down, S2 up: L1 off",
        "S1 down, S2 down: L1 off",
    ]
    words = [word for text in saw for word in ("--saw", text)]
    _, out, _ = run(capsys, "find", hall, *words, "--json", "--dead-only")
    document = json.loads(out)
    assert document["suspects_in_all"] > 10
    assert document["next"]["test"]["kind"] == "dead"
    assert not document["next"]["instructor_only"]


def test_find_refuses_what_it_cannot_read(hall, capsys):
    status, _, err = run(capsys, "find", hall, "--saw", "S1 up: L1 off")
    assert status == 2
    assert "position of S2 is missing" in err


def test_a_hunt_shows_only_what_a_house_shows_until_the_fault_is_named(hall, capsys):
    asked = ["--ask", "S1 up, S2 up", "--ask", "S1 up, S2 up: dead, S1 common to feed black in near"]
    status, out, _ = run(capsys, "hunt", hall, "--seed", "3", *asked, "--json")
    document = json.loads(out)
    assert status == 0
    assert len(document["seen"]) == 2
    assert (document["faults"], document["score"]) == ([], None)


def test_a_hunt_is_scored_when_the_fault_is_named(hall, capsys):
    ground = HuntGround(open_hookup(hall.read_bytes(), name="hall.yaml").sound())
    right = ground.draw(difficulty=Difficulty.EASY, seed=3).words
    wrong = next(words for words in ground.fault_words() if words != right)
    assert run(capsys, "hunt", hall, "--seed", "3", "--name", right)[0] == 0
    status, out, _ = run(capsys, "hunt", hall, "--seed", "3", "--name", wrong, "--json")
    assert status == 1
    assert json.loads(out)["score"]["best_tests"] >= 1


def test_draw_writes_the_diagram_and_pages(hall, capsys):
    pdf = hall.with_name("hall.pdf")
    status, _, _ = run(capsys, "draw", hall, "--pdf", pdf)
    assert status == 0
    assert hall.with_suffix(".svg").read_text(encoding="utf-8").startswith("<svg")
    assert pdf.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("name", example_names())
def test_every_example_is_printed_and_can_be_judged(name, tmp_path, capsys):
    _, out, _ = run(capsys, "example", name)
    path = tmp_path / "it.yaml"
    path.write_text(out, encoding="utf-8")
    assert run(capsys, "judge", path)[0] == 0


def test_the_worked_example_of_the_docs_is_what_it_says(tmp_path, capsys):
    docs = Path(__file__).resolve().parents[2] / "docs" / "switching.md"
    text = docs.read_text(encoding="utf-8")
    example = text[text.index("```yaml\nsetday hookup: 1") + 8 :]
    path = tmp_path / "docs.yaml"
    path.write_text(example[: example.index("```")], encoding="utf-8")
    status, out, err = run(capsys, "judge", path)
    assert (status, err) == (0, ""), out


START = "setday hookup: 1\nname: small\nfeed: {box: A}\n"
SMALL = {
    "an empty box": "boxes: {A: {}}\n",
    "a lamp and no switch": "boxes: {A: {devices: {L1: lamp}}}\nwants: [L1 always]\n",
    "a short across the feed": (
        "boxes: {A: {devices: {S1: single-pole switch}}}\njoins: {A: [feed black + feed white]}\n"
    ),
    "two single-pole switches for one lamp": (
        "boxes: {A: {devices: {S1: single-pole switch, S2: single-pole switch, L1: lamp}}}\n"
        "wants: [L1 from S1 and S2]\n"
    ),
    "names of any kind": "boxes: {A: {devices: {'\u0141 <1>': lamp}}}\nwants: ['\u0141 <1> always']\n",
    "a box that two switches share": (
        "boxes: {A: {devices: {S1: three-way switch, S2: three-way switch, L1: lamp}}}\n"
        "wants: [L1 from S1 and S2]\n"
    ),
}


@pytest.mark.parametrize("verb", ["check", "try", "judge", "plan", "find", "hunt"])
@pytest.mark.parametrize("body", SMALL.values(), ids=list(SMALL))
def test_the_smallest_and_oddest_hookups_get_an_answer(verb, body, tmp_path, capsys):
    path = tmp_path / "small.yaml"
    path.write_text(START + body, encoding="utf-8")
    status, out, err = run(capsys, verb, path)
    assert status in {0, 1, 2}
    assert out or err
