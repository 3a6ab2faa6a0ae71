"""``setday prepare``."""

from setday.cli import main


def test_every_kind_of_search_is_made_ready(capsys):
    assert main(["prepare"]) == 0
    said = capsys.readouterr().out
    for kind in ("timetables", "odds", "repairs", "board layouts"):
        assert f"Ready: {kind} (" in said
